#include "ready_mix/statement_match.h"

#include "ready_mix/billed_loads.h"
#include "ready_mix/codes.h"
#include "ready_mix/expected_charge.h"
#include "ready_mix/near_numbers.h"
#include "ready_mix/number_index.h"
#include "statistics/assignment.h"

#include <algorithm>
#include <cstdlib>

namespace strikeoff {

namespace {

// What keeps a line and a ticket apart, in points. One edit in the number is ten; a pair is taken up to MatchLimits::worthALine.
constexpr int aDayOff = 6;
constexpr int yardsUnknown = 3, yardsLittleOff = 8, yardsFarOff = 12;
constexpr int mixUnknown = 2, mixOther = 12;
constexpr int truckOther = 8;
constexpr int oneEdit = 10, twoEdits = 22, numberMissing = 16;
constexpr int sameNumberWorth = 60;  // a ticket of the same number is let go only for a much better one
constexpr int twiceWorth = 14;       // that a taken ticket of the same number was billed twice
constexpr Yards littleYards = Yards::ofWhole(1);
constexpr std::size_t mostCandidates = 3;

struct Fit {
    int cost = 0;
    bool full = true;   ///< nothing recorded speaks against it
    bool sure = false;  ///< day and yards are recorded and the same, and the mix is not another one
};

Fit fitOf(const BilledLoad& load, const Ticket& ticket)
{
    Fit fit;
    const auto against = [&](int cost) {
        fit.cost += cost;
        fit.full = false;
    };
    if (load.date && *load.date != ticket.date) against(std::abs(ticket.date - *load.date) * aDayOff);
    if (!load.yards) fit.cost += yardsUnknown;
    else if (*load.yards != ticket.yards) {
        const auto off = *load.yards - ticket.yards;
        against(off <= littleYards && off >= -littleYards ? yardsLittleOff : yardsFarOff);
    }
    if (load.mix.empty() || ticket.mix.empty()) fit.cost += mixUnknown;
    else if (!sameCode(load.mix, ticket.mix)) against(mixOther);
    if (!load.truck.empty() && !ticket.truck.empty() && !sameCode(load.truck, ticket.truck)) against(truckOther);
    fit.sure = fit.full && load.date && load.yards;
    return fit;
}

bool isWithinDays(const BilledLoad& load, const Statement& statement, Date ticket)
{
    const int after = ticket - load.date.value_or(statement.date);
    const int before = load.creditOnly ? MatchLimits::daysBeforeCredit : load.date ? MatchLimits::daysOff : MatchLimits::daysBeforeStatement;
    return after <= MatchLimits::daysOff && after >= -before;
}

std::string fitsInWords(const BilledLoad& load, const Ticket& ticket, int edits)
{
    std::string text = load.number.empty() ? "no number" : edits == 0 ? "the same number" : edits == 1 ? "one slip in the number" : "two slips in the number";
    if (load.date) {
        const int off = std::abs(ticket.date - *load.date);
        text += off == 0 ? ", same day" : ", " + std::to_string(off) + (off == 1 ? " day off" : " days off");
    }
    if (load.yards) text += *load.yards == ticket.yards ? ", same yards" : ", " + ticket.yards.text() + " yd\u00b3 where " + load.yards->text() + " are billed";
    if (!load.mix.empty() && !ticket.mix.empty()) text += sameCode(load.mix, ticket.mix) ? ", same mix" : ", mix " + ticket.mix;
    return text;
}

constexpr std::uint32_t end = 0xffffffff;

/// The tickets of one supplier.
struct SupplierTickets {
    struct Dated {
        std::int32_t day;
        std::uint32_t place;  ///< on the shelf
    };
    std::vector<Dated> byDate;
    std::unordered_multimap<std::string, std::uint32_t> misprints;  ///< other numbers that statements printed for them

    auto from(std::int64_t day) const
    {
        return std::lower_bound(byDate.begin(), byDate.end(), day, [](const Dated& ticket, std::int64_t wanted) { return ticket.day < wanted; });
    }
};

}

struct StatementMatches::Pairing {
    explicit Pairing(const Book& from) : book{from}, mixes{from}
    {
        readTickets();
        const auto order = readLines();
        for (const auto* statement : order) pair(*statement);
        listByTicket(order);
    }

