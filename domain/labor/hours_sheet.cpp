#include "labor/hours_sheet.h"

#include "labor/clock.h"
#include "quantity/letters.h"
#include "quantity/words.h"

#include <algorithm>

namespace strikeoff {

namespace {

constexpr std::int64_t dayMinutes = 24 * 60;

bool saysHalfOfDay(std::string_view time) { return time.find_first_of("aApPmM") != std::string_view::npos; }

std::int64_t spanOf(const SheetCell& cell)
{
    const auto span = cell.stop->minutes() - cell.start->minutes();
    return span > 0 ? span : span + dayMinutes;
}

/// The row a cell came from, when it is still there.
const Hours* rowOf(const Book& book, const SheetCell& cell) { return book.find(cell.row); }

SheetCell cellOf(const Hours& row)
{
    SheetCell cell;
    cell.row = row.id;
    if (row.startedAt && row.endedAt) {
        cell.start = row.startedAt;
        cell.stop = row.endedAt;
    } else {
        cell.minutes = row.worked();
    }
    return cell;
}

/// The cell that lunch is taken out of: the person's longest stretch.
std::optional<std::size_t> lunchCell(const HoursSheet::Person& person)
{
    std::optional<std::size_t> longest;
    for (std::size_t i = 0; i < person.cells.size(); ++i)
        if (person.cells[i].start && (!longest || spanOf(person.cells[i]) > spanOf(person.cells[*longest]))) longest = i;
    return longest;
}

std::optional<Minutes> lunchOf(const Book& book, const HoursSheet::Person& person)
{
    std::optional<Minutes> lunch;
    for (const auto& cell : person.cells)
        if (const auto* row = rowOf(book, cell); row && row->unpaidMinutes) lunch = lunch.value_or(Minutes{}) + *row->unpaidMinutes;
    return lunch;
}

bool isAsRecorded(const SheetCell& cell, const Hours& row)
{
    const auto recorded = cellOf(row);
    return recorded.start == cell.start && recorded.stop == cell.stop && recorded.minutes == cell.minutes;
}

/// The record a cell stands for.
Hours rowFor(const Book& book, const HoursSheet& sheet, const HoursSheet::Person& person, std::size_t column)
{
    const auto& cell = person.cells[column];
    const auto& place = sheet.columns[column];
    const auto* old = rowOf(book, cell);
    Hours row = old ? *old : Hours{};
    row.person = person.id;
    row.date = sheet.date;
    row.job = place.job;
    row.pour = place.pour;
    row.phase = place.phase;
    // Lunch that is recorded elsewhere than we would put it stays there as long as it is the same lunch.
    const bool sameLunch = old && lunchOf(book, person).value_or(Minutes{}) == person.lunch.value_or(Minutes{});
    if (old && sameLunch && isAsRecorded(cell, *old)) return row;
    row.startedAt = cell.start;
    row.endedAt = cell.stop;
    row.minutes = cell.minutes;
    row.unpaidMinutes.reset();
    if (!cell.start) return row;
    if (person.lunch && *person.lunch > Minutes{} && lunchCell(person) == column) row.unpaidMinutes = person.lunch;
    const auto rounding = book.settings().clockRounding;
    if (rounding != ClockRounding::none) row.minutes = paidMinutes(row, rounding);
    return row;
}

bool isSame(const Hours& a, const Hours& b) { return valuesOf(describe(RecordKind::hours), &a) == valuesOf(describe(RecordKind::hours), &b); }

std::size_t columnFor(HoursSheet& sheet, const SheetColumn& wanted, const HoursSheet::Person& person)
{
    for (std::size_t i = 0; i < sheet.columns.size(); ++i)
        if (sheet.columns[i] == wanted && (i >= person.cells.size() || person.cells[i].isBlank())) return i;
    sheet.columns.push_back(wanted);
    for (auto& each : sheet.people) each.cells.resize(sheet.columns.size());
    return sheet.columns.size() - 1;
}

std::vector<const Hours*> rowsOn(const Book& book, Date date)
{
    std::vector<const Hours*> rows;
    for (const auto& row : book.all<Hours>())
        if (row.date == date) rows.push_back(&row);
    std::stable_sort(rows.begin(), rows.end(), [](const Hours* a, const Hours* b) { return a->startedAt < b->startedAt; });
    return rows;
}

bool isOnCrew(const CrewMember& person, Date date)
{
    return (!person.hiredOn || *person.hiredOn <= date) && (!person.leftOn || *person.leftOn >= date);
}

HoursSheet::Person* findPerson(HoursSheet& sheet, Id<CrewMember> id)
{
    const auto found = std::find_if(sheet.people.begin(), sheet.people.end(), [&](const auto& person) { return person.id == id; });
    return found == sheet.people.end() ? nullptr : &*found;
}

/// Whether an edit of hours moves wage bases that later days of the year have counted toward.
bool movesLaterDays(const Book& book, const HoursSheet& sheet, const Edit& edit)
{
    const bool capped = std::any_of(book.all<BurdenRate>().begin(), book.all<BurdenRate>().end(), [&](const BurdenRate& rate) {
        return rate.rate && rate.wageBase && rate.fromDate <= sheet.date;
    });
    if (!capped || edit.empty()) return false;
    return std::any_of(book.all<Hours>().begin(), book.all<Hours>().end(), [&](const Hours& later) {
        return later.date > sheet.date && later.date.year() == sheet.date.year() && std::any_of(edit.changes().begin(), edit.changes().end(), [&](const Change& change) {
            if (change.what != ChangeType::remove) return change.row.value("person") == Value{later.person.value()};
            const auto* gone = book.find(Id<Hours>{change.row.id});
            return gone && gone->person == later.person;
        });
    });
}

std::string shortTime(ClockTime time)
{
    const int hour = time.minutes() / 60, minute = time.minutes() % 60;
    return std::to_string((hour + 11) % 12 + 1) + ':' + (minute < 10 ? "0" : "") + std::to_string(minute) + (hour < 12 ? 'a' : 'p');
}

std::string nameOf(const Book& book, const SheetColumn& column)
{
    const auto* job = book.find(column.job);
    return job ? "job " + job->number : std::string{"the shop"};
}

}

std::optional<SheetCell> readCell(std::string_view typed)
{
    const auto text = trimmed(typed);
    SheetCell cell;
    if (text.empty()) return cell;
    // A hyphen or a dash between two times.
    auto dash = text.find('-');
    std::size_t width = 1;
    if (dash == std::string::npos)
        for (const std::string_view mark : {"\u2013", " to "})
            if (const auto found = text.find(mark); found != std::string::npos) {
                dash = found;
                width = mark.size();
            }
    if (dash == std::string::npos) {
        const auto whole = parseDecimal(text, 2);  // a bare number is hours here
        const auto minutes = whole ? (*whole * 60 % 100 == 0 ? std::optional{Minutes::of(*whole * 60 / 100)} : std::nullopt) : Minutes::read(text);
        if (!minutes || *minutes <= Minutes{} || *minutes > Minutes::of(dayMinutes)) return std::nullopt;
        cell.minutes = minutes;
        return cell;
    }
    const auto from = trimmed(std::string_view{text}.substr(0, dash)), to = trimmed(std::string_view{text}.substr(dash + width));
    cell.start = ClockTime::read(from);
    cell.stop = ClockTime::read(to);
    if (!cell.start || !cell.stop) return std::nullopt;
    if (!saysHalfOfDay(to) && cell.stop->minutes() <= cell.start->minutes() && cell.stop->minutes() < 12 * 60)
        cell.stop = ClockTime::ofMinutes(cell.stop->minutes() + 12 * 60);
    return cell;
}

std::string cellText(const SheetCell& cell)
{
    if (cell.start) return shortTime(*cell.start) + '-' + shortTime(*cell.stop);
    return cell.minutes ? cell.minutes->shown() : std::string{};
}

std::optional<Phase> readPhase(std::string_view typed)
{
    const auto plain = [](std::string_view text) {
        std::string letters;
        for (const char c : text)
            if (std::isalpha(static_cast<unsigned char>(c))) letters += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
        return letters;
    };
    const auto wanted = plain(typed);
    if (wanted.empty()) return std::nullopt;
    std::optional<Phase> found;
    for (std::size_t i = 0; i < phaseChoices.size(); ++i) {
        if (plain(phaseChoices[i].label).rfind(wanted, 0) != 0) continue;
        if (found) return std::nullopt;
        found = static_cast<Phase>(i);
    }
    return found;
}

HoursSheet hoursSheet(const Book& book, Date date)
{
    HoursSheet sheet;
    sheet.date = date;
    const auto rows = rowsOn(book, date);
    for (const auto& person : book.all<CrewMember>()) {
        const bool worked = std::any_of(rows.begin(), rows.end(), [&](const Hours* row) { return row->person == person.id; });
        if (worked || isOnCrew(person, date)) sheet.people.push_back({person.id, {}, {}});
    }
    for (const auto* row : rows) {
        auto* person = findPerson(sheet, row->person);
        const auto column = columnFor(sheet, {row->job, row->pour, row->phase}, *person);
        person->cells.resize(sheet.columns.size());
        person->cells[column] = cellOf(*row);
    }
    for (auto& person : sheet.people) {
        person.cells.resize(sheet.columns.size());
        person.lunch = lunchOf(book, person);
    }
    return sheet;
}

std::optional<Id<Pour>> pourOn(const Book& book, Id<Job> job, Date date)
{
    std::optional<Id<Pour>> found;
    for (const auto* pour : book.referring<&Pour::job>(job)) {
        if ((pour->pouredOn ? pour->pouredOn : pour->plannedOn) != date) continue;
        if (found) return std::nullopt;
        found = pour->id;
    }
    return found;
}

HoursSheet copiedFromDayBefore(const Book& book, HoursSheet sheet)
{
    std::optional<Date> last;
    for (const auto& row : book.all<Hours>())
        if (row.date < sheet.date && (!last || row.date > *last)) last = row.date;
    if (!last) return sheet;
    const auto before = hoursSheet(book, *last);
    for (const auto& from : before.people) {
        auto* person = findPerson(sheet, from.id);
        if (!person || std::any_of(person->cells.begin(), person->cells.end(), [](const SheetCell& cell) { return !cell.isBlank(); })) continue;
        for (std::size_t i = 0; i < from.cells.size(); ++i) {
            if (from.cells[i].isBlank()) continue;
            auto place = before.columns[i];
            place.pour = place.job ? pourOn(book, *place.job, sheet.date) : std::nullopt;
            person = findPerson(sheet, from.id);
            const auto column = columnFor(sheet, place, *person);
            person->cells.resize(sheet.columns.size());
            person->cells[column] = from.cells[i];
            person->cells[column].row.reset();
        }
        person->lunch = from.lunch;
    }
    for (auto& person : sheet.people) person.cells.resize(sheet.columns.size());
    return sheet;
}

Minutes paidInCell(const Book& book, const HoursSheet& sheet, std::size_t person, std::size_t column)
{
    const auto& who = sheet.people[person];
    if (who.cells[column].isBlank()) return {};
    return paidMinutes(rowFor(book, sheet, who, column), book.settings().clockRounding).value_or(Minutes{});
}

std::vector<SheetFlag> flagsOf(const Book& book, const HoursSheet& sheet)
{
    std::vector<SheetFlag> flags;
    for (std::size_t p = 0; p < sheet.people.size(); ++p) {
        const auto& who = sheet.people[p];
        const auto& person = book.get(who.id);
        const auto flag = [&](std::optional<std::size_t> column, const std::string& message) { flags.push_back({p, column, person.name + ' ' + message}); };
        struct Stretch {
            std::int64_t from, to;
            std::size_t column;
        };
        std::vector<Stretch> stretches;
        std::int64_t all = 0;
        bool worked = false;
        for (std::size_t c = 0; c < who.cells.size(); ++c) {
            const auto& cell = who.cells[c];
            if (cell.isBlank()) continue;
            worked = true;
            all += cell.start ? spanOf(cell) : cell.minutes->count();
            if (cell.start) stretches.push_back({cell.start->minutes(), cell.start->minutes() + spanOf(cell), c});
            const auto* job = book.find(sheet.columns[c].job);
            if (job && sheet.date < job->openedOn) flag(c, "has hours on job " + job->number + ", which was opened on " + job->openedOn.shown() + "; correct the day or the job");
        }
        if (!worked) continue;
        std::stable_sort(stretches.begin(), stretches.end(), [](const Stretch& a, const Stretch& b) { return a.from < b.from; });
        for (std::size_t i = 1; i < stretches.size(); ++i) {
            if (stretches[i].from >= stretches[i - 1].to) continue;
            const auto first = nameOf(book, sheet.columns[stretches[i - 1].column]), second = nameOf(book, sheet.columns[stretches[i].column]);
            flag(stretches[i].column, first == second ? "has two stretches at " + first + " that overlap; correct a time"
                                                      : "is in two places at once: " + first + " and " + second + " overlap; correct a time");
        }
        // A stretch of the day before that runs past midnight.
        for (const auto* row : book.referring<&Hours::person>(who.id)) {
            if (row->date != sheet.date - 1 || !row->startedAt || !row->endedAt || *row->endedAt >= *row->startedAt || stretches.empty()) continue;
            if (stretches.front().from < row->endedAt->minutes())
                flag(stretches.front().column, "worked until " + row->endedAt->shown() + " from the day before and starts sooner; correct a time");
        }
        if (all > dayMinutes) flag({}, "has " + Minutes::of(all).shown() + " h in one day; a day has 24");
        if (person.hiredOn && sheet.date < *person.hiredOn) flag({}, "was hired on " + person.hiredOn->shown() + "; correct the day");
        if (person.leftOn && sheet.date > *person.leftOn) flag({}, "left on " + person.leftOn->shown() + "; correct the day");
        if (const auto cell = lunchCell(who); who.lunch && cell && who.lunch->count() > spanOf(who.cells[*cell]))
            flag(cell, "had a lunch longer than the work; correct one of them");
    }
    return flags;
}

Edit hoursEdit(const Book& book, const HoursSheet& sheet)
{
    Edit edit{"Hours of " + sheet.date.shown()};
    std::vector<Id<Hours>> kept;
    for (const auto& person : sheet.people)
        for (std::size_t c = 0; c < person.cells.size(); ++c) {
            const auto& cell = person.cells[c];
            if (cell.isBlank()) continue;
            const auto row = rowFor(book, sheet, person, c);
            const auto* old = rowOf(book, cell);
            if (!old) edit.add(row);
            else {
                kept.push_back(old->id);
                if (!isSame(row, *old)) edit.change(row);
            }
        }
    for (const auto* row : rowsOn(book, sheet.date)) {
        const bool shown = std::any_of(sheet.people.begin(), sheet.people.end(), [&](const auto& person) { return person.id == row->person; });
        if (shown && std::find(kept.begin(), kept.end(), row->id) == kept.end()) edit.remove(*row);
    }
    if (!movesLaterDays(book, sheet, edit)) return edit;
    Edit late{edit.title() + ", entered late: the wage bases of later days count anew"};
    late.changes() = std::move(edit.changes());
    return late;
}

}
