#include "day/sections.h"
#include "job/stage.h"
#include "quantity/words.h"
#include "visits/windows.h"

namespace strikeoff::day {

namespace {

constexpr int daysUntilCall = 2;    // a lead never called, common practice
constexpr int daysUntilAnswer = 7;  // a quote without an answer, common practice
constexpr int daysRemembered = 60;  // past its time a call stands in one line with the others

DayItem call(const std::string& whom, const std::string& phone, const std::string& why, bool late, RecordKind kind, std::int64_t id)
{
    DayItem item;
    item.section = DaySection::calls;
    item.what = "Call " + whom + (phone.empty() ? "" : ", " + phone);
    item.why = why;
    item.verb = "Call";
    item.kind = kind;
    item.id = id;
    item.late = late;
    return item;
}

/// What waits so long that one line for all of it must do.
struct Pile {
    int count = 0;
    std::int64_t first = 0;
    void add(std::int64_t id)
    {
        if (count++ == 0) first = id;
    }
};

void addPile(const Pile& pile, const std::string& what, const std::string& why, RecordKind kind, Items& items)
{
    if (pile.count == 0) return;
    DayItem item;
    item.section = DaySection::calls;
    item.what = what;
    item.why = why;
    item.verb = "Open";
    item.kind = kind;
    item.id = pile.first;
    item.late = true;
    items.push_back(item);
}

/// Whether a call that the owner set himself waits for him on the day.
bool isCallDue(const Lead& lead, Date date)
{
    return !lead.lostOn && lead.nextCallOn && *lead.nextCallOn <= date && !(lead.calledOn && *lead.calledOn >= *lead.nextCallOn);
}

void addLeads(const Book& book, Date date, Items& items)
{
    Pile old;
    for (const auto& lead : book.all<Lead>()) {
        if (lead.lostOn || lead.receivedOn > date) continue;
        if (isCallDue(lead, date)) {
            const bool late = *lead.nextCallOn < date;
            items.push_back(call(lead.name, lead.phone,
                                 late ? "was to be called " + dayText(*lead.nextCallOn, date) : "to be called today", late,
                                 RecordKind::lead, lead.id.value()));
            continue;
        }
        if (lead.calledOn || lead.nextCallOn || lead.receivedOn + daysUntilCall > date ||
            !book.referring<&Job::lead>(lead.id).empty())
            continue;
        if (lead.receivedOn + daysRemembered < date) {
            old.add(lead.id.value());
            continue;
        }
        items.push_back(call(lead.name, lead.phone,
                             "asked " + counted(date - lead.receivedOn, "day", "days") + " ago and was never called", true,
                             RecordKind::lead, lead.id.value()));
    }
    addPile(old, "Call or give up " + counted(old.count, "old lead", "old leads"),
            "asked more than " + std::to_string(daysRemembered) + " days ago and never called; mark as lost what is lost",
            RecordKind::lead, items);
}

void addQuotes(const Book& book, Date date, Items& items)
{
    Pile old;
    for (const auto& quote : book.all<Quote>()) {
        if (!quote.sentOn || *quote.sentOn + daysUntilAnswer > date || quote.acceptedOn || quote.declinedOn ||
            unansweredQuote(book, quote.job) != &quote)
            continue;
        const auto* job = book.find(quote.job);
        if (!job || stageOf(book, *job) != Stage::quoted) continue;
        // A call that is due stands on the sheet by itself, and one set for later is the owner's word.
        if (const auto* lead = book.find(job->lead);
            lead && lead->nextCallOn && (*lead->nextCallOn > date || isCallDue(*lead, date)))
            continue;
        const auto end = quote.validUntil.value_or(*quote.sentOn);
        if (end + daysRemembered < date) {
            old.add(quote.id.value());
            continue;
        }
        const auto* customer = book.find(job->customer);
        Reason why;
        why.also("sent " + counted(date - *quote.sentOn, "day", "days") + " ago for " + dollars(totalOf(book, quote).net) +
                 ", no answer");
        const bool late = quote.validUntil && *quote.validUntil < date;
        if (quote.validUntil)
            why.also(late ? "it held until " + dayText(*quote.validUntil, date)
                          : "it holds until " + dayText(*quote.validUntil, date));
        items.push_back(call((customer ? customer->name : job->title) + " about quote " + quote.number,
                             customer ? customer->phone : "", why.text(), late, RecordKind::quote, quote.id.value()));
    }
    addPile(old, "Ask about or give up " + counted(old.count, "old quote", "old quotes"),
            "out of date for more than " + std::to_string(daysRemembered) +
                " days and never answered; mark as declined what is lost",
            RecordKind::quote, items);
}

void addResealCalls(const Book& book, Date date, Items& items)
{
    const VisitWindows windows{book};
    for (const auto& visit : book.all<Visit>()) {
        if (visit.kind != VisitKind::resealCall || !visit.isOpen()) continue;
        const auto day = visit.plannedOn ? visit.plannedOn : windows.inDays(visit).due;
        if (!day || *day > date) continue;
        const auto* job = book.find(visit.job);
        if (!job || job->droppedOn) continue;
        const auto* customer = book.find(job->customer);
        const auto* pour = book.find(visit.pour);
        Reason why;
        if (pour && pour->pouredOn) why.also("poured in " + shownMonth(*pour->pouredOn));
        why.also("call due " + dayText(*day, date));
        items.push_back(call((customer ? customer->name : job->title) + " about resealing " + job->title,
                             customer ? customer->phone : "", why.text(), *day < date, RecordKind::visit, visit.id.value()));
    }
}

}

void addCalls(const Book& book, Date date, Items& items)
{
    addLeads(book, date, items);
    addQuotes(book, date, items);
    addResealCalls(book, date, items);
}

}
