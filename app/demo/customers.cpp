#include "demo/customers.h"

#include <algorithm>

namespace strikeoff::demo {

namespace {

constexpr std::array<Town, townCount> towns{{
    {"Tarnley", 0, 0, 9},
    {"Quillmere", 96'000, -41'000, 19},
    {"Dunmarrow", -118'000, 87'000, 26},
    {"Ashwick Ferry", 31'000, 92'000, 16},
    {"Pellin Grove", -44'000, -52'000, 13},
    {"Storrow Lake", 148'000, 132'000, 33},
    {"Hobbin Crossing", -71'000, -121'000, 23},
    {"Marrow Bend", -132'000, -64'000, 28},
}};
// The made-up county lies where no town can be: in open ocean at a northern latitude.
constexpr int shopLatitudeMicro = 41'300'000, shopLongitudeMicro = -30'200'000;
constexpr std::array townShare{270, 140, 110, 130, 120, 70, 90, 70};

constexpr std::array firstNames{"Abel", "Ada", "Alden", "Bettina", "Calvin", "Cora", "Dalton", "Delphine", "Edwin", "Elsa",
    "Ferris", "Flora", "Garrett", "Greta", "Harlan", "Hester", "Ivor", "Ines", "Jonas", "Judith", "Kermit", "Kaye", "Lionel",
    "Lorna", "Marvin", "Maud", "Nolan", "Nell", "Orson", "Opal", "Percy", "Philippa", "Quentin", "Rhoda", "Rufus", "Selma",
    "Silas", "Thea", "Tobias", "Ursula", "Vernon", "Viola", "Wade", "Willa", "Ximena", "Yvette", "Zachary", "Zelda"};
constexpr std::array nameHeads{"Alder", "Barrow", "Birken", "Brindle", "Calder", "Carrow", "Dunnel", "Ember", "Fallow", "Farring",
    "Garth", "Hadden", "Harrow", "Kelling", "Larch", "Marrow", "Nether", "Oaken", "Pellow", "Quarren", "Rendle", "Sallow", "Tarn",
    "Thornel", "Under", "Wether", "Wickel", "Yarrow"};
constexpr std::array nameTails{
    "by", "croft", "dale", "field", "gate", "ham", "hurst", "lock", "man", "mere", "shaw", "stead", "well", "worth"};
constexpr std::array streets{"Alder Court", "Mill Race Road", "Orchard Hill", "Sexton Lane", "Kiln Street", "Ferry Landing",
    "Old Toll Road", "Cooper Street", "Heron Way", "Quarry Spur", "Larch Avenue", "Meeting House Road", "Pond Street",
    "Rail Bank", "Sycamore Row", "Tannery Lane", "Upper Common", "Vine Street", "Whistle Stop", "Gravel Pit Lane",
    "Harness Street", "Juniper Close", "Lock Keeper Road", "Nightingale Lane"};
constexpr std::array siteNotes{"gate is 38 in wide: barrows only", "dog in the yard, ring first", "hose bib at the back corner",
    "truck can stand on the street only", "soft lawn, lay planks", "overhead line at the drive: mind the chute and any pump boom",
    "septic tank left of the drive, keep the truck off", "neighbor shares the drive, tell them the day before",
    "steep drive, chock the truck", "ask for the key at the office"};
constexpr std::array customerNotes{"pays the day the bill comes", "prefers a text to a call", "wants everything in writing",
    "sends the neighbors", "works nights, call after 3", "slow to answer, quick to pay"};
constexpr std::array builderNames{
    "Carrowgate Builders", "Wethershaw Homes", "Oakencroft Construction", "Fallowby & Daughter Builders"};
constexpr std::array businessNames{"Marrow Bend Bakery", "Tarnley Grain & Feed", "Ashwick Ferry Storage",
    "Hobbin Crossing Veterinary", "Quillmere Cold House", "Storrow Lake Boat Works"};
constexpr std::array exemptNames{"Pellin Grove Chapel", "Storrow Lake Township", "Dunmarrow School District"};

}

const Town& townAt(std::size_t index) { return towns[index]; }
Degrees shopLatitude() { return Degrees::ofUnits(shopLatitudeMicro); }
Degrees shopLongitude() { return Degrees::ofUnits(shopLongitudeMicro); }

CustomerMaker::CustomerMaker(World& world) : world_{world}
{
    const auto town = [&] { return random_.weighted(townShare); };
    for (const auto* name : builderNames) builders_.push_back(addBusiness(name, CustomerType::builder, town(), ""));
    constexpr std::array<std::size_t, 6> where{7, 0, 3, 6, 1, 5};
    for (std::size_t i = 0; i < businessNames.size(); ++i)
        businesses_.push_back(addBusiness(businessNames[i], CustomerType::business, where[i], ""));
    constexpr std::array<std::size_t, 3> parish{4, 5, 2};
    for (std::size_t i = 0; i < exemptNames.size(); ++i)
        exempt_.push_back(addBusiness(exemptNames[i], CustomerType::exempt, parish[i], "tax exempt, certificate in the binder"));
}

std::string CustomerMaker::personName()
{
    for (;;) {
        auto name = std::string{random_.of(firstNames)} + ' ';
        name += random_.of(nameHeads);
        name += random_.of(nameTails);
        if (usedNames_.insert(name.substr(name.find(' '))).second || random_.chance(60)) {
            if (usedNames_.insert(name).second) return name;
        }
    }
}

std::string CustomerMaker::phone()
{
    const int last = phones_++ * 37 % 80 + 20;  // 555-0120 to 555-0199; the lower ones are the outfit's own and its suppliers'
    return "555-01" + std::to_string(last);
}

std::string CustomerMaker::address(int highestNumber)
{
    auto made = std::to_string(random_.pick(2, highestNumber)) + ' ';
    return made += random_.of(streets);
}

namespace {

std::string mailOf(std::string name)
{
    std::string mail;
    for (const char c : name) {
        if (c == ' ') mail += '.';
        else if (c >= 'A' && c <= 'Z') mail += static_cast<char>(c - 'A' + 'a');
        else if (c >= 'a' && c <= 'z') mail += c;
    }
    return mail + "@example.com";
}

}

CustomerMaker::Stranger CustomerMaker::stranger()
{
    Stranger made{personName(), random_.chance(40) ? "" : phone(), "", towns[random_.weighted(townShare)].name};
    if (random_.chance(620)) made.email = mailOf(made.name);
    return made;
}

std::size_t CustomerMaker::addHomeowner()
{
    const auto town = random_.weighted(townShare);
    Customer customer;
    customer.name = personName();
    if (!random_.chance(30)) customer.phone = phone();
    if (random_.chance(720)) customer.email = mailOf(customer.name);
    customer.address = address(480);
    customer.town = towns[town].name;
    if (random_.chance(160)) customer.note = random_.of(customerNotes);
    world_.customers.push_back({world_.records.add(customer), CustomerType::homeowner, town, {}});
    homeowners_.push_back(world_.customers.size() - 1);
    return world_.customers.size() - 1;
}

std::size_t CustomerMaker::addBusiness(const char* name, CustomerType type, std::size_t town, const char* note)
{
    Customer customer;
    customer.name = name;
    customer.phone = phone();
    customer.email = mailOf(
        std::string{name}.substr(0, std::string{name}.find(' ')) + (type == CustomerType::builder ? " accounts" : " office"));
    customer.address = address(480);
    customer.town = towns[town].name;
    if (type != CustomerType::homeowner) customer.termsDays = 30;
    customer.taxExempt = type == CustomerType::exempt;
    customer.note = note;
    world_.customers.push_back({world_.records.add(customer), type, town, {}});
    return world_.customers.size() - 1;
}

std::size_t CustomerMaker::forJob(Work work, Date opened, LeadSource& source)
{
    const bool yearIn = opened > firstDay() + 200;
    if (work == Work::apron && random_.chance(700)) {
        source = random_.chance(400) ? LeadSource::repeat : LeadSource::referral;
        return random_.chance(350) ? random_.of(exempt_) : random_.of(businesses_);
    }
    if ((work == Work::garage && random_.chance(480)) || (work == Work::driveway && random_.chance(130))
        || (work == Work::walk && random_.chance(120))) {
        source = LeadSource::builder;
        return random_.of(builders_);
    }
    if (yearIn && homeowners_.size() > 40 && random_.chance(110)) {
        source = LeadSource::repeat;
        return homeowners_[static_cast<std::size_t>(random_.between(0, static_cast<std::int64_t>(homeowners_.size()) - 30))];
    }
    constexpr std::array sources{
        LeadSource::referral, LeadSource::yardSign, LeadSource::webSearch, LeadSource::neighbor, LeadSource::other};
    constexpr std::array shares{430, 130, 210, 190, 40};
    source = sources[random_.weighted(shares)];
    return addHomeowner();
}

Id<Site> CustomerMaker::siteFor(std::size_t index, Work work)
{
    auto& info = world_.customers[index];
    const auto& customer = world_.records.get(info.id);
    const bool goesOn = info.type == CustomerType::homeowner || (info.type != CustomerType::builder && work == Work::apron);
    if (goesOn && !info.sites.empty()) return info.sites.front();

    Site site;
    site.customer = info.id;
    auto town = info.town;
    if (info.type == CustomerType::builder) town = random_.weighted(townShare);
    site.town = towns[town].name;
    site.address = info.type == CustomerType::builder ? address(60) : customer.address;
    while (!usedSites_.insert(site.address + site.town).second) site.address = address(900);
    site.name = site.address + ", " + site.town;
    if (!random_.chance(110)) {
        site.latitude = Degrees::ofUnits(shopLatitudeMicro + towns[town].latitudeMicro + random_.pick(-17'000, 17'000));
        site.longitude = Degrees::ofUnits(shopLongitudeMicro + towns[town].longitudeMicro + random_.pick(-22'000, 22'000));
    }
    if (!random_.chance(140)) site.driveMinutes = Minutes::of(std::max(4, towns[town].driveMinutes + random_.pick(-4, 5)));
    if (random_.chance(430)) site.note = random_.of(siteNotes);
    info.sites.push_back(world_.records.add(site));
    return info.sites.back();
}

}
