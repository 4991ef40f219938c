#include "day/sections.h"
#include "quantity/words.h"
#include "visits/visit_words.h"

#include <algorithm>

namespace strikeoff::day {

namespace {

constexpr int daysForTickets = 60;  // past them nobody finds the paper any more
constexpr int daysForHours = 14;

DayItem paper(const std::string& what, const std::string& why, const char* verb, RecordKind kind, std::int64_t id)
{
    DayItem item;
    item.section = DaySection::paper;
    item.what = what;
    item.why = why;
    item.verb = verb;
    item.kind = kind;
    item.id = id;
    return item;
}

bool hasTickets(const Book& book, const Pour& pour)
{
    if (!book.referring<&Ticket::pour>(pour.id).empty()) return true;
    const auto tickets = book.referring<&Ticket::job>(pour.job);
    return std::any_of(tickets.begin(), tickets.end(),
                       [&](const Ticket* ticket) { return !ticket->pour && ticket->date == pour.pouredOn; });
}

bool hasHours(const Book& book, const Pour& pour)
{
    const auto rows = book.referring<&Hours::job>(pour.job);
    return std::any_of(rows.begin(), rows.end(),
                       [&](const Hours* row) { return row->pour == pour.id || row->date == pour.pouredOn; });
}

void addPoured(const Book& book, Date date, Items& items)
{
    for (const auto& pour : book.all<Pour>()) {
        if (!pour.pouredOn || *pour.pouredOn > date || *pour.pouredOn + daysForTickets < date) continue;
        const auto* job = book.find(pour.job);
        if (!job || job->droppedOn) continue;
        const auto place = workPlace(book, pour.job, pour.id);
        const auto poured = "poured " + dayText(*pour.pouredOn, date);
        const auto toEnter = [&](RecordKind kind, const std::string& what, const char* why) {
            items.push_back(paper(what + place, poured + why, "Enter", RecordKind::pour, pour.id.value()));
            items.back().enters = kind;
        };
        if (!hasTickets(book, pour)) toEnter(RecordKind::ticket, "Enter the tickets of ", ", no ticket entered");
        if (*pour.pouredOn + daysForHours >= date && !hasHours(book, pour))
            toEnter(RecordKind::hours, "Enter the hours of ", ", no hours entered");
    }
}

void addStatements(const Book& book, Date date, Items& items)
{
    for (const auto& statement : book.all<Statement>()) {
        if (statement.approvedOn || statement.paidOn || statement.date > date) continue;
        const auto* supplier = book.find(statement.supplier);
        Reason why;
        why.also("dated " + dayText(statement.date, date) + (statement.total ? ", " + dollars(*statement.total) : ""));
        why.also("not approved");
        if (statement.discountUntil && *statement.discountUntil >= date)
            why.also("the discount runs until " + dayText(*statement.discountUntil, date));
        auto item = paper("Check statement " + statement.number + (supplier ? " of " + supplier->name : ""), why.text(), "Open",
                          RecordKind::statement, statement.id.value());
        item.late = statement.dueOn && *statement.dueOn < date;
        items.push_back(std::move(item));
    }
}

void addStrayTickets(const Book& book, Date date, Items& items)
{
    int old = 0;
    std::int64_t first = 0;
    for (const auto& ticket : book.all<Ticket>()) {
        if (ticket.job || ticket.pour || ticket.date > date) continue;
        if (ticket.date + daysForTickets < date) {
            if (old++ == 0) first = ticket.id.value();
            continue;
        }
        const auto* supplier = book.find(ticket.supplier);
        items.push_back(
            paper("Give ticket " + ticket.number + " its job",
                  dayText(ticket.date, date) + ", " + ticket.yards.text() + " yd\u00b3" + (supplier ? ", " + supplier->name : ""),
                  "Open", RecordKind::ticket, ticket.id.value()));
    }
    if (old > 0)
        items.push_back(paper("Give " + counted(old, "old ticket its job", "old tickets their jobs"),
                              "dated more than " + std::to_string(daysForTickets) + " days ago", "Open", RecordKind::ticket,
                              first));
}

}

void addPaper(const Book& book, Date date, Items& items)
{
    addPoured(book, date, items);
    addStatements(book, date, items);
    addStrayTickets(book, date, items);
}

}
