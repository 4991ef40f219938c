#include "labor/labor_cost.h"

#include "labor/burden_ladder.h"
#include "labor/clock.h"

#include <algorithm>
#include <functional>
#include <limits>
#include <map>
#include <set>
#include <unordered_map>

namespace strikeoff {

namespace {

Money sumOf(const BurdenAmounts& burden)
{
    Money sum;
    for (const auto amount : burden) sum += amount;
    return sum;
}

/// What of a row of hours decides its pay and its place in the week: never its id, so that the order of entry does not matter.
struct Entry {
    std::uint64_t order = 0;  ///< day, then start (rows without one first), then phase
    std::int64_t job = 0;
    std::int64_t pour = 0;
    std::int64_t id = 0;
    std::int32_t minutes = 0;
    std::uint8_t phase = 0;

    int day() const { return static_cast<int>(order >> 24) - dayShift; }
    friend bool operator<(const Entry& a, const Entry& b)
    {
        if (a.order != b.order) return a.order < b.order;
        if (a.job != b.job) return a.job < b.job;
        if (a.pour != b.pour) return a.pour < b.pour;
        return a.id < b.id;
    }
    static constexpr int dayShift = 100'000;  // days before 1970 count down
};

Entry entryOf(const Hours& hours, ClockRounding rounding)
{
    Entry entry;
    const auto start = hours.startedAt ? static_cast<std::uint64_t>(hours.startedAt->minutes()) + 1 : 0;
    entry.order = static_cast<std::uint64_t>(hours.date.days() + Entry::dayShift) << 24 | start << 8 | static_cast<std::uint64_t>(hours.phase);
    entry.job = hours.job ? hours.job->value() : 0;
    entry.pour = hours.pour ? hours.pour->value() : 0;
    entry.id = hours.id.value();
    entry.phase = static_cast<std::uint8_t>(hours.phase);
    if (const auto paid = paidMinutes(hours, rounding)) entry.minutes = static_cast<std::int32_t>(std::max<std::int64_t>(paid->count(), 0));
    return entry;
}

struct RateFrom {
    int from = 0;
    std::int64_t hourly = 0;
    std::optional<std::int64_t> dayCents;
};

/// A person's rates: those of a phase, and those for all else.
struct Rates {
    std::vector<RateFrom> general;
    std::array<std::vector<RateFrom>, phaseChoices.size()> ofPhase;

    static const RateFrom* on(const std::vector<RateFrom>& rates, int day)
    {
        const auto next = std::upper_bound(rates.begin(), rates.end(), day, [](int wanted, const RateFrom& rate) { return wanted < rate.from; });
        return next == rates.begin() ? nullptr : &*std::prev(next);
    }
    const RateFrom* on(int day, std::uint8_t phase) const
    {
        if (!ofPhase[phase].empty())
            if (const auto* own = on(ofPhase[phase], day)) return own;
        return on(general, day);
    }
};

struct BonusShare {
    int from = 0, to = 0;
    std::int64_t cents = 0;
};

struct Place {
    std::size_t first = 0, count = 0;  ///< rows of the week among the person's
    BurdenYear before, after;
};

struct Person {
    std::vector<Entry> rows;
    std::vector<WeekPay> weeks;
    std::vector<Place> places;  ///< one a week
    Rates rates;
    std::vector<BonusShare> bonuses;
    const BurdenTables* tables = nullptr;
};

struct Slot {
    HourCost cost;
    std::int64_t person = 0;  ///< 0: no such row
    std::int64_t job = 0;
    int day = 0;
};

bool isSame(const HourCost& a, const HourCost& b)
{
    return a.minutes == b.minutes && a.straight == b.straight && a.premium == b.premium && a.rateKnown == b.rateKnown && a.burden == b.burden;
}

}

Money HourCost::burdenTotal() const { return sumOf(burden); }
Money WeekPay::burdenTotal() const { return sumOf(burden); }

struct LaborCost::Parts {
    Settings settings;
    std::unordered_map<std::int64_t, Person> people;
    std::map<std::string, BurdenTables, std::less<>> tables;  ///< by class
    std::int64_t firstId = 1;
    std::vector<Slot> slots;  ///< by id, from firstId on
    std::vector<PaidRow> paid;
    std::vector<std::array<std::int64_t, burdenItemCount>> burden;

