#pragma once

#include "demo/world.h"

#include <set>

namespace strikeoff::demo {

/// Makes up people, firms and sites; no two alike.
class CustomerMaker {
public:
    explicit CustomerMaker(World& world);

    /// A customer for the next job: a new one, or one who has been here before. The index into World::customers.
    std::size_t forJob(Work work, Date opened, LeadSource& source);
    /// A new site of a customer, or for some jobs one where the crew has worked before.
    Id<Site> siteFor(std::size_t customer, Work work);

    struct Stranger {
        std::string name, phone, email, town;
    };
    /// Someone who only asked.
    Stranger stranger();

    std::size_t addBusiness(const char* name, CustomerType type, std::size_t town, const char* note);

private:
    std::string personName();
    std::string phone();
    std::string address(int highestNumber);
    std::size_t addHomeowner();

    World& world_;
    Random random_{2};
    std::set<std::string> usedNames_, usedSites_;
    int phones_ = 0;
    std::vector<std::size_t> homeowners_, builders_, businesses_, exempt_;
};

}
