#include "app/demo_book.h"

#include "ready_mix/statement_findings.h"

#include <catch2/catch.hpp>

#include <iostream>
#include <map>

using namespace strikeoff;

namespace {

const Book& demonstrationBook()
{
    static const Book book = [] {
        Book made;
        const auto outcome = applyEdit(made, withIds(demonstrationEdit()));
        for (const auto& problem : outcome.problems) FAIL(problem.field << ": " << problem.message);
        return made;
    }();
    return book;
}

/// What was planted, by statement and line.
std::map<std::pair<std::string, int>, PlantedFault> plantedByLine()
{
    std::map<std::pair<std::string, int>, PlantedFault> found;
    for (const auto& fault : plantedFaults())
        if (fault.line > 0) found[{fault.statement, fault.line}] = fault;
    return found;
}

}

TEST_CASE("every fault planted in the demonstration's statements is found, and nothing else is disputed", "[demo][match]")
{
    const auto& book = demonstrationBook();
    const StatementDesk desk{book};
    const auto planted = plantedByLine();
    int found = 0, missed = 0, falseDisputes = 0, lines = 0, remarks = 0;
    for (const auto& statement : book.all<Statement>()) {
        const auto check = desk.check(statement);
        CHECK(check.billed == check.agreed + check.disputed + check.needsEye);
        CHECK(check.billed == statement.total);
        for (const auto& finding : check.lines) {
            CHECK(finding.billed == finding.agreed + finding.disputed + finding.needsEye);
            if (!finding.line) continue;
            ++lines;
            const auto place = planted.find({statement.number, finding.line->line});
            INFO(statement.number << " line " << finding.line->line << ": " << finding.why);
            if (place == planted.end()) {
                if (finding.finding != Finding::agrees && finding.finding != Finding::credit) ++falseDisputes;
                CHECK((finding.finding == Finding::agrees || finding.finding == Finding::credit));
                continue;
            }
            const auto& fault = place->second;
            INFO("planted " << fault.finding << ": " << fault.what);
            const bool agrees = fault.finding == "agrees" || fault.finding == "remark";
            const bool right = codeOf(finding.finding) == (agrees ? "agrees" : fault.finding) && std::max(finding.difference, Money{}) == fault.comesBack;
            CHECK(codeOf(finding.finding) == (agrees ? "agrees" : fault.finding));
            CHECK(std::max(finding.difference, Money{}) == fault.comesBack);
            CHECK(finding.follows == fault.follows);
            if (fault.finding == "agrees") CHECK(finding.how == PairedHow::near);
            if (fault.finding == "needs_your_eye") {
                CHECK(finding.candidates.size() == 2);
                CHECK(std::any_of(finding.candidates.begin(), finding.candidates.end(), [&](const auto& candidate) { return candidate.ticket->number == fault.ticketNumber; }));
            } else if (!fault.ticketNumber.empty()) {
                REQUIRE(finding.ticket);
                CHECK(finding.ticket->number == fault.ticketNumber);
            }
            if (fault.finding == "remark") {
                ++remarks;
                CHECK(std::any_of(check.remarks.begin(), check.remarks.end(), [&](const auto& remark) { return remark.ticket == finding.ticket; }));
            }
            ++(right ? found : missed);
        }
    }
    // What is wrong with a statement as a whole, and loads that it leaves out.
    for (const auto& fault : plantedFaults()) {
        if (fault.line > 0) continue;
        for (const auto& statement : book.all<Statement>()) {
            if (statement.number != fault.statement) continue;
            const auto check = desk.check(statement);
            INFO(fault.what);
            bool right = false;
            if (fault.finding == "unbilled")
                right = std::any_of(check.unbilled.begin(), check.unbilled.end(), [&](const auto& ticket) { return ticket.ticket->number == fault.ticketNumber && ticket.expected == -fault.overSheet; });
            else
                right = std::any_of(check.lines.begin(), check.lines.end(), [&](const auto& finding) { return !finding.line && codeOf(finding.finding) == fault.finding && finding.difference == fault.comesBack; });
            CHECK(right);
            ++(right ? found : missed);
        }
    }
    std::cout << "demonstration: " << lines << " statement lines, " << found << " planted faults found, " << missed << " missed, " << falseDisputes << " false disputes, " << remarks
              << " remarks\n";
    CHECK(missed == 0);
    CHECK(falseDisputes == 0);
    CHECK(found == static_cast<int>(plantedFaults().size()));
}