    explicit Parts(const Book& book) : settings{book.settings()}
    {
        for (const auto& member : book.all<CrewMember>()) {
            const auto [entry, isNew] = tables.try_emplace(member.compClass);
            if (isNew) entry->second = burdenTablesFor(book, member.compClass);
            people[member.id.value()].tables = &entry->second;
        }
        takeRates(book);
        const auto& hours = book.all<Hours>();
        if (hours.empty()) return;
        firstId = hours[0].id.value();
        slots.resize(static_cast<std::size_t>(hours.lastId() - firstId + 1));
        for (const auto& row : hours) people[row.person.value()].rows.push_back(take(row));
        for (auto& [id, person] : people) {
            std::sort(person.rows.begin(), person.rows.end());
            layWeeks(id, person);
            const auto bonuses = bonusesByWeek(person);
            BurdenYear running;
            for (std::size_t i = 0; i < person.weeks.size(); ++i) reckon(person, i, bonuses[i], running, {});
        }
    }

    void takeRates(const Book& book)
    {
        for (const auto& rate : book.all<PayRate>()) {
            auto& rates = people[rate.person.value()].rates;
            auto& list = rate.phase ? rates.ofPhase[static_cast<std::size_t>(*rate.phase)] : rates.general;
            list.push_back({static_cast<int>(rate.fromDate.days()), rate.hourlyRate.units(),
                            rate.dayRate ? std::optional{rate.dayRate->cents()} : std::nullopt});
        }
        for (const auto& bonus : book.all<Bonus>())
            people[bonus.person.value()].bonuses.push_back(
                {static_cast<int>(bonus.earnedFrom.days()), static_cast<int>(bonus.earnedTo.days()), bonus.amount.cents()});
        const auto byDay = [](const RateFrom& a, const RateFrom& b) { return a.from < b.from; };
        for (auto& [id, person] : people) {
            std::stable_sort(person.rates.general.begin(), person.rates.general.end(), byDay);
            for (auto& list : person.rates.ofPhase) std::stable_sort(list.begin(), list.end(), byDay);
        }
    }

    Slot* slot(std::int64_t id)
    {
        const auto index = id - firstId;
        return index >= 0 && static_cast<std::size_t>(index) < slots.size() ? &slots[static_cast<std::size_t>(index)] : nullptr;
    }

    Entry take(const Hours& row)
    {
        const auto entry = entryOf(row, settings.clockRounding);
        *slot(entry.id) = Slot{{}, row.person.value(), entry.job, entry.day()};
        return entry;
    }

    /// Cuts a person's rows, in their order, into workweeks.
    void layWeeks(std::int64_t id, Person& person) const
    {
        person.weeks.clear();
        person.places.clear();
        layWeeks(id, person, 0, std::numeric_limits<int>::max(), person);
    }

    /// The same from a row on, which begins a week, up to the week that holds a day.
    void layWeeks(std::int64_t id, const Person& person, std::size_t from, int lastDay, Person& laid) const
    {
        const int firstWeekday = static_cast<int>(settings.workweekStart);
        std::optional<Date> start;
        for (std::size_t i = from; i < person.rows.size(); ++i) {
            const int day = person.rows[i].day();
            if (!start || day - start->days() >= 7) {
                start = startOfWeek(Date::ofDays(day), firstWeekday);
                if (static_cast<int>(start->days()) > lastDay) return;
                laid.weeks.emplace_back().person = Id<CrewMember>{id};
                laid.weeks.back().start = *start;
                laid.places.emplace_back().first = i;
            }
            ++laid.places.back().count;
        }
    }

