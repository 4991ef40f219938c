#include "made_book.h"

#include <array>

namespace strikeoff {

namespace {

constexpr int crewSize = 12;

Date dayOf(int n, int count) { return *Date::of(2006, 1, 2) + static_cast<int>(static_cast<std::int64_t>(n) * 7300 / count); }

}

void commit(Store& store, Edit edit)
{
    const auto result = store.commit(std::move(edit));
    if (!result.done()) throw DomainError{"the made book breaks a rule: " + result.text().substr(0, 400)};
}

Ticket madeTicket(const Book& book, int n)
{
    static constexpr std::array<const char*, 3> mixes{"3500AE", "4000AE", "4500AE"};
    const auto& jobs = book.all<Job>();
    const auto& job = jobs[static_cast<std::size_t>(n) % jobs.size()];
    Ticket ticket;
    ticket.supplier = book.all<Supplier>()[0].id;
    ticket.number = std::to_string(400'000 + n);
    ticket.plant = n % 2 == 0 ? "North" : "Quarry Road";
    ticket.truck = std::to_string(20 + n % 17);
    ticket.date = job.openedOn + 10;
    ticket.mix = mixes[static_cast<std::size_t>(n) % mixes.size()];
    ticket.yards = Yards::ofUnits(4000 + n % 24 * 250);
    ticket.batchedAt = ClockTime::of(7, n % 60);
    ticket.arrivedAt = ClockTime::of(8, n % 60);
    ticket.dischargeEndedAt = ClockTime::of(8 + n % 2, 59);
    ticket.slumpOrdered = Quantity::ofWhole(5);
    if (n % 3 == 0) ticket.slump = Quantity::ofUnits(5500);
    ticket.options = n % 4 == 0 ? "FIBER=1.5" : "";
    ticket.job = job.id;
    return ticket;
}

void makeBook(const std::string& path, const MadeSize& size)
{
    Store::create(path);
    const auto store = Store::open(path);
    {
        Edit edit{"People"};
        Supplier supplier;
        supplier.name = "Tamarack Ready Mix";
        edit.add(supplier);
        JobType type;
        type.name = "Patio";
        edit.add(type);
        for (int i = 0; i < crewSize; ++i) {
            CrewMember person;
            person.name = "Crew " + std::to_string(i + 1);
            const auto id = edit.add(person);
            PayRate rate;
            rate.person = id;
            rate.fromDate = *Date::of(2006, 1, 1);
            rate.hourlyRate = UnitPrice::ofWhole(24 + i);
            edit.add(rate);
        }
        for (int i = 0; i < size.jobs / 2; ++i) {
            Customer customer;
            customer.name = "Customer " + std::to_string(i + 1);
            customer.phone = "555-01" + std::to_string(10 + i % 90);
            customer.town = "Town " + std::to_string(i % 40);
            edit.add(customer);
        }
        commit(*store, std::move(edit));
    }
    {
        Edit edit{"Jobs"};
        const auto& customers = store->book().all<Customer>();
        for (int i = 0; i < size.jobs; ++i) {
            Job job;
            job.title = "Patio and walk " + std::to_string(i + 1);
            job.customer = customers[static_cast<std::size_t>(i) % customers.size()].id;
            job.jobType = store->book().all<JobType>()[0].id;
            job.openedOn = dayOf(i, size.jobs);
            edit.add(job);
        }
        commit(*store, std::move(edit));
    }
    constexpr int batch = 50'000;
    for (int from = 0; from < size.tickets; from += batch) {
        Edit edit{"Tickets"};
        for (int n = from; n < std::min(from + batch, size.tickets); ++n) edit.add(madeTicket(store->book(), n));
        commit(*store, std::move(edit));
    }
    const auto& jobs = store->book().all<Job>();
    const auto& crew = store->book().all<CrewMember>();
    for (int from = 0; from < size.hours; from += batch) {
        Edit edit{"Hours"};
        for (int n = from; n < std::min(from + batch, size.hours); ++n) {
            const auto& job = jobs[static_cast<std::size_t>(n / 30) % jobs.size()];
            Hours hours;
            hours.person = crew[static_cast<std::size_t>(n % crewSize)].id;
            hours.date = job.openedOn + 10 + n % 30 / crewSize;
            hours.job = job.id;
            hours.phase = static_cast<Phase>(n % 5);
            hours.startedAt = ClockTime::of(7, 0);
            hours.endedAt = ClockTime::of(15, n % 60);
            hours.unpaidMinutes = Minutes::of(30);
            edit.add(hours);
        }
        commit(*store, std::move(edit));
    }
}

}
