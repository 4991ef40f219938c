#pragma once

#include "domain/book_maker.h"
#include "season/load_prices.h"
#include "season/season.h"
#include "statistics/estimate.h"

#include <cmath>
#include <random>

namespace strikeoff {

/// Books with a known trend, known seasons and known noise, filled as a store fills them when it reads a file.
class SeasonBook {
public:
    double trend = 0.04;
    std::array<double, seasonCount> seasons{0.05, -0.01, -0.03, -0.01};  ///< logarithms, adding up to nothing
    double monthSd = 0.01;  ///< what a month brings on top
    double memory = 0.3;    ///< how much of that the next one keeps
    int months = 42;
    int perMonth = 8;
    bool southern = false;

    Book book;
    std::vector<double> levels;  ///< logarithm of every month, nine more than the book has
    static constexpr int firstMonth = 2022 * 12;
    static constexpr int ahead = 9;

    explicit SeasonBook(unsigned seed) : random_{seed} {}

    Date lastDay() const { return lastOfMonth(monthOfNumber(firstMonth + months - 1)); }
    double noise() { return normal_(random_); }
    double chance() { return even_(random_); }

    template <class Record>
    Id<Record> put(Record record)
    {
        const Id<Record> id{book.lastId(kindOf<Record>) + 1};
        auto* place = static_cast<Record*>(book.append(kindOf<Record>, id.value(), 1));
        record.id = id;
        record.revision = 1;
        *place = std::move(record);
        return id;
    }

    void makeLevels()
    {
        double brings = monthSd * noise();
        for (int i = 0; i < months + ahead; ++i) {
            if (i > 0) brings = memory * brings + monthSd * std::sqrt(1 - memory * memory) * noise();
            const auto season = seasonOf(monthOfNumber(firstMonth + i), southern);
            levels.push_back(trend * i / 12 + seasons[static_cast<std::size_t>(season)] + brings);
        }
    }
    Season seasonAt(int i) const { return seasonOf(monthOfNumber(firstMonth + i), southern); }
    /// Few in the first of the seasons.
    int countIn(int i) { return std::poisson_distribution<int>{seasonAt(i) == Season::winter ? perMonth / 4.0 : perMonth}(random_); }

    /// A sheet a month with three mixes and a charge a load, loads of all sizes, and one load in fifty billed at three times its price.
    void makeTickets()
    {
        const auto supplier = put(Supplier{.name = "Northgate"});
        const auto statement = put(Statement{.supplier = supplier, .number = "S1", .date = lastDay()});
        std::int32_t lineNumber = 0;
        static constexpr std::array<const char*, 3> mixes{"3500", "4000", "4500"};
        static constexpr std::array prices{150.0, 160.0, 172.0};
        for (int i = 0; i < months; ++i) {
            const auto first = monthOfNumber(firstMonth + i);
            const auto level = std::exp(levels[static_cast<std::size_t>(i)]);
            for (std::size_t mix = 0; mix < mixes.size(); ++mix)
                put(SheetCharge{.supplier = supplier, .effectiveOn = first, .charge = ChargeKind::mix, .code = mixes[mix], .amount = UnitPrice::ofUnits(std::llround(prices[mix] * level * 1e4))});
            put(SheetCharge{.supplier = supplier, .effectiveOn = first, .charge = ChargeKind::load, .code = "ENV", .amount = UnitPrice::ofUnits(std::llround(40 * level * 1e4)), .unit = ChargeUnit::perLoad});
            const int count = countIn(i);
            for (int n = 0; n < count; ++n) {
                // In winter the dear mix is poured more often, which is not a season's doing.
                const std::size_t mix = chance() < 0.4 ? 1 : chance() < (seasonAt(i) == Season::winter ? 0.8 : 0.3) ? 2 : 0;
                const auto yards = Yards::ofUnits(3000 + std::llround(chance() * 28) * 250);
                const auto ticket = put(Ticket{.supplier = supplier, .number = std::to_string(10'000 + book.all<Ticket>().size()), .date = first + static_cast<int>(chance() * 27), .mix = mixes[mix], .yards = yards});
                if (chance() < 0.02)
                    put(StatementLine{.statement = statement, .line = ++lineNumber, .ticketNumber = book.get(ticket).number, .date = book.get(ticket).date, .amount = Money::ofCents(std::llround(300 * prices[mix] * level * yards.toDouble())), .ticket = ticket});
            }
        }
    }

    /// What last year's loads cost a yard at the level of a month.
    double deliveredAt(int i) const
    {
        double yards = 0, paid = 0;
        for (const auto& ticket : book.all<Ticket>()) {
            if (monthNumber(ticket.date) <= firstMonth + months - 1 - 12) continue;
            const double price = ticket.mix == "3500" ? 150 : ticket.mix == "4000" ? 160 : 172;
            yards += ticket.yards.toDouble();
            paid += price * ticket.yards.toDouble() + 40;
        }
        return paid / yards * std::exp(levels[static_cast<std::size_t>(i)]);
    }

    static constexpr double paceSpread = 0.25;
    static constexpr double perSize = 0.2;
    double paceOf(std::size_t type, double area, int i) const
    {
        static constexpr std::array typical{14.0, 11.0, 8.0};
        return typical[type] * std::pow(area / 500, perSize) * std::exp(levels[static_cast<std::size_t>(i)]);
    }
    /// Jobs of three types with a pour and a day's hours each.
    void makePours()
    {
        const auto customer = put(Customer{.name = "Quill"});
        const auto person = put(CrewMember{.name = "Ada"});
        for (const auto* name : {"Driveway", "Patio", "Steps"}) put(JobType{.name = name});
        for (int i = 0; i < months; ++i) {
            const int count = countIn(i);
            for (int n = 0; n < count; ++n) {
                const std::size_t type = chance() < 0.5 ? 0 : chance() < 0.6 ? 1 : 2;
                const double area = 200 + 800 * chance();
                const auto day = monthOfNumber(firstMonth + i) + static_cast<int>(chance() * 27);
                const auto number = book.all<Job>().size() + 1;
                const auto job = put(Job{.number = std::to_string(1000 + number), .title = "Job", .customer = customer, .jobType = Id<JobType>{static_cast<std::int64_t>(type) + 1}, .openedOn = day});
                put(Pour{.job = job, .pouredOn = day, .area = Area::ofUnits(std::llround(area * 100)), .airTempF = 50, .crewSize = 4});
                double pace = paceOf(type, area, i) * std::exp(paceSpread * noise());
                if (chance() < 0.01) pace *= 0.1;  // somebody wrote ten days for one
                put(Hours{.person = person, .date = day, .job = job, .phase = Phase::place, .minutes = Minutes::of(std::llround(area * 60 / pace))});
            }
        }
    }

private:
    std::mt19937 random_;
    std::normal_distribution<double> normal_;
    std::uniform_real_distribution<double> even_;
};

/// How many of so many intervals held the truth, in per cent.
struct Coverage {
    int held = 0;
    int asked = 0;
    void ask(const Estimate& interval, double truth)
    {
        ++asked;
        held += interval.low <= truth && truth <= interval.high ? 1 : 0;
    }
    double percent() const { return asked == 0 ? 0 : std::round(1000.0 * held / asked) / 10; }
};

}
