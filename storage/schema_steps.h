#pragma once

#include <string>
#include <vector>

namespace strikeoff {

/// The statements of each released step, in the order in which a book goes through them; {id}, {int} and {strict} are the dialect's.
std::vector<std::string> schemaStep1();
std::vector<std::string> schemaStep2();
std::vector<std::string> schemaStep3();

}
