#include "verbs/verb.h"

#include "json_writer.h"
#include "review/charge.h"
#include "text_table.h"

#include <cmath>
#include <ostream>

namespace strikeoff {

namespace {

std::optional<Money> moneyOf(double dollars) { return Money::ofCents(std::llround(dollars * 100)); }

std::string required(const Arguments& arguments, std::string_view option)
{
    const auto typed = arguments.value(option);
    if (!typed) throw UsageError{"--" + std::string{option} + " is missing; a charge needs --type, --area, --thickness and --month"};
    return *typed;
}

/// A figure above nothing.
double figureOf(const Arguments& arguments, std::string_view option, std::string_view unit)
{
    const auto typed = required(arguments, option);
    const auto figure = Quantity::parse(typed);
    if (!figure || *figure <= Quantity{} || *figure > Quantity::ofWhole(1'000'000))
        throw UsageError{"--" + std::string{option} + ' ' + inQuotes(typed) + " is no figure above nothing; write it in " + std::string{unit} + ", as 450 or 4.5"};
    return figure->toDouble();
}

std::optional<Money> moneyOption(const Arguments& arguments, std::string_view option)
{
    const auto typed = arguments.value(option);
    if (!typed) return std::nullopt;
    const auto money = Money::parse(*typed);
    if (!money || *money < Money{}) throw UsageError{"--" + std::string{option} + ' ' + inQuotes(*typed) + " is no sum of dollars; write it as 3250 or 3250.50"};
    return money;
}

/// A month's number, or a month of a year ("2027-04").
int monthOf(const Arguments& arguments)
{
    auto typed = required(arguments, "month");
    if (const auto day = Date::parse(typed + "-01")) return day->month();
    const auto number = parseDecimal(typed, 0);
    if (!number || *number < 1 || *number > 12) throw UsageError{"--month " + inQuotes(typed) + " is no month; write 1 to 12, or a month of a year as 2027-04"};
    return static_cast<int>(*number);
}

const JobType& typeNamed(const Book& book, const std::string& typed)
{
    const auto plain = [](std::string_view text) {
        std::string small;
        for (const char c : text) small += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        return small;
    };
    std::string all;
    for (const auto& type : book.all<JobType>()) {
        if (plain(type.name) == plain(typed)) return type;
        if (!all.empty()) all += ", ";
        all += type.name;
    }
    throw StorageError{"there is no job type " + inQuotes(typed) + (all.empty() ? "; the book has none yet" : "; the types are " + all)};
}

std::string asJson(const Charge& charge, const JobType& type, const ChargeQuestion& question)
{
    JsonWriter json;
    json.beginObject().text("type", type.name).decimal("area_sqft", question.areaSqft, 2).decimal("thickness_in", question.thicknessIn, 3).whole("month", question.month);
    json.whole("jobs_of_type", charge.jobsOfType).whole("jobs", charge.jobs);
    json.key("cost");
    if (charge.missing.empty()) {
        json.beginObject().money("estimate", moneyOf(charge.cost.value)).money("low", moneyOf(charge.cost.low)).money("high", moneyOf(charge.cost.high)).end();
        json.key("crew_hours").beginObject().decimal("estimate", charge.hours.value, 2).decimal("low", charge.hours.low, 2).decimal("high", charge.hours.high, 2).end();
        json.key("parts").beginArray();
        for (const auto& part : charge.parts) json.beginObject().text("part", part.name).money("amount", moneyOf(part.amount)).text("detail", part.detail).whole("jobs", part.jobs).end();
        json.end().money("profit_per_crew_hour", moneyOf(charge.profitPerCrewHour)).money("price_for_profit", moneyOf(charge.priceForProfit)).money("price", moneyOf(charge.judgedPrice));
        json.money("profit_per_crew_hour_at_price", charge.profitAtPrice ? moneyOf(*charge.profitAtPrice) : std::nullopt).decimal("chance_of_loss", charge.chanceOfLoss, 4);
    } else {
        json.null();
    }
    json.key("chance_of_winning");
    if (charge.chanceOfWinning)
        json.beginObject().decimal("estimate", charge.chanceOfWinning->value, 4).decimal("low", charge.chanceOfWinning->low, 4).decimal("high", charge.chanceOfWinning->high, 4).end();
    else json.null();
    json.whole("quotes_won", charge.quotesWon).whole("quotes_lost", charge.quotesLost).textOrNull("winning", charge.winning).textOrNull("missing", charge.missing).text("answer", charge.answer).end();
    return json.finished();
}

std::string asText(const Charge& charge)
{
    auto text = charge.answer + '\n';
    if (!charge.missing.empty()) return text;
    const auto money = [](double dollars) { return moneyOf(dollars)->shown(); };
    TextTable parts;
    parts.words("What it costs").figures("$").figures("Jobs").words("How", 90);
    for (const auto& part : charge.parts) parts.row({part.name, money(part.amount), std::to_string(part.jobs), part.detail});
    parts.row({"Together", money(charge.cost.value), std::to_string(charge.jobs), "eight jobs in ten between " + money(charge.cost.low) + " and " + money(charge.cost.high)});
    text += '\n' + parts.text() + '\n' + charge.winning + '\n';
    return text + "A range of past jobs, not a promise: what is special about this one, its access, its ground and its weather, is yours to judge.\n";
}

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    ChargeQuestion question;
    const auto typed = required(arguments, "type");
    question.areaSqft = figureOf(arguments, "area", "ft\u00b2");
    question.thicknessIn = figureOf(arguments, "thickness", "inches");
    question.month = monthOf(arguments);
    question.price = moneyOption(arguments, "price");
    question.profitPerCrewHour = moneyOption(arguments, "per-hour");
    const auto store = openToRead(arguments.words[0]);
    const auto& book = store->book();
    const auto& type = typeNamed(book, typed);
    question.type = type.id;
    CostReckoner reckoner{book};
    const auto charge = chargeFor(finishedJobs(reckoner, surroundings.today), question, pricesToCharge(reckoner, surroundings.today), book.settings().southernHalf, surroundings.today);
    surroundings.out << (arguments.has("json") ? asJson(charge, type, question) : asText(charge));
    return done;
}

}

const Verb chargeVerb{
    "charge",
    "BOOK",
    "what should I charge: cost, price and chances from the shop's own history",
    {{"type", "T", "the job type by its name"},
     {"area", "A", "square feet"},
     {"thickness", "IN", "inches"},
     {"month", "M", "the month it is poured in, 1 to 12 or as 2027-04"},
     {"price", "P", "a price to be judged; else the one that brings the profit chosen"},
     {"per-hour", "N", "gross profit per crew-hour to bring, in dollars; what all finished jobs made when left out"},
     jsonOption},
    "Cost and its range come from the finished jobs of the book, the chance of winning from its won and lost quotes. Below eight\n"
    "finished jobs of the type, or ten quotes won and ten lost, it says that history is not enough.\n",
    run};

}
