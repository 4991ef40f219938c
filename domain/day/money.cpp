#include "billing/billing.h"
#include "cost/forecast.h"
#include "day/sections.h"
#include "job/stage.h"
#include "quantity/words.h"
#include "ready_mix/codes.h"

#include <algorithm>

namespace strikeoff::day {

namespace {

constexpr int daysAhead = 7;
constexpr int daysAheadForNotice = 14;

DayItem moneyItem(const std::string& what, const std::string& why, const char* verb, bool late, RecordKind kind, std::int64_t id)
{
    DayItem item;
    item.section = DaySection::money;
    item.what = what;
    item.why = why;
    item.verb = verb;
    item.late = late;
    item.kind = kind;
    item.id = id;
    return item;
}

void addInvoices(const Book& book, Date date, Items& items)
{
    for (const auto& one : owedOn(book, date).invoices) {
        if (one.balance <= Money{} || one.daysLate < 0) continue;
        const bool late = one.daysLate > 0;
        Reason why;
        why.also(late ? counted(one.daysLate, "day", "days") + " past due" : "due today");
        if (late && one.customer) why.also(one.customer->phone);
        if (!one.lateCharge.isZero()) why.also("late charge so far " + dollars(one.lateCharge));
        items.push_back(moneyItem("Invoice " + one.invoice->number + (one.customer ? ", " + one.customer->name : "") + ": " +
                                      dollars(one.balance),
                                  why.text(), late ? "Call" : "Open", late, RecordKind::invoice, one.invoice->id.value()));
    }
}

std::optional<Money> amountOf(const Book& book, const Statement& statement)
{
    if (statement.total) return statement.total;
    const auto lines = book.referring<&StatementLine::statement>(statement.id);
    if (lines.empty()) return std::nullopt;
    Money sum;
    for (const auto* line : lines) sum += line->amount;
    return sum;
}

void addStatements(const Book& book, Date date, Items& items)
{
    for (const auto& statement : book.all<Statement>()) {
        if (statement.paidOn || statement.date > date) continue;
        const auto* supplier = book.find(statement.supplier);
        auto due = statement.dueOn;
        if (!due && supplier && supplier->termsDays) due = statement.date + *supplier->termsDays;
        const bool discount =
            statement.discountUntil && *statement.discountUntil >= date && *statement.discountUntil <= date + daysAhead;
        const bool payable = due && *due <= date + daysAhead;
        if (!discount && !payable) continue;
        const bool late = due && *due < date;
        Reason why;
        if (discount) why.also("pay by " + dayText(*statement.discountUntil, date) + " to keep the discount");
        if (due) why.also(late ? "was due " + dayText(*due, date) : "due " + dayText(*due, date));
        if (!statement.approvedOn) why.also("not approved yet");
        const auto amount = amountOf(book, statement);
        items.push_back(moneyItem("Pay " + (supplier ? supplier->name + ", " : "") + "statement " + statement.number + ": " +
                                      (amount ? dollars(*amount) : "amount not recorded"),
                                  why.text(), "Open", late, RecordKind::statement, statement.id.value()));
    }
}

std::optional<Date> lastPoured(const Book& book, Id<Job> job)
{
    std::optional<Date> last;
    for (const auto* pour : book.referring<&Pour::job>(job))
        if (pour->pouredOn && (!last || *last < *pour->pouredOn)) last = pour->pouredOn;
    return last;
}

void addJobs(const Book& book, Date date, Items& items)
{
    for (const auto& job : book.all<Job>()) {
        if (job.droppedOn) continue;
        if (job.lienNoticeDue && *job.lienNoticeDue <= date + daysAheadForNotice && *job.lienNoticeDue >= date) {
            const auto billing = billingOf(book, job.id);
            if (billing.balance > Money{} || !billing.inFull)
                items.push_back(moneyItem("Lien notice for " + job.title,
                                          "to be given by " + dayText(*job.lienNoticeDue, date) +
                                              " as you entered it; state law sets the day, so ask a lawyer",
                                          "Open", false, RecordKind::job, job.id.value()));
        }
        if (job.closedOn) continue;
        const auto last = lastPoured(book, job.id);
        if (!last || *last >= date || stageOf(book, job) != Stage::poured) continue;
        std::string what = "Bill " + job.title;
        if (const auto bid = bidOf(book, job.id)) {
            const auto left = bid->price - billingOf(book, job.id).net;
            if (left > Money{}) what += ": " + dollars(left) + " before tax";
        }
        items.push_back(moneyItem(what, "poured " + dayText(*last, date) + ", nothing left to do there, not billed in full", "Open",
                                  false, RecordKind::job, job.id.value()));
    }
}

/// Won jobs that by what was spent and is still to come will cost more than they bring.
void addLosingJobs(CostReckoner& reckoner, Items& items)
{
    for (const auto& forecast : headingForALoss(reckoner)) {
        std::string why = dollars(forecast.expected()) + " expected at completion against its price of " + dollars(*forecast.price);
        if (const auto* driver = forecast.driver())
            why += "; " + lowered(labelOf(driver->costClass)) + " drives it, " + dollars(driver->difference()) + " over its bid";
        items.push_back(moneyItem(forecast.job->title + " is heading for a loss of " + dollars(-*forecast.profit()), why, "Open", false, RecordKind::job, forecast.job->id.value()));
    }
}

}

void addMoney(CostReckoner& reckoner, Date date, Items& items)
{
    const auto& book = reckoner.book();
    addInvoices(book, date, items);
    addStatements(book, date, items);
    addJobs(book, date, items);
    addLosingJobs(reckoner, items);
}

}
