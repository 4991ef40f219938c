#include "demo/customers.h"
#include "demo/takeoffs.h"

#include <algorithm>
#include <numeric>

namespace strikeoff::demo {

namespace {

/// Jobs asked for by the month they would be poured in, January first: a northern outfit sleeps through the winter.
constexpr std::array jobsOfMonth{1, 1, 4, 6, 7, 7, 7, 7, 7, 7, 5, 1};

Date workdayIn(Random& random, int year, int month)
{
    const auto first = day(year, month, 1);
    const int days = lastOfMonth(first) - first;
    return nextWorkday(first + random.pick(0, days));
}

/// What comes in around a day, by weight.
std::array<int, workCount> weightsFor(Date target)
{
    std::array<int, workCount> weights{};
    for (std::size_t i = 0; i < workCount; ++i) weights[i] = traitsOf(static_cast<Work>(i)).share;
    const int month = target.month();
    if (month <= 3 || month >= 11) {
        weights[static_cast<std::size_t>(Work::poolDeck)] = 0;
        weights[static_cast<std::size_t>(Work::patio)] /= 2;
        weights[static_cast<std::size_t>(Work::garage)] *= 3;
        weights[static_cast<std::size_t>(Work::steps)] *= 2;
    } else if (month <= 6) {
        weights[static_cast<std::size_t>(Work::poolDeck)] *= 2;
        weights[static_cast<std::size_t>(Work::patio)] = weights[static_cast<std::size_t>(Work::patio)] * 5 / 4;
    }
    return weights;
}

/// A job whose days are set by hand, so that the book's last days are lively ones.
struct Scripted {
    Work work;
    int sqft;
    Date received;
    Date target;
    bool fixed;          ///< poured on the very day
    Fate fate;
    const char* business;
    int pace = 0;        ///< its luck with hours, where it is not left to chance
};
std::array<Scripted, 17> scripted()
{
    return {{
        {Work::garage, 720, day(2026, 10, 12), day(2026, 11, 17), false, Fate::won, ""},
        {Work::driveway, 980, day(2026, 10, 20), day(2026, 11, 20), true, Fate::won, ""},
        {Work::patio, 860, day(2026, 10, 22), day(2026, 11, 24), true, Fate::won, ""},
        {Work::driveway, 870, day(2026, 10, 19), day(2026, 11, 25), true, Fate::won, "", 1750},
        {Work::apron, 520, day(2026, 11, 2), day(2026, 11, 26), true, Fate::won, "Marrow Bend Bakery"},
        {Work::walk, 190, day(2026, 10, 26), day(2026, 12, 1), true, Fate::won, ""},
        {Work::garage, 640, day(2026, 11, 3), day(2026, 12, 2), true, Fate::won, ""},
        {Work::steps, 110, day(2026, 11, 4), day(2026, 12, 3), true, Fate::won, ""},
        {Work::shedPad, 240, day(2026, 11, 9), day(2026, 12, 16), false, Fate::won, ""},
        {Work::poolDeck, 1150, day(2026, 11, 5), day(2027, 4, 14), false, Fate::won, ""},
        {Work::driveway, 1240, day(2026, 10, 26), day(2027, 4, 8), false, Fate::unanswered, ""},
        {Work::patio, 510, day(2026, 11, 6), day(2027, 4, 20), false, Fate::unanswered, ""},
        {Work::garage, 800, day(2026, 11, 11), day(2026, 12, 18), false, Fate::unanswered, "Carrowgate Builders"},
        {Work::walk, 160, day(2026, 11, 13), day(2027, 4, 2), false, Fate::unanswered, ""},
        {Work::patio, 360, day(2026, 11, 20), day(2027, 4, 26), false, Fate::unanswered, ""},
        {Work::driveway, 1050, day(2026, 11, 19), day(2027, 5, 4), false, Fate::unanswered, ""},
        {Work::apron, 400, day(2026, 11, 21), day(2027, 3, 30), false, Fate::unanswered, "Tarnley Grain & Feed"},
    }};
}

SurfaceFinish drawFinish(Random& random, Work work)
{
    if (work == Work::patio) {
        constexpr std::array weights{560, 0, 180, 170, 90};
        return static_cast<SurfaceFinish>(random.weighted(weights));
    }
    if (work == Work::driveway && random.chance(80)) return SurfaceFinish::exposed;
    if (work == Work::poolDeck && random.chance(300)) return SurfaceFinish::broom;
    return traitsOf(work).finish;
}

const char* wishOf(Random& random, Work work)
{
    static constexpr std::array<std::array<const char*, 3>, workCount> wishes{{
        {"Patio off the back door, room for a table for eight.", "Replace the cracked patio, same size, maybe a curve.",
            "Somewhere to put the grill that does not turn to mud."},
        {"Gravel drive to concrete, two cars wide at the garage.", "Old drive has sunk at the garage door, wants it out and new.",
            "Drive for a new house, ready in a few weeks."},
        {"Front walk from the drive to the steps.", "Walk round the side to the back gate, three feet will do.",
            "Roots have lifted the old walk."},
        {"Slab for a two-car garage, block is up.", "Shop slab, wants to park a tractor on it.",
            "Garage floor, old one is crumbling."},
        {"Front steps are loose, wants new ones with a landing.", "Landing and three steps off the kitchen.",
            "Steps down to the lower yard."},
        {"Deck around a new pool, no slippery finish please.", "Pool deck, coping is set already.",
            "Redo the pool deck before the season."},
        {"Pad for a shed, it comes on a truck.", "Pad for a hot tub, electrician is waiting.", "Small pad behind the barn."},
        {"Apron at the loading door breaks up under the trucks.", "Curb along the lot and an apron at the road.",
            "Apron and curb, the town has sent a letter."},
    }};
    return random.of(wishes[static_cast<std::size_t>(work)]);
}

class Planner {
public:
    explicit Planner(World& world) : world_{world}, customers_{world} {}