    // Reading the book.
    void readTickets()
    {
        const auto& tickets = book.all<Ticket>();
        numbers.reserve(tickets.size());
        taken.assign(tickets.size(), false);
        takenByHand.assign(tickets.size(), false);
        if (book.all<Supplier>().size() == 1) suppliers[book.all<Supplier>()[0].id.value()].byDate.reserve(tickets.size());
        for (std::uint32_t i = 0; i < tickets.size(); ++i) {
            const auto& ticket = tickets[i];
            numbers.push_back(comparableNumber(ticket.number));
            suppliers[ticket.supplier.value()].byDate.push_back({static_cast<std::int32_t>(ticket.date.days()), i});
        }
        const auto earlier = [](const auto& a, const auto& b) { return a.day < b.day; };
        for (auto& [supplier, of] : suppliers)
            if (!std::is_sorted(of.byDate.begin(), of.byDate.end(), earlier)) std::stable_sort(of.byDate.begin(), of.byDate.end(), earlier);
    }

    std::vector<const Statement*> readLines()
    {
        const auto& lines = book.all<StatementLine>();
        matches.resize(lines.size());
        std::unordered_map<std::int64_t, std::size_t> places;
        std::vector<const Statement*> order;
        for (const auto& statement : book.all<Statement>()) order.push_back(&statement);
        std::stable_sort(order.begin(), order.end(), [](const auto* a, const auto* b) { return a->date < b->date; });
        for (std::size_t i = 0; i < order.size(); ++i) places.emplace(order[i]->id.value(), i);
        linesOf.resize(order.size());
        for (std::size_t i = 0; i < lines.size(); ++i) {
            matches[i].line = &lines[i];
            if (const auto place = places.find(lines[i].statement.value()); place != places.end()) linesOf[place->second].push_back(&lines[i]);
            if (const auto* ticket = book.find(lines[i].ticket)) takenByHand[placeOf(*ticket)] = true;
        }
        const auto byPlace = [](const auto* a, const auto* b) { return a->line < b->line; };
        for (auto& list : linesOf)
            if (!std::is_sorted(list.begin(), list.end(), byPlace)) std::stable_sort(list.begin(), list.end(), byPlace);
        statementPlaces = std::move(places);
        return order;
    }

    std::uint32_t placeOf(const Ticket& ticket) const { return static_cast<std::uint32_t>(&ticket - &book.all<Ticket>()[0]); }
    std::size_t placeOf(const StatementLine& line) const { return static_cast<std::size_t>(&line - &book.all<StatementLine>()[0]); }
    const Ticket& ticketAt(std::uint32_t place) const { return book.all<Ticket>()[place]; }

    // Pairing one statement; tickets that earlier ones took are taken.
    struct Waiting {
        std::size_t load = 0;
        std::vector<std::uint32_t> sameNumber;  ///< tickets of the number, not taken
        std::uint32_t twice = end;              ///< a taken one of the number, for when nothing better is found
        bool twiceFits = false;                 ///< it fits in all the load says, as if the load were billed twice
    };
    struct Edge {
        std::size_t row = 0;
        std::uint32_t ticket = end;
        int edits = 0;
        int cost = 0;
    };

    void pair(const Statement& statement)
    {
        const auto& lines = linesOf[statementPlaces.at(statement.id.value())];
        for (const auto* line : lines)
            if (const auto* ticket = book.find(line->ticket)) {
                matches[placeOf(*line)].ticket = ticket;
                matches[placeOf(*line)].how = PairedHow::hand;
                taken[placeOf(*ticket)] = true;
                if (!line->ticketNumber.empty()) noteMisprint(statement.supplier, comparableNumber(line->ticketNumber), placeOf(*ticket));
            }
        const auto loads = billedLoads(lines, statement.supplier, mixes);
        const auto supplier = suppliers.find(statement.supplier.value());
        if (supplier == suppliers.end()) return;
        indexDaysOf(statement, supplier->second, loads);
        std::vector<Waiting> waiting;
        // First what names its day and yards, then the fees, credits and lines without a day, which go by the others of their number.
        const auto leads = [](const BilledLoad& load) { return load.date && load.yards && !load.creditOnly; };
        std::vector<bool> fitted(loads.size());
        paired.reserve(loads.size());
        for (std::size_t i = 0; i < loads.size(); ++i)
            if (leads(loads[i])) fitted[i] = takeFitting(statement, loads[i]);
        for (std::size_t i = 0; i < loads.size(); ++i)
            if (leads(loads[i]) && !fitted[i]) settle(statement, supplier->second, loads, i, waiting);
        solve(statement, supplier->second, loads, waiting);
        waiting.clear();
        for (std::size_t i = 0; i < loads.size(); ++i)
            if (!leads(loads[i])) follow(statement, supplier->second, loads, i, waiting);
        solve(statement, supplier->second, loads, waiting);
        paired.clear();
    }

