#include "verbs/verb.h"

#include "json_writer.h"
#include "labor/crew_week.h"
#include "text_table.h"

#include <ostream>

namespace strikeoff {

namespace {

void addPay(JsonWriter& json, const WeekPay& pay)
{
    json.whole("straight_minutes", pay.straightMinutes().count());
    json.whole("overtime_minutes", pay.overtime.count());
    json.whole("double_minutes", pay.doubled.count());
    json.money("straight_pay", pay.straight);
    json.money("overtime_premium", pay.premium);
    json.money("bonus", pay.bonus);
    json.money("gross", pay.gross());
    json.key("burden").beginObject();
    for (std::size_t i = 0; i < burdenItemCount; ++i) json.money(burdenItemChoices[i].code, pay.burden[i]);
    json.end().money("true_cost", pay.trueCost());
}

std::string asJson(const CrewWeek& week)
{
    JsonWriter json;
    json.beginObject().date("from", week.from).date("to", week.to).text("answer", week.answer).key("people").beginArray();
    for (const auto& mine : week.people) {
        json.beginObject().text("person", mine.person->name).key("days").beginArray();
        for (const auto& day : mine.days) {
            json.beginObject().date("date", day.date).whole("minutes", day.minutes.count()).money("true_cost", day.cost).key("work").beginArray();
            for (const auto& work : day.work)
                json.beginObject().textOrNull("job", work.job ? work.job->number : "").text("phase", codeOf(work.phase)).whole("minutes", work.minutes.count()).end();
            json.end().end();
        }
        json.end();
        addPay(json, mine.pay);
        json.key("regular_rate");
        if (mine.pay.regularRate) json.text(mine.pay.regularRate->text());
        else json.null();
        json.boolean("rates_known", mine.pay.allRatesKnown).end();
    }
    json.end().key("total").beginObject();
    addPay(json, week.all);
    json.end().key("cautions").beginArray();
    for (const auto& caution : week.cautions) json.text(caution);
    json.end().end();
    return json.finished();
}

std::string shownOrBlank(Minutes minutes) { return minutes == Minutes{} ? std::string{} : minutes.shown(); }

std::string asText(const CrewWeek& week)
{
    auto text = week.answer + '\n';
    if (!week.people.empty()) {
        TextTable table;
        table.words("Person", 28);
        for (int i = 0; i < 7; ++i) table.figures((week.from + i).shownShort());
        table.figures("Straight h").figures("Overtime h").figures("Gross $").figures("Burden $").figures("True cost $");
        const auto row = [&](const std::string& name, const std::vector<Minutes>& days, const WeekPay& pay) {
            std::vector<std::string> cells{name};
            for (const auto minutes : days) cells.push_back(shownOrBlank(minutes));
            cells.insert(cells.end(), {pay.straightMinutes().shown(), shownOrBlank(pay.overtime + pay.doubled), pay.gross().shown(), pay.burdenTotal().shown(), pay.trueCost().shown()});
            table.row(std::move(cells));
        };
        for (const auto& mine : week.people)
            row(mine.person->name, mine.minutesByDay(), mine.pay);
        row("All", week.minutesByDay(), week.all);
        text += '\n' + table.text();
        TextTable burden;
        burden.words("On top of pay").figures("$");
        for (std::size_t i = 0; i < burdenItemCount; ++i)
            if (!week.all.burden[i].isZero()) burden.row({std::string{burdenItemChoices[i].label}, week.all.burden[i].shown()});
        if (!burden.empty()) text += '\n' + burden.text();
    }
    text += '\n';
    for (const auto& caution : week.cautions) text += caution + '\n';
    return text;
}

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    auto day = surroundings.today;
    if (const auto typed = arguments.value("of")) {
        const auto read = Date::read(*typed, surroundings.today);
        if (!read) throw UsageError{"--of " + inQuotes(*typed) + " is no day that exists; write it as YYYY-MM-DD"};
        day = *read;
    }
    const auto store = openToRead(arguments.words[0]);
    const auto& book = store->book();
    const LaborCost labor{book};
    const auto week = crewWeek(book, labor, day);
    surroundings.out << (arguments.has("json") ? asJson(week) : asText(week));
    return done;
}

}

const Verb weekVerb{
    "week",
    "BOOK",
    "the crew's week: hours, overtime, pay and what it truly cost",
    {{"of", "D", "a day of the week meant (YYYY-MM-DD, yesterday); today when left out"}, jsonOption},
    "Workweek, overtime rule and clock rounding are settings; pay rates, bonuses and burden rates are records of the book.\n"
    "Rules differ by state and change by year: ask whoever does your payroll.\n",
    run};

}
