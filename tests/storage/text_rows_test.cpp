#include "text_rows.h"

#include <catch2/catch.hpp>

using namespace strikeoff;

TEST_CASE("text is split by the separator it looks to have, and a row's place is its line", "[text_rows]")
{
    const auto commas = splitText("Ticket,Description,Amount\r\n48213,\"4000 psi, air\",\"1,615.00\"\r\n");
    REQUIRE(commas.rows.size() == 2);
    CHECK(commas.rows[1] == std::vector<std::string>{"48213", "4000 psi, air", "1,615.00"});
    const auto pasted = splitText("Ticket\tAmount\n\n\n48213\t1.615,00\n");
    REQUIRE(pasted.rows.size() == 4);
    CHECK(pasted.rows[1].empty());
    CHECK(pasted.rows[3] == std::vector<std::string>{"48213", "1.615,00"});
    CHECK(splitText("a,b;c\n1,2;3\n", Separator::semicolon).rows[0].size() == 2);
    CHECK(splitText("").rows.empty());
}

TEST_CASE("what cannot be split says where", "[text_rows]")
{
    const auto split = splitText("Ticket,Amount\n\"48213,12.00\n");
    REQUIRE(split.fault);
    CHECK(split.fault->line == 2);
}