    void all()
    {
        for (int year = 2023; year <= 2026; ++year) {
            for (int month = 1; month <= 12; ++month) {
                if ((year == 2023 && month < 6) || (year == 2026 && month > 10)) continue;
                int count = jobsOfMonth[static_cast<std::size_t>(month - 1)];
                // Not every quote is won, so more are written than are poured; the outfit grows a little.
                count = count + (random_.chance(count * 130 + (year - 2023) * 40) ? 1 : 0);
                if (year == 2023 && month == 6) count = 5;
                for (int i = 0; i < count; ++i) regular(workdayIn(random_, year, month));
            }
        }
        for (int i = 0; i < 4; ++i) regular(day(2026, 11, 3) + 3 * i);
        for (const auto& script : scripted()) fromScript(script);
        std::stable_sort(
            world_.plans.begin(), world_.plans.end(), [](const JobPlan& a, const JobPlan& b) { return a.opened < b.opened; });
        for (auto& plan : world_.plans) write(plan);
        lostLeads();
        openLeads();
    }

private:
    /// Kinds of work by chance, but so that in the long run each has its share.
    Work drawWork(Date target)
    {
        const auto weights = weightsFor(target);
        const auto total = std::accumulate(weights.begin(), weights.end(), 0);
        std::array<int, workCount> lacking{};
        for (std::size_t i = 0; i < workCount; ++i) {
            lacking_[i] += 1000 * weights[i] / total;
            lacking[i] = weights[i] > 0 ? std::max(lacking_[i], 1) : 0;
        }
        const auto drawn = random_.weighted(lacking);
        lacking_[drawn] -= 1000;
        return static_cast<Work>(drawn);
    }

    void regular(Date target)
    {
        JobPlan plan;
        plan.work = drawWork(target);
        const auto& traits = traitsOf(plan.work);
        // Most are nearer the small end of what comes in.
        const auto anywhere = random_.between(0, 1000);
        const auto spread = std::min(anywhere, random_.between(300, 1000));
        plan.wantedSqft = static_cast<int>((traits.leastSqft + (traits.mostSqft - traits.leastSqft) * spread / 1000) / 5 * 5);
        plan.target = target;
        const auto earliest = firstDay() + random_.pick(0, 5);
        plan.received = std::max(earliest, target - random_.pick(18, 52));
        if (plan.received >= target - 8) plan.target = nextWorkday(plan.received + random_.pick(10, 18));
        begin(plan);
        world_.plans.push_back(std::move(plan));
    }