    /// The days that a statement's loads can be of, 120 before it for one without a day.
    void indexDaysOf(const Statement& statement, const SupplierTickets& tickets, const std::vector<BilledLoad>& loads)
    {
        std::int64_t from = statement.date.days(), to = from;
        for (const auto& load : loads) {
            if (load.creditOnly || load.number.empty()) continue;
            const std::int64_t day = load.date.value_or(statement.date).days();
            from = std::min(from, day - (load.date ? MatchLimits::daysOff : MatchLimits::daysBeforeStatement));
            to = std::max(to, day + MatchLimits::daysOff);
        }
        const auto first = tickets.from(from), last = tickets.from(to + 1);
        index.begin(static_cast<std::size_t>(last - first));
        for (auto at = first; at != last; ++at)
            if (!numbers[at->place].empty()) index.add(numbers[at->place], at->place);
    }

    /// The one free ticket of the number that nothing recorded speaks against.
    bool takeFitting(const Statement& statement, const BilledLoad& load)
    {
        if (load.number.empty()) return false;
        auto found = end;
        bool several = false;
        index.each(load.number, [&](std::uint32_t place) {
            if (taken[place] || !isWithinDays(load, statement, ticketAt(place).date) || !fitOf(load, ticketAt(place)).full) return;
            several = found != end;
            found = place;
        });
        if (several) return false;
        if (found == end) return false;
        take(load, found, PairedHow::number);
        return true;
    }

    struct OfNumber {
        std::vector<std::uint32_t> free, before;  ///< tickets of a load's number and days: not taken, and taken by other lines
    };
    OfNumber ticketsOf(const Statement& statement, const SupplierTickets& tickets, const BilledLoad& load) const
    {
        OfNumber found;
        if (load.number.empty()) return found;
        const auto add = [&](std::uint32_t place) {
            if (isWithinDays(load, statement, ticketAt(place).date)) (taken[place] ? found.before : found.free).push_back(place);
        };
        if (load.creditOnly) {
            // A credit may answer for a load of months ago, and there are few of them.
            const auto day = load.date.value_or(statement.date).days();
            for (auto at = tickets.from(day - MatchLimits::daysBeforeCredit); at != tickets.byDate.end() && at->day <= day + MatchLimits::daysOff; ++at)
                if (numbers[at->place] == load.number) add(at->place);
        } else index.each(load.number, add);
        const auto [from, to] = tickets.misprints.equal_range(load.number);
        for (auto other = from; other != to; ++other)
            if (isWithinDays(load, statement, ticketAt(other->second).date) && std::find(found.before.begin(), found.before.end(), other->second) == found.before.end())
                found.before.push_back(other->second);
        return found;
    }

    void settle(const Statement& statement, const SupplierTickets& tickets, const std::vector<BilledLoad>& loads, std::size_t which, std::vector<Waiting>& waiting)
    {
        const auto& load = loads[which];
        auto [free, before] = ticketsOf(statement, tickets, load);
        Waiting row{which, std::move(free), end};
        if (!before.empty()) {
            const auto nearest = *std::min_element(before.begin(), before.end(), [&](auto a, auto b) { return fitOf(load, ticketAt(a)).cost < fitOf(load, ticketAt(b)).cost; });
            row.twiceFits = fitOf(load, ticketAt(nearest)).full;  // as if it were billed twice, unless another one can be meant
            if (row.twiceFits || row.sameNumber.empty()) row.twice = nearest;
        }
        for (const auto& other : waiting)
            if (!load.number.empty() && isCopy(load, loads[other.load])) {
                copies.emplace_back(which, other.load);
                return;
            }
        if (!load.number.empty() || !load.mix.empty()) waiting.push_back(std::move(row));
    }

