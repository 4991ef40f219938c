#include "cost/labor_bid.h"
#include "quantity/words.h"
#include "ready_mix/codes.h"

#include <array>

namespace strikeoff {

namespace {

struct Worked {
    Minutes minutes;
    Money straight;
};

using ByPhase = std::array<Worked, phaseCount>;

std::string phaseWord(std::size_t phase) { return lowered(phaseChoices[phase].label); }

class LaborStory {
public:
    LaborStory(Reasons& reasons, const ClassFacts& facts, const LaborBid& bid, const ByPhase& worked) : reasons_{reasons}, facts_{facts}, bid_{bid}, worked_{worked}
    {
        for (const auto& phase : worked_) {
            all_.minutes += phase.minutes;
            all_.straight += phase.straight;
        }
    }

    void run(Money premium, Money burden)
    {
        if (bid_.all.thousandths > 0) againstHours();
        else if (facts_.carried.empty()) againstNothing();
        else againstSum();
        if (bid_.all.thousandths > 0)
            reasons_.add("carried without hours", -bid_.withoutHours, [&] { return bid_.withoutHoursWords + " carried as a sum, with no hours to hold the work against"; });
        reasons_.add("overtime premium", premium, [&] { return dollars(premium) + " paid on top of straight pay for overtime, where the bid carries none by itself"; });
        reasons_.add("burden", burden, [&] {
            auto text = dollars(burden) + " of payroll taxes, insurance and the like";
            if (all_.minutes > Minutes{}) text += ", " + eachText(burden, all_.minutes.count() * 1000 / 60) + " an hour";
            return text + ", where the bid carries none by itself";
        });
    }

private:
    const char* soFar() const { return facts_.open ? " so far" : ""; }

    void againstHours()
    {
        Money atBid;
        Worked rest;  ///< set against the hours without a phase
        for (std::size_t i = 0; i < phaseCount; ++i) {
            const auto& worked = worked_[i];
            const auto& carried = bid_.phases[i];
            if (carried.thousandths > 0) {
                const auto cost = carried.at(worked.minutes);
                atBid += cost;
                pace(phaseWord(i), carried, worked.minutes, cost);
            } else if (worked.minutes > Minutes{}) {
                const bool isRework = static_cast<Phase>(i) == Phase::rework;
                if (bid_.noPhase.thousandths > 0 && !isRework) {
                    rest.minutes += worked.minutes;
                    continue;
                }
                const auto cost = bid_.all.at(worked.minutes);
                atBid += cost;
                reasons_.add(isRework ? std::string{"rework"} : "unplanned: " + phaseWord(i), cost, [&] {
                    return worked.minutes.shown() + " h of " + phaseWord(i) + " where the bid carries none, at its " + bid_.all.rateText();
                });
            }
        }
        if (bid_.noPhase.thousandths > 0) {
            const auto cost = bid_.noPhase.at(rest.minutes);
            atBid += cost;
            pace("", bid_.noPhase, rest.minutes, cost);
        }
        reasons_.add("rate", all_.straight - atBid, [&] {
            return all_.minutes.shown() + " h at straight pay came to " + dollars(all_.straight) + " against " + dollars(atBid) + " at the bid's rates, which carry burden and premium along with pay";
        });
    }

    void pace(const std::string& phase, const Pot& carried, Minutes worked, Money cost)
    {
        const bool isToCome = facts_.open && worked <= Minutes{};
        std::string name = isToCome ? "not worked yet" : "pace";
        if (!phase.empty()) name += ": " + phase;
        reasons_.add(name, cost - carried.cost,
                     [&] { return worked.shown() + " h worked" + soFar() + " against " + carried.hoursText() + " carried, at the bid's " + carried.rateText(); });
    }

    /// Nothing of labor in the bid: every phase is unplanned, at what it paid.
    void againstNothing()
    {
        for (std::size_t i = 0; i < phaseCount; ++i) {
            const bool isRework = static_cast<Phase>(i) == Phase::rework;
            reasons_.add(isRework ? std::string{"rework"} : "unplanned: " + phaseWord(i), worked_[i].straight, [&] {
                return worked_[i].minutes.shown() + " h of " + phaseWord(i) + " at straight pay, " + dollars(worked_[i].straight) + ", where the bid carries no labor";
            });
        }
    }

    /// A sum without hours tells neither rate nor pace.
    void againstSum()
    {
        reasons_.add("pay against the sum carried", all_.straight - bid_.withoutHours, [&] {
            return all_.minutes.shown() + " h at straight pay" + soFar() + ", " + dollars(all_.straight) + ", against " + bid_.withoutHoursWords +
                   " carried without hours, so rate and pace cannot be told apart";
        });
    }

    Reasons& reasons_;
    const ClassFacts& facts_;
    const LaborBid& bid_;
    const ByPhase& worked_;
    Worked all_;
};

}

Money explainLabor(Reasons& reasons, const CostReckoner& reckoner, const ClassFacts& facts)
{
    ByPhase worked;
    Money premium;
    Money burden;
    Money paid;
    for (const auto* row : reckoner.book().referring<&Hours::job>(facts.job.id)) {
        const auto* cost = reckoner.labor().of(row->id);
        // Hours of someone without a pay rate cost nothing yet and would pass for a quick crew.
        if (!cost || !cost->rateKnown) continue;
        auto& phase = worked[static_cast<std::size_t>(row->phase)];
        phase.minutes += cost->minutes;
        phase.straight += cost->straight;
        premium += cost->premium;
        burden += cost->burdenTotal();
        paid += cost->trueCost();
    }
    LaborStory{reasons, facts, LaborBid{facts.carried}, worked}.run(premium, burden);
    return paid;
}

}