    bool isPaid(const Person& person, const Place& place) const
    {
        return std::any_of(person.rows.begin() + static_cast<std::ptrdiff_t>(place.first),
                           person.rows.begin() + static_cast<std::ptrdiff_t>(place.first + place.count),
                           [&](const Entry& row) { return row.minutes > 0 && person.rates.on(row.day(), row.phase); });
    }

    /// Each week's share of the person's bonuses, in cents: by the days of a bonus's period that lie in the week, among the weeks with paid hours.
    std::vector<std::int64_t> bonusesByWeek(const Person& person) const
    {
        std::vector<std::int64_t> cents(person.weeks.size());
        for (const auto& bonus : person.bonuses) {
            std::vector<std::int64_t> days(person.weeks.size());
            bool any = false;
            for (std::size_t i = 0; i < person.weeks.size(); ++i) {
                const auto start = static_cast<int>(person.weeks[i].start.days());
                const int inWeek = std::min(bonus.to, start + 6) - std::max(bonus.from, start) + 1;
                if (inWeek <= 0 || !isPaid(person, person.places[i])) continue;
                days[i] = inWeek;
                any = true;
            }
            if (!any) continue;
            const auto shares = splitByWeight(bonus.cents, days);
            for (std::size_t i = 0; i < shares.size(); ++i) cents[i] += shares[i];
        }
        return cents;
    }

    /// Pays a week and adds its burden to the running year; tells of every row whose cost came out otherwise than before.
    void reckon(Person& person, std::size_t index, std::int64_t bonus, BurdenYear& running, const std::function<void(const Slot&)>& moved)
    {
        auto& place = person.places[index];
        auto& week = person.weeks[index];
        const auto rows = std::span{person.rows}.subspan(place.first, place.count);
        place.before = startingWith(running, rows.front().day());
        paid.assign(rows.size(), PaidRow{});
        burden.assign(rows.size(), {});
        for (std::size_t i = 0; i < rows.size(); ++i) {
            auto& row = paid[i];
            row.day = rows[i].day();
            row.minutes = rows[i].minutes;
            if (const auto* rate = person.rates.on(row.day, rows[i].phase)) {
                row.rateKnown = true;
                row.hourlyRate = rate->hourly;
                row.dayRateCents = rate->dayCents;
            }
        }
        const auto pay = payWeek(paid, bonus, settings);
        if (person.tables) addBurden(paid, pay.premium, *person.tables, running, burden);
        place.after = running;

        week.worked = Minutes::of(pay.worked);
        week.overtime = Minutes::of(pay.overtime);
        week.doubled = Minutes::of(pay.doubled);
        week.straight = Money::ofCents(pay.straight);
        week.premium = Money::ofCents(pay.premium);
        week.bonus = Money::ofCents(bonus);
        week.regularRate = pay.regularRate;
        week.burden = {};
        week.allRatesKnown = true;
        for (std::size_t i = 0; i < rows.size(); ++i) {
            HourCost cost;
            cost.minutes = Minutes::of(paid[i].minutes);
            cost.straight = Money::ofCents(paid[i].straight);
            cost.premium = Money::ofCents(paid[i].premium);
            cost.rateKnown = paid[i].rateKnown;
            if (!cost.rateKnown && paid[i].minutes > 0) week.allRatesKnown = false;
            for (std::size_t item = 0; item < burdenItemCount; ++item) {
                cost.burden[item] = Money::ofCents(burden[i][item]);
                week.burden[item] += cost.burden[item];
            }
            auto& mine = *slot(rows[i].id);
            if (moved && !isSame(mine.cost, cost)) {
                mine.cost = cost;
                moved(mine);
            } else {
                mine.cost = cost;
            }
        }
    }

    /// A running year as a week takes it over: another year begins anew.
    static BurdenYear startingWith(const BurdenYear& running, int day)
    {
        return running.year == Date::ofDays(day).year() ? running : BurdenYear{};
    }

