#pragma once

#include "desk.h"

namespace strikeoff {

class RecordForm;

/// Puts into the form of a customer or a crew member what is done about a person: writing out all that the book holds about them, and blotting them out.
void addPersonActions(Desk& desk, RecordForm& form);

}