    static bool isCopy(const BilledLoad& a, const BilledLoad& b) { return a.number == b.number && a.date == b.date && a.yards == b.yards && sameCode(a.mix, b.mix); }

    /// A load that is billed again on the same statement, before its ticket is known: it goes where the first one goes.
    void followCopy(const BilledLoad& copy, const BilledLoad& original)
    {
        const auto& first = matches[placeOf(*original.lines.front())];
        for (const auto* line : copy.lines) {
            auto& match = matches[placeOf(*line)];
            match.ticket = first.ticket;
            match.how = first.how;
            match.doubtful = first.doubtful;
            match.candidates = first.candidates;
        }
    }

    void noteMisprint(Id<Supplier> supplier, std::string number, std::uint32_t place)
    {
        if (number != numbers[place]) suppliers[supplier.value()].misprints.emplace(std::move(number), place);
    }

    /// Fees, credits and lines without a day: to the ticket that the others of the number went to. A credit takes no ticket.
    void follow(const Statement& statement, const SupplierTickets& tickets, const std::vector<BilledLoad>& loads, std::size_t which, std::vector<Waiting>& waiting)
    {
        const auto& load = loads[which];
        auto [free, before] = ticketsOf(statement, tickets, load);
        auto followed = before;
        if (load.creditOnly) followed.insert(followed.end(), free.begin(), free.end());
        else if (load.yards && !free.empty()) followed.clear();
        if (followed.size() > 1 && load.date)
            if (const auto onDay = [&](auto place) { return ticketAt(place).date == *load.date; }; std::count_if(followed.begin(), followed.end(), onDay) == 1)
                followed = {*std::find_if(followed.begin(), followed.end(), onDay)};
        if (followed.size() == 1) return pairWith(load, followed.front(), PairedHow::number);
        if (followed.size() > 1) return doubt(load, followed);
        if (!load.creditOnly && !takeFitting(statement, load)) settle(statement, tickets, loads, which, waiting);
    }

    /// All that is left at once: at least total cost, and taken only where every other way is clearly worse.
    void solve(const Statement& statement, const SupplierTickets& tickets, const std::vector<BilledLoad>& loads, const std::vector<Waiting>& waiting)
    {
        if (waiting.empty()) return;
        std::vector<Edge> edges;
        std::vector<std::int64_t> alone;
        for (std::size_t row = 0; row < waiting.size(); ++row) {
            const auto& load = loads[waiting[row].load];
            for (const auto place : waiting[row].sameNumber) edges.push_back({row, place, 0, fitOf(load, ticketAt(place)).cost});
            if (waiting[row].twice != end) alone.push_back(twiceWorth + fitOf(load, ticketAt(waiting[row].twice)).cost);
            else if (!waiting[row].sameNumber.empty()) alone.push_back(sameNumberWorth);
            else alone.push_back(MatchLimits::worthALine);
        }
        findNear(statement, tickets, loads, waiting, edges);

        std::unordered_map<std::uint32_t, std::size_t> columnOf;
        std::vector<std::uint32_t> columns;
        std::vector<PossiblePair> pairs;
        for (const auto& edge : edges) {
            const auto [column, fresh] = columnOf.emplace(edge.ticket, columns.size());
            if (fresh) columns.push_back(edge.ticket);
            pairs.push_back({edge.row, column->second, edge.cost});
        }
        const auto best = assignOrLeave(alone, columns.size(), pairs);
        std::vector<std::vector<const Edge*>> ofRow(waiting.size());
        for (const auto& edge : edges) ofRow[edge.row].push_back(&edge);
        for (std::size_t row = 0; row < waiting.size(); ++row) {
            const auto& load = loads[waiting[row].load];
            const auto column = best.columnOf[row];
            if (best.regret[row] < MatchLimits::clearlyWorse || (column && waiting[row].twiceFits)) doubt(load, waiting[row], ofRow[row]);
            else if (column) {
                const auto& own = waiting[row].sameNumber;
                const auto place = columns[*column];
                if (std::find(own.begin(), own.end(), place) != own.end()) take(load, place, PairedHow::number);
                else if (fitOf(load, ticketAt(place)).full) take(load, place, PairedHow::near);
                else {
                    // Neither number nor the rest agrees. And where another ticket of its number fits better, whoever took that one is not sure either.
                    doubt(load, waiting[row], ofRow[row]);
                    doubtTakers(load, place);
                }
            } else if (waiting[row].twice != end) pairWith(load, waiting[row].twice, PairedHow::number);
        }
        for (const auto& [copy, original] : copies) followCopy(loads[copy], loads[original]);
        copies.clear();
    }