    void fromScript(const Scripted& script)
    {
        JobPlan plan;
        plan.work = script.work;
        plan.wantedSqft = script.sqft;
        plan.received = script.received;
        plan.target = script.target;
        if (script.fixed) plan.fixedPour = script.target;
        plan.fate = script.fate;
        scripted_ = true;
        business_ = script.business;
        begin(plan);
        if (script.pace > 0) plan.paceTruth = script.pace;
        scripted_ = false;
        business_ = "";
        world_.plans.push_back(std::move(plan));
    }

    /// What is known after the first visit.
    void begin(JobPlan& plan)
    {
        const auto& traits = traitsOf(plan.work);
        plan.opened = plan.received + random_.pick(1, 4);
        if (!*business_) plan.customer = customers_.forJob(plan.work, plan.opened, plan.source);
        else {
            plan.customer = named(business_);
            plan.source = LeadSource::repeat;
        }
        plan.finish = drawFinish(random_, plan.work);
        plan.pump =
            random_.chance(plan.work == Work::patio || plan.work == Work::poolDeck || plan.work == Work::shedPad ? 190 : 60);
        plan.demolish =
            (plan.work == Work::driveway || plan.work == Work::walk || plan.work == Work::steps || plan.work == Work::patio)
            && random_.chance(250);
        plan.fiber = random_.chance(plan.work == Work::driveway || plan.work == Work::apron ? 550 : 260);
        plan.mesh = plan.work == Work::garage || plan.work == Work::driveway || random_.chance(450);
        plan.tint = plan.finish == SurfaceFinish::stamped || (plan.work == Work::patio && random_.chance(50));
        plan.markupPct = std::max(12, static_cast<int>(random_.bell(traits.markupPct, 4)));
        plan.paceTruth = static_cast<int>(std::clamp<std::int64_t>(random_.bell(1010, 190), 640, 1700));
        // Some jobs are just trouble: rock, a burst pipe, forms set twice.
        if (random_.chance(60)) plan.paceTruth += random_.pick(500, 900);
        const auto type = world_.customers[plan.customer].type;
        if (type == CustomerType::business || type == CustomerType::builder)
            plan.taxRate = Rate::ofUnits(type == CustomerType::business ? 6'2500 : 0);
        plan.deposit = Rate::ofWhole(type == CustomerType::homeowner ? 30 : 0);
        if (!scripted_) {
            // A dear price is turned down more often.
            const int winning = std::clamp(900 - 26 * (plan.markupPct - traits.markupPct), 300, 985);
            plan.fate = random_.chance(winning) ? Fate::won : Fate::declined;
            if (plan.fate == Fate::won && random_.chance(14)) plan.fate = Fate::dropped;
        }
    }

    std::size_t named(std::string_view name) const
    {
        for (std::size_t i = 0; i < world_.customers.size(); ++i)
            if (world_.records.get(world_.customers[i].id).name == name) return i;
        throw DomainError{"a customer of the demonstration who is not in it"};
    }

    void write(JobPlan& plan)
    {
        const auto& traits = traitsOf(plan.work);
        const auto customerId = world_.customerOf(plan);
        plan.site = customers_.siteFor(plan.customer, plan.work);
        const auto& site = world_.records.get(plan.site);
        const auto& customer = world_.records.get(customerId);
        if (plan.source != LeadSource::repeat || random_.chance(500)) {
            Lead lead;
            lead.receivedOn = plan.received;
            lead.name = customer.name;
            lead.phone = customer.phone;
            lead.email = customer.email;
            lead.town = site.town;
            lead.source = plan.source;
            lead.customer = customerId;
            lead.jobType = world_.jobTypes[static_cast<std::size_t>(plan.work)];
            if (random_.chance(700)) lead.area = Area::ofWhole((plan.wantedSqft + random_.pick(-60, 60) + 25) / 50 * 50);
            if (lead.area && *lead.area <= Area{}) lead.area.reset();
            lead.wish = wishOf(random_, plan.work);
            lead.calledOn = plan.opened;
            plan.lead = world_.records.add(lead);
        }
        Job job;
        plan.title = std::string{traits.name} + ", " + site.address;
        job.title = plan.title;
        job.customer = customerId;
        job.site = plan.site;
        job.lead = plan.lead;
        job.jobType = world_.jobTypes[static_cast<std::size_t>(plan.work)];
        job.openedOn = plan.opened;
        if (plan.fate == Fate::dropped) {
            job.droppedOn = plan.target - 3;
            job.droppedReason =
                random_.chance(500) ? "house was sold before we began" : "customer called it off; deposit kept for the base work";
        }
        plan.job = world_.records.add(job);
        makeTakeoff(world_, plan, random_);
    }

    void lostLeads()
    {
        static constexpr std::array reasons{"price", "timing: could not wait", "no answer after three calls", "too far out",
            "wants asphalt", "did it themselves", "wanted work without a permit", "too small for us this month"};
        for (Date date = firstDay() + 3; date < day(2026, 11, 10); date = date + random_.pick(16, 38)) {
            const auto asked = customers_.stranger();
            Lead lead;
            lead.receivedOn = date;
            lead.name = asked.name;
            lead.phone = asked.phone;
            lead.email = asked.email;
            lead.town = asked.town;
            constexpr std::array weights{210, 0, 140, 420, 0, 160, 0, 70};
            lead.source = static_cast<LeadSource>(random_.weighted(weights));
            const auto work = static_cast<Work>(random_.weighted(weightsFor(date)));
            lead.jobType = world_.jobTypes[static_cast<std::size_t>(work)];
            if (random_.chance(500))
                lead.area = Area::ofWhole(random_.pick(traitsOf(work).leastSqft, traitsOf(work).mostSqft) / 50 * 50 + 50);
            lead.wish = wishOf(random_, work);
            if (!random_.chance(170)) lead.calledOn = date + random_.pick(0, 5);
            lead.lostOn = date + random_.pick(6, 15);
            lead.lostReason = lead.calledOn ? random_.of(reasons) : "nobody called back in time";
            world_.records.add(lead);
        }
    }

    /// Who waits for a call on the last day.
    void openLeads()
    {
        struct Waiting {
            int received;
            std::optional<int> called, next;
            Work work;
            int sqft;
            LeadSource source;
            const char* note;
            const char* wish = nullptr;
        };
        // Days before the last one.
        const std::array<Waiting, 8> waiting{{
            {16, 13, 3, Work::driveway, 900, LeadSource::referral, "wanted to talk it over, asked for a call on the weekend"},
            {9, 7, 0, Work::patio, 400, LeadSource::webSearch, "sends pictures of the yard"},
            {6, 4, 0, Work::poolDeck, 1000, LeadSource::neighbor, "pool comes in May"},
            {5, {}, 1, Work::walk, 0, LeadSource::yardSign, "left a message"},
            {3, 2, -1, Work::shedPad, 200, LeadSource::referral, "call after Thanksgiving dinner, not before"},
            {2, {}, {}, Work::steps, 0, LeadSource::webSearch, ""},
            {1, {}, {}, Work::garage, 600, LeadSource::builder, "needs a number by Monday"},
            {1, {}, {}, Work::driveway, 0, LeadSource::reseal, "came up when we called about the sealer",
                "Wants the drive carried on to the barn."},
        }};
        for (const auto& who : waiting) {
            const auto asked = customers_.stranger();
            Lead lead;
            lead.receivedOn = today() - who.received;
            lead.name = asked.name;
            lead.phone = asked.phone.empty() ? "555-0150" : asked.phone;
            lead.email = asked.email;
            lead.town = asked.town;
            lead.source = who.source;
            lead.jobType = world_.jobTypes[static_cast<std::size_t>(who.work)];
            if (who.sqft > 0) lead.area = Area::ofWhole(who.sqft);
            lead.wish = who.wish ? who.wish : wishOf(random_, who.work);
            if (who.called) lead.calledOn = today() - *who.called;
            if (who.next) lead.nextCallOn = today() - *who.next;
            lead.note = who.note;
            world_.records.add(lead);
        }
    }

    World& world_;
    CustomerMaker customers_;
    Random random_{3};
    std::array<int, workCount> lacking_{};
    bool scripted_ = false;
    const char* business_ = "";
};

}

void planJobs(World& world) { Planner{world}.all(); }

}