    /// Where a row stands among its person's.
    std::vector<Entry>::iterator placeOf(const Slot& old, std::int64_t id)
    {
        auto& rows = people[old.person].rows;
        Entry first;
        first.order = static_cast<std::uint64_t>(old.day + Entry::dayShift) << 24;
        for (auto row = std::lower_bound(rows.begin(), rows.end(), first); row != rows.end() && row->day() == old.day; ++row)
            if (row->id == id) return row;
        return rows.end();
    }

    /// Takes a row out of its person's.
    void drop(const Slot& old, std::int64_t id)
    {
        auto& rows = people[old.person].rows;
        if (const auto row = placeOf(old, id); row != rows.end()) rows.erase(row);
    }

    /// Writes a row over what it was, where it keeps its place in the order: most changes do, and taking out of a long list and putting in again is dear.
    bool writeOver(const Slot& old, const Entry& entry)
    {
        auto& rows = people[old.person].rows;
        const auto row = placeOf(old, entry.id);
        if (row == rows.end() || (row != rows.begin() && !(*std::prev(row) < entry)) || (std::next(row) != rows.end() && !(entry < *std::next(row)))) return false;
        *row = entry;
        return true;
    }

    void makeRoomFor(std::int64_t id)
    {
        if (slots.empty()) firstId = id;
        if (id < firstId) {
            slots.insert(slots.begin(), static_cast<std::size_t>(firstId - id), Slot{});
            firstId = id;
        }
        const auto size = static_cast<std::size_t>(id - firstId + 1);
        if (size > slots.size()) slots.resize(size);
    }

    /// Lays the weeks from the first to the last of the days anew and reckons them, and those behind them as long as they start from another running
    /// year than before.
    void renew(std::int64_t id, const std::set<int>& days, const std::function<void(const Slot&)>& moved)
    {
        auto& person = people[id];
        // A bonus is shared among all weeks it was earned in, near or far.
        if (!person.bonuses.empty()) return renewAll(id, days, moved);
        const auto endsBefore = [](const WeekPay& week, int day) { return static_cast<int>(week.start.days()) + 6 < day; };
        const auto startsAfter = [](int day, const WeekPay& week) { return day < static_cast<int>(week.start.days()); };
        const auto from = std::lower_bound(person.weeks.begin(), person.weeks.end(), *days.begin(), endsBefore) - person.weeks.begin();
        const auto to = std::upper_bound(person.weeks.begin(), person.weeks.end(), *days.rbegin(), startsAfter) - person.weeks.begin();
        const auto rowsBefore = person.places.empty() ? std::size_t{0} : person.places.back().first + person.places.back().count;
        const auto first = static_cast<std::size_t>(from) < person.places.size() ? person.places[static_cast<std::size_t>(from)].first : rowsBefore;

        Person laid;
        layWeeks(id, person, first, *days.rbegin(), laid);
        const auto added = laid.weeks.size();
        if (static_cast<std::size_t>(to - from) == added) {
            std::copy(laid.weeks.begin(), laid.weeks.end(), person.weeks.begin() + from);
            std::copy(laid.places.begin(), laid.places.end(), person.places.begin() + from);
        } else {
            person.weeks.erase(person.weeks.begin() + from, person.weeks.begin() + to);
            person.weeks.insert(person.weeks.begin() + from, laid.weeks.begin(), laid.weeks.end());
            person.places.erase(person.places.begin() + from, person.places.begin() + to);
            person.places.insert(person.places.begin() + from, laid.places.begin(), laid.places.end());
        }
        const auto behind = static_cast<std::size_t>(from) + added;
        if (person.rows.size() != rowsBefore)
            for (auto i = behind; i < person.places.size(); ++i) person.places[i].first = person.places[i].first + person.rows.size() - rowsBefore;

        auto running = from > 0 ? person.places[static_cast<std::size_t>(from) - 1].after : BurdenYear{};
        for (auto i = static_cast<std::size_t>(from); i < person.weeks.size(); ++i) {
            if (i >= behind && person.places[i].before == startingWith(running, person.rows[person.places[i].first].day())) return;
            reckon(person, i, 0, running, moved);
        }
    }