    void doubtTakers(const BilledLoad& load, std::uint32_t instead)
    {
        index.each(numbers[instead], [&](std::uint32_t place) {
            if (place == instead || !taken[place] || !fitOf(load, ticketAt(place)).full) return;
            for (const auto& [ticket, taker] : paired)
                if (ticket == place) doubt(*taker, {place, instead});
        });
    }

    void findNear(const Statement& statement, const SupplierTickets& tickets, const std::vector<BilledLoad>& loads, const std::vector<Waiting>& waiting,
                  std::vector<Edge>& edges)
    {
        NearNumbers numbersNear;
        std::unordered_map<std::int32_t, std::vector<std::size_t>> withoutNumber;  // rows by day
        std::int64_t from = 0, to = 0;  // in days
        bool first = true;
        for (std::size_t row = 0; row < waiting.size(); ++row) {
            const auto& load = loads[waiting[row].load];
            if (load.number.empty() && !load.date) continue;
            if (load.number.empty()) withoutNumber[static_cast<std::int32_t>(load.date->days())].push_back(row);
            else numbersNear.add(load.number, row);
            const std::int64_t day = load.date.value_or(statement.date).days();
            const auto earliest = day - (load.date ? MatchLimits::daysOff : MatchLimits::daysBeforeStatement);
            const auto latest = day + MatchLimits::daysOff;
            from = first ? earliest : std::min(from, earliest);
            to = first ? latest : std::max(to, latest);
            first = false;
        }
        if (first) return;
        for (auto at = tickets.from(from); at != tickets.byDate.end() && at->day <= to; ++at) {
            const auto place = at->place;
            if (taken[place] || takenByHand[place]) continue;
            const auto& ticket = ticketAt(place);
            numbersNear.near(numbers[place], [&](std::size_t row, int edits) {
                const auto& load = loads[waiting[row].load];
                if (edits == 0 || !isWithinDays(load, statement, ticket.date)) return;
                const auto fit = fitOf(load, ticket);
                // Where the number itself is on file, only a ticket that fits in all it says can be meant instead.
                if ((!waiting[row].sameNumber.empty() || waiting[row].twice != end) && !(fit.sure && edits == 1)) return;
                edges.push_back({row, place, edits, fit.cost + (edits == 1 ? oneEdit : twoEdits)});
            });
            if (const auto rows = withoutNumber.find(static_cast<std::int32_t>(ticket.date.days())); rows != withoutNumber.end())
                for (const auto row : rows->second)
                    if (const auto fit = fitOf(loads[waiting[row].load], ticket); fit.sure) edges.push_back({row, place, 0, fit.cost + numberMissing});
        }
    }

    void take(const BilledLoad& load, std::uint32_t place, PairedHow how)
    {
        taken[place] = true;
        pairWith(load, place, how);
        if (how == PairedHow::near && !load.number.empty()) noteMisprint(ticketAt(place).supplier, load.number, place);
    }

    void pairWith(const BilledLoad& load, std::uint32_t place, PairedHow how)
    {
        paired.emplace_back(place, &load);
        for (const auto* line : load.lines) {
            matches[placeOf(*line)].ticket = &ticketAt(place);
            matches[placeOf(*line)].how = how;
        }
    }

    void doubt(const BilledLoad& load, const std::vector<std::uint32_t>& tickets)
    {
        Waiting row;
        std::vector<Edge> edges;
        std::vector<const Edge*> list;
        for (const auto place : tickets) edges.push_back({0, place, 0, fitOf(load, ticketAt(place)).cost});
        for (const auto& edge : edges) list.push_back(&edge);
        doubt(load, row, list);
    }

