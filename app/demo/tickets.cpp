#include "demo/world.h"

#include <algorithm>

namespace strikeoff::demo {

namespace {

class TicketWriter {
public:
    explicit TicketWriter(World& world) : world_{world} {}

    void all()
    {
        for (const auto& plan : world_.plans)
            for (const auto& pour : plan.pours)
                if (pour.done()) write(plan, pour);
    }

private:
    void write(const JobPlan& plan, const PourPlan& pour)
    {
        // Yesterday's second ticket is still on the dashboard of the truck.
        const bool yesterday = pour.on == today() - 1;
        const auto& record = world_.records.get(pour.id);
        const auto& weather = world_.weather.at(pour.on);
        int since = 0;
        for (std::size_t i = 0; i < pour.trucks.size(); ++i) {
            const auto& truck = pour.trucks[i];
            since = std::max(since + random_.pick(2, 7), truck.batched / 16 - 20);
            if (yesterday && i + 1 == pour.trucks.size() && pour.trucks.size() > 1) continue;
            Ticket ticket;
            ticket.supplier = world_.suppliers[pour.supplier];
            ticket.number = number(pour.supplier, pour.on, since);
            if (pour.supplier == 1) ticket.plant = "Dunmarrow";
            else if (!random_.chance(90))
                ticket.plant = plan.areaSqft > 900 || weather.highF % 3 == 0 ? "River Road" : "Quillmere";
            if (!random_.chance(130))
                ticket.truck = std::to_string(pour.supplier == 0 ? random_.pick(11, 34) : random_.pick(201, 219));
            ticket.date = pour.on;
            ticket.mix = pour.on < day(2024, 6, 1) && random_.chance(16) ? "" : record.mix;
            ticket.yards = truck.yards;
            ticket.options = record.optionsOrdered;
            ticket.job = plan.job;
            ticket.pour = pour.id;
            if (!random_.chance(70)) ticket.batchedAt = clock(truck.batched);
            const bool wet = random_.chance(75);  // the lower half of the paper cannot be read
            if (!wet) {
                ticket.arrivedAt = clock(truck.arrived);
                if (!random_.chance(160)) ticket.dischargeBeganAt = clock(truck.began);
                if (!random_.chance(60)) ticket.dischargeEndedAt = clock(truck.ended);
                if (!random_.chance(260)) ticket.slump = *record.slumpOrdered + Quantity::ofUnits(random_.pick(-1, 2) * 500);
                if (random_.chance(110)) ticket.waterAdded = Quantity::ofWhole(random_.pick(2, 6));
                if (random_.chance(540))
                    ticket.concreteTempF = std::clamp(weather.averageF() / 2 + 38 + random_.pick(-3, 4), 57, 92);
                if (!random_.chance(120))
                    ticket.signedBy = pour.crew.empty() || random_.chance(300) ? "D. Arkwell" : initials(pour.crew.front());
            }
            if (!random_.chance(110)) ticket.slumpOrdered = record.slumpOrdered;
            if (i == 0 && pour.returned > Yards{}) ticket.returnedYards = pour.returned;
            if (i + 1 == pour.trucks.size() && pour.trucks.size() == 2 && truck.yards < Yards::ofWhole(3)
                && pour.ordered == pour.trucks.front().yards)
                ticket.note = "ran short, called in";
            world_.records.add(ticket);
        }
    }

    /// Plants count their tickets up through all their customers.
    std::string number(std::size_t supplier, Date date, int ofDay)
    {
        const int days = date - firstDay();
        return supplier == 0 ? std::to_string(38'000 + days * 47 + std::min(ofDay, 46))
                             : "T-" + std::to_string(104'500 + days * 44 + std::min(ofDay, 43));
    }

    std::string initials(std::size_t person) const
    {
        const auto& name = world_.records.get(world_.crew[person]).name;
        return std::string{name.front()} + ". " + name.substr(name.find(' ') + 1);
    }

    World& world_;
    Random random_{7};
};

}

void makeTickets(World& world) { TicketWriter{world}.all(); }

}
