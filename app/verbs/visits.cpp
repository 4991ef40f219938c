#include "verbs/verb.h"

#include "file.h"
#include "json_writer.h"
#include "phone_calendar.h"
#include "record/field_text.h"
#include "text_table.h"
#include "visits/load_out.h"
#include "visits/needed_visits.h"
#include "visits/planner/visit_plan.h"

#include <limits>
#include <ostream>

namespace strikeoff {

namespace {

std::string dayOrBlank(const std::optional<Moment>& moment) { return moment ? moment->date().text() : ""; }

void addRow(JsonWriter& json, const Book& book, const PlanRow& row)
{
    json.beginObject().textOrNull("job", row.job ? row.job->number : "");
    const auto* pour = book.find(row.visit->pour);
    json.key("pour");
    if (pour) json.whole(pour->sequence);
    else json.null();
    json.text("kind", codeOf(row.visit->kind))
        .textOrNull("not_before", dayOrBlank(row.window.notBefore))
        .textOrNull("due", dayOrBlank(row.window.due))
        .textOrNull("too_late", dayOrBlank(row.window.tooLate))
        .text("state", codeOf(row.state))
        .whole("minutes", row.minutes.count());
    json.key("load_out").beginArray();
    for (const auto& item : loadOut(book, *row.visit).items)
        json.beginObject().text("item", item.item).textOrNull("amount", item.amount ? item.amount->text() : "").textOrNull("unit", item.unit).end();
    json.end();
    json.date("planned_on", row.on).textOrNull("planned_at", row.at ? row.at->text() : "");
    json.key("stop");
    if (row.stop > 0) json.whole(row.stop);
    else json.null();
    json.key("run");
    if (row.run > 0) json.whole(row.run);
    else json.null();
    json.boolean("pinned", row.visit->pinned).boolean("outside_hours", row.outsideHours);
    json.key("blocked").beginArray();
    for (const auto& blocked : row.blocked) json.beginObject().key("date").date(blocked.date).text("why", blocked.why).end();
    json.end().textOrNull("why", row.why.empty() ? row.window.why : row.why).textOrNull("window_why", row.window.why).end();
}

std::string asJson(const Book& book, const VisitPlan& plan)
{
    JsonWriter json;
    json.beginObject().key("from").date(plan.from).text("answer", plan.answer).key("visits").beginArray();
    for (const auto& row : plan.rows) addRow(json, book, row);
    json.end().key("days").beginArray();
    for (const auto& day : plan.days) {
        json.beginObject().key("date").date(day.date).key("stops").beginArray();
        int run = 0;
        for (const auto& out : day.runs) {
            ++run;
            for (const auto index : out.rows) {
                const auto& row = plan.rows[index];
                json.beginObject().whole("run", run).whole("stop", row.stop).textOrNull("job", row.job ? row.job->number : "").text("kind", codeOf(row.visit->kind));
                json.text("place", row.place).text("arrive", row.at->text()).text("leave", row.until->text()).end();
            }
        }
        json.end().whole("drive_minutes", day.driveMinutes).whole("site_minutes", day.siteMinutes).decimal("drive_miles", day.driveMiles, 1);
        json.textOrNull("crew", day.crewWhy).end();
    }
    json.end().whole("late_days", plan.score.lateDays).whole("too_late", plan.score.tooLate).whole("without_day", plan.score.leftOut);
    json.whole("drive_minutes", plan.score.drive).boolean("proven_optimal", plan.proven);
    // A bound on the drive holds only beside the same lateness.
    json.key("bound").beginObject().whole("too_late", plan.bound.tooLate).whole("without_day", plan.bound.leftOut).whole("late_days", plan.bound.lateDays).whole("drive_minutes", plan.bound.drive).end();
    json.key("missing_ways").beginArray();
    for (const auto& missing : plan.drives.missing()) json.text(missing);
    json.end().key("shortages").beginArray();
    for (const auto& shortage : shortagesOf(book, plan))
        json.beginObject().text("product", book.get(shortage.product).name).key("date").date(shortage.day).text("needed_gallons", shortage.needed.text()).text("left_gallons", shortage.left.text())
            .text("to_buy_gallons", shortage.toBuy.text()).text("why", shortage.text).end();
    json.end().key("not_on_list").beginArray();
    for (const auto& missing : missingVisits(book)) {
        const auto* job = book.find(missing.job);
        const auto* pour = book.find(missing.pour);
        json.beginObject().textOrNull("job", job ? job->number : "").key("pour");
        if (pour) json.whole(pour->sequence);
        else json.null();
        json.text("kind", codeOf(missing.kind)).text("why", missing.why).end();
    }
    json.end().end();
    return json.finished();
}

std::string timesOf(const PlanRow& row)
{
    if (!row.at) return "";
    return row.at->shown() + (row.until ? " \u2013 " + row.until->shown() : "");
}

std::string whyOf(const PlanRow& row)
{
    auto why = row.why.empty() ? row.window.why : row.why;
    if (row.lateDays > 0 && row.on && why.find("late") == std::string::npos) why = std::to_string(row.lateDays) + " days late; " + why;
    return why;
}

std::string asText(const Book& book, const VisitPlan& plan)
{
    auto text = plan.answer + '\n';
    if (const auto missing = missingText(missingVisits(book)); !missing.empty()) text += missing + '\n';
    constexpr auto uncut = std::numeric_limits<std::size_t>::max();
    for (const auto& day : plan.days) {
        int run = 0;
        for (const auto& out : day.runs) {
            ++run;
            text += '\n' + day.date.shownShort() + (day.runs.size() > 1 ? ", run " + std::to_string(run) : "") + ": leaves " + out.leaves.shown() + ", back " + out.back.shown() + ", " +
                    std::to_string(out.driveMinutes) + " min and " + shownDecimal(static_cast<std::int64_t>(out.driveMiles * 10 + 0.5), 1, 1) + " miles of driving\n";
            TextTable stops;
            stops.figures("Stop").words("From \u2013 to").words("Visit").words("Job").words("Place", 40).words("Why", uncut);
            for (const auto index : out.rows) {
                const auto& row = plan.rows[index];
                stops.row({std::to_string(row.stop), timesOf(row), std::string{labelOf(row.visit->kind)}, row.job ? row.job->number : "\u2013", row.place, whyOf(row)});
            }
            text += stops.text(2);
        }
    }
    TextTable others;
    others.words("Visit").words("Job").words("Place", 40).words("Day").words("Due").words("Why", uncut);
    for (const auto& row : plan.rows)
        if (row.stop == 0)
            others.row({std::string{labelOf(row.visit->kind)}, row.job ? row.job->number : "\u2013", row.place, row.on ? row.on->shownShort() : "\u2013",
                        row.window.due ? row.window.due->date().shownShort() : "\u2013", whyOf(row)});
    if (!others.empty()) text += "\nIn no run\n" + others.text(2);
    for (const auto& shortage : shortagesOf(book, plan)) text += shortage.text + ".\n";
    for (const auto& missing : plan.drives.missing()) text += missing + '\n';
    return text;
}

/// The calendar of the plan as it is printed.
std::string calendarText(const Store& store, const VisitPlan& plan)
{
    std::vector<PlannedVisit> planned;
    for (const auto& row : plan.rows)
        if (row.on) planned.push_back({row.visit, *row.on, row.at, row.minutes});
    return phoneCalendar(store, planned, plan.from);
}

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    Date from = surroundings.today;
    if (const auto day = arguments.value("from")) {
        const auto read = Date::read(*day, surroundings.today);
        if (!read) throw UsageError{inQuotes(*day) + " is no day: write --from like 2026-11-30 or tomorrow"};
        from = *read;
    }
    int days = 14;
    if (const auto count = arguments.value("days")) {
        const auto read = parseDecimal(*count, 0);
        if (!read || *read < 1 || *read > 60) throw UsageError{inQuotes(*count) + " is no number of days from 1 to 60: write it like --days 14"};
        days = static_cast<int>(*read);
    }
    const auto file = arguments.value("ics");
    if (file && file->empty()) throw UsageError{"--ics needs the name of a file"};
    const auto store = openToRead(arguments.words[0]);
    const auto plan = planVisits(store->book(), from, days);
    if (file) {
        const auto text = calendarText(*store, plan);
        std::string fault;
        if (text.empty()) fault = "No visit finds a day and no pour is planned, so " + *file + " was not written";
        else writePrivateFile(*file, text, fault);
        if (!fault.empty()) {
            surroundings.err << "strikeoff: " << fault << '\n';
            return faulty;
        }
    }
    surroundings.out << (arguments.has("json") ? asJson(store->book(), plan) : asText(store->book(), plan));
    if (file && !arguments.has("json")) surroundings.out << "Written: " << *file << '\n';
    return done;
}

}

const Verb visitsVerb{
    "visits",
    "BOOK",
    "who do I go back to, and when: return visits planned by windows, weather, crew and drive",
    {{"from", "D", "first day of the plan (YYYY-MM-DD, tomorrow); today when left out"}, {"days", "N", "days planned, 1 to 60; 14 when left out"}, {"ics", "FILE", "write the plan and the pours as a calendar for the phone into that file, too"}, jsonOption},
    "Visits have to find a day in time first, then be late as few days as can be, then drive least. Product labels go over any date here.\n",
    run};

}