    void doubt(const BilledLoad& load, const Waiting& row, std::vector<const Edge*> edges)
    {
        Edge twice{0, row.twice, 0, 0};
        if (row.twice != end) {
            twice.cost = fitOf(load, ticketAt(row.twice)).cost + twiceWorth;
            edges.push_back(&twice);
        }
        std::stable_sort(edges.begin(), edges.end(), [](const Edge* a, const Edge* b) { return a->cost < b->cost; });
        std::vector<TicketCandidate> candidates;
        for (const auto* edge : edges) {
            if (candidates.size() == mostCandidates || (!candidates.empty() && edge->cost > MatchLimits::worthALine + MatchLimits::clearlyWorse)) break;
            candidates.push_back({&ticketAt(edge->ticket), edge->cost, fitsInWords(load, ticketAt(edge->ticket), edge->edits)});
        }
        for (const auto* line : load.lines) {
            auto& match = matches[placeOf(*line)];
            match.ticket = nullptr;
            match.how = PairedHow::none;
            match.doubtful = true;
            match.candidates = candidates;
        }
    }

    void listByTicket(const std::vector<const Statement*>& order)
    {
        ticketStarts.assign(book.all<Ticket>().size() + 1, 0);
        for (const auto& match : matches)
            if (match.ticket) ++ticketStarts[placeOf(*match.ticket) + 1];
        for (std::size_t i = 1; i < ticketStarts.size(); ++i) ticketStarts[i] += ticketStarts[i - 1];
        byTicket.resize(ticketStarts.back());
        auto place = ticketStarts;
        for (std::size_t i = 0; i < order.size(); ++i)
            for (const auto* line : linesOf[i])
                if (const auto& match = matches[placeOf(*line)]; match.ticket) byTicket[place[placeOf(*match.ticket)]++] = &match;
    }

    const Book& book;
    MixCodes mixes;
    std::unordered_map<std::int64_t, SupplierTickets> suppliers;
    std::vector<std::string> numbers;  ///< of the tickets, comparable
    NumberIndex index;                 ///< of the days that the statement in work can bill
    std::vector<bool> taken, takenByHand;
    std::vector<std::pair<std::uint32_t, const BilledLoad*>> paired;  ///< loads of the statement in work and their tickets
    std::vector<std::pair<std::size_t, std::size_t>> copies;  ///< loads of the statement in work: a copy and its original
    std::vector<LineMatch> matches;    ///< by place on the shelf of lines
    std::unordered_map<std::int64_t, std::size_t> statementPlaces;
    std::vector<std::vector<const StatementLine*>> linesOf;  ///< by place in the order of statements
    std::vector<std::size_t> ticketStarts;
    std::vector<const LineMatch*> byTicket;
};

StatementMatches::StatementMatches(const Book& book) : pairing_{std::make_unique<Pairing>(book)} {}
StatementMatches::~StatementMatches() = default;
StatementMatches::StatementMatches(StatementMatches&&) noexcept = default;
StatementMatches& StatementMatches::operator=(StatementMatches&&) noexcept = default;

const LineMatch& StatementMatches::of(Id<StatementLine> line) const { return pairing_->matches[pairing_->placeOf(pairing_->book.get(line))]; }

std::vector<const LineMatch*> StatementMatches::of(const Statement& statement) const
{
    std::vector<const LineMatch*> found;
    const auto place = pairing_->statementPlaces.find(statement.id.value());
    if (place == pairing_->statementPlaces.end()) return found;
    for (const auto* line : pairing_->linesOf[place->second]) found.push_back(&pairing_->matches[pairing_->placeOf(*line)]);
    return found;
}

std::span<const LineMatch* const> StatementMatches::of(const Ticket& ticket) const
{
    const auto place = pairing_->placeOf(ticket);
    const auto start = pairing_->ticketStarts[place];
    return std::span{pairing_->byTicket}.subspan(start, pairing_->ticketStarts[place + 1] - start);
}

std::span<const LineMatch> StatementMatches::all() const { return pairing_->matches; }

}