    /// The same over all of a person's weeks.
    void renewAll(std::int64_t id, const std::set<int>& days, const std::function<void(const Slot&)>& moved)
    {
        auto& person = people[id];
        const auto oldWeeks = std::move(person.weeks);
        const auto oldPlaces = std::move(person.places);
        layWeeks(id, person);
        const auto bonuses = bonusesByWeek(person);
        BurdenYear running;
        for (std::size_t i = 0, old = 0; i < person.weeks.size(); ++i) {
            auto& week = person.weeks[i];
            while (old < oldWeeks.size() && oldWeeks[old].start < week.start) ++old;
            const auto start = static_cast<int>(week.start.days());
            const auto touched = days.lower_bound(start);
            bool isStanding = old < oldWeeks.size() && oldWeeks[old].start == week.start && (touched == days.end() || *touched >= start + 7)
                && oldWeeks[old].bonus.cents() == bonuses[i];
            isStanding = isStanding && oldPlaces[old].before == startingWith(running, person.rows[person.places[i].first].day());
            if (isStanding) {
                week = oldWeeks[old];
                person.places[i].before = oldPlaces[old].before;
                running = person.places[i].after = oldPlaces[old].after;
            } else {
                reckon(person, i, bonuses[i], running, moved);
            }
        }
    }
};

LaborCost::LaborCost(const Book& book) : parts_{std::make_unique<Parts>(book)} {}
LaborCost::~LaborCost() = default;
LaborCost::LaborCost(LaborCost&&) noexcept = default;
LaborCost& LaborCost::operator=(LaborCost&&) noexcept = default;

const HourCost* LaborCost::of(Id<Hours> id) const
{
    const auto* slot = parts_->slot(id.value());
    return slot && slot->person != 0 ? &slot->cost : nullptr;
}

std::span<const WeekPay> LaborCost::weeksOf(Id<CrewMember> person) const
{
    const auto found = parts_->people.find(person.value());
    return found == parts_->people.end() ? std::span<const WeekPay>{} : std::span<const WeekPay>{found->second.weeks};
}

const WeekPay* LaborCost::weekOf(Id<CrewMember> person, Date day) const
{
    const auto weeks = weeksOf(person);
    const auto next = std::upper_bound(weeks.begin(), weeks.end(), day, [](Date wanted, const WeekPay& week) { return wanted < week.start; });
    if (next == weeks.begin()) return nullptr;
    const auto& week = *std::prev(next);
    return day - week.start < 7 ? &week : nullptr;
}

std::vector<Id<Job>> LaborCost::update(const Book& book, std::span<const Id<Hours>> touched)
{
    std::map<std::int64_t, std::set<int>> daysOf;
    std::set<std::int64_t> jobs;
    for (const auto id : touched) {
        const auto* row = book.find(id);
        auto* slot = parts_->slot(id.value());
        const bool wasThere = slot && slot->person != 0;
        if (wasThere) {
            daysOf[slot->person].insert(slot->day);
            jobs.insert(slot->job);
            if (row && row->person.value() == slot->person) {
                const auto old = *slot;
                const auto entry = parts_->take(*row);
                if (parts_->writeOver(old, entry)) {
                    daysOf[old.person].insert(entry.day());
                    jobs.insert(entry.job);
                    continue;
                }
                *slot = old;
            }
            parts_->drop(*slot, id.value());
            *slot = Slot{};
        }
        if (!row) continue;
        parts_->makeRoomFor(id.value());
        const auto entry = parts_->take(*row);
        auto& rows = parts_->people[row->person.value()].rows;
        rows.insert(std::upper_bound(rows.begin(), rows.end(), entry), entry);
        daysOf[row->person.value()].insert(entry.day());
        jobs.insert(entry.job);
    }
    for (const auto& [person, days] : daysOf) parts_->renew(person, days, [&](const Slot& slot) { jobs.insert(slot.job); });
    std::vector<Id<Job>> moved;
    for (const auto job : jobs)
        if (job != 0) moved.emplace_back(job);
    return moved;
}

}
