#include "domain/book_maker.h"

#include "visits/address_card.h"
#include "visits/calendar.h"
#include "visits/content_line.h"

#include <catch2/catch.hpp>
#include <libical/ical.h>

#include <algorithm>
#include <map>
#include <memory>
#include <sstream>

using namespace strikeoff;

namespace {

std::vector<std::string> linesOf(const std::string& text)
{
    std::vector<std::string> lines;
    std::size_t begin = 0;
    while (begin < text.size()) {
        const auto end = text.find("\r\n", begin);
        REQUIRE(end != std::string::npos);  // each line has its ending
        lines.push_back(text.substr(begin, end - begin));
        begin = end + 2;
    }
    return lines;
}

std::vector<std::size_t> sizesOf(const std::string& folded)
{
    std::vector<std::size_t> sizes;
    for (const auto& line : linesOf(folded)) sizes.push_back(line.size());
    return sizes;
}

using Component = std::unique_ptr<icalcomponent, decltype(&icalcomponent_free)>;

Component readBack(const std::string& text)
{
    Component calendar{icalparser_parse_string(text.c_str()), icalcomponent_free};
    REQUIRE(calendar);
    CHECK(icalcomponent_count_errors(calendar.get()) == 0);
    CHECK(icalrestriction_check(calendar.get()) == 1);
    return calendar;
}

std::string textOf(const char* text) { return text ? text : ""; }

std::string timeOf(icaltimetype time) { return textOf(icaltime_as_ical_string(time)); }

const UtcMoment written{on("2026-11-25"), at("21:05")};

/// Two visits and a pour, with all that text can hold.
struct Week : BookMaker {
    Id<Site> site;
    Id<Job> work;
    Id<Pour> done, next;
    Id<Visit> seal, cut;

    Week()
    {
        const auto owner = add(Customer{.name = "Hollis; Farm, Inc.", .phone = "555-0142", .address = "4 Elm St", .town = "Otter Bend"});
        site = add(Site{.name = "Alder Court",
                        .customer = owner,
                        .address = "12 Alder Court, rear",
                        .town = "Otter Bend",
                        .latitude = Degrees::parse("44.951"),
                        .longitude = Degrees::parse("-93.1"),
                        .note = "Gate code 4\\7; dog: \u201cBiscuit\u201d, friendly\nHose bib behind the garage, next to the long bed of roses that nobody may step on"});
        work = job("Driveway \u00bd circle", owner);
        change(work, [&](Job& row) { row.site = site; });
        done = add(Pour{.job = work, .sequence = 1, .pouredOn = on("2026-11-20")});
        next = add(Pour{.job = work, .sequence = 2, .plannedOn = on("2026-11-27"), .plannedAt = at("07:30"), .mix = "4000AE", .orderedYards = Yards::parse("9.25")});
        seal = add(Visit{.job = work, .pour = done, .kind = VisitKind::seal, .plannedOn = on("2026-11-26"), .plannedAt = at("23:30"), .minutes = Minutes::of(90)});
        cut = add(Visit{.job = work, .pour = done, .kind = VisitKind::cut, .due = on("2026-11-29"), .plannedOn = on("2026-11-28")});
    }
};

}

TEST_CASE("IC-01 IC-02 IC-03 a line is folded after 75 octets and no character is torn", "[reference][calendar]")
{
    // Source: RFC 5545 (September 2009) section 3.1: lines end in CR LF and should be at most 75 octets without it; folded by CR LF and one blank.
    CHECK(foldedLine("DESCRIPTION:This is a long description") == "DESCRIPTION:This is a long description\r\n");
    const auto unfolded = [](std::string text) {
        for (auto at = text.find("\r\n "); at != std::string::npos; at = text.find("\r\n ", at)) text.erase(at, 3);
        return text;
    };
    for (const std::size_t size : {1, 74, 75, 76, 77, 149, 150, 151, 1000}) {
        const std::string line(size, 'a');
        CHECK(unfolded(foldedLine(line)) == line + "\r\n");
    }
    CHECK(sizesOf(foldedLine(std::string(75, 'a'))) == std::vector<std::size_t>{75});
    CHECK(sizesOf(foldedLine(std::string(76, 'a'))) == std::vector<std::size_t>{75, 2});
    CHECK(sizesOf(foldedLine(std::string(149, 'a'))) == std::vector<std::size_t>{75, 75});
    CHECK(sizesOf(foldedLine(std::string(150, 'a'))) == std::vector<std::size_t>{75, 75, 2});
    const auto torn = linesOf(foldedLine("X:" + std::string(72, 'a') + "\u00e9"));
    CHECK(torn == std::vector<std::string>{"X:" + std::string(72, 'a'), " \u00e9"});
    // What is no UTF-8 at all is folded all the same.
    CHECK(sizesOf(foldedLine(std::string(200, '\x80'))) == std::vector<std::size_t>{75, 75, 52});
}

TEST_CASE("IC-04 text is escaped, a colon is not", "[reference][calendar]")
{
    // Source: RFC 5545 section 3.3.11, with its own example.
    CHECK(escapedText("Project XYZ Final Review\nConference Room - 3B\nCome Prepared.") ==
          "Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.");
    CHECK(escapedText("a\\b;c,d:e") == "a\\\\b\\;c\\,d:e");
    CHECK(escapedText("one\r\ntwo\rthree") == "one\\ntwo\\nthree");
    CHECK(escapedText(std::string{"a\x01"
                                  "b\tc\x7F"}) == "ab\tc");
}

TEST_CASE("IC-05 to IC-11 a calendar reads back as it was written", "[reference][calendar]")
{
    // Source: RFC 5545 sections 3.3.4, 3.6, 3.6.1, 3.8.4.7, 3.8.7.2; read by libical, which shares nothing with what wrote it.
    Week week;
    const auto text = calendarOf(week.book, on("2026-11-25"), on("2026-12-08"), written);
    for (const auto& line : linesOf(text)) CHECK(line.size() <= 75);
    const auto calendar = readBack(text);
    REQUIRE(icalcomponent_isa(calendar.get()) == ICAL_VCALENDAR_COMPONENT);
    CHECK(textOf(icalproperty_get_version(icalcomponent_get_first_property(calendar.get(), ICAL_VERSION_PROPERTY))) == "2.0");
    CHECK(icalcomponent_count_properties(calendar.get(), ICAL_PRODID_PROPERTY) == 1);

    const auto events = calendarEvents(week.book, plannedVisits(week.book, on("2026-11-25"), on("2026-12-08")), on("2026-11-25"), on("2026-12-08"));
    REQUIRE(events.size() == 3);
    REQUIRE(icalcomponent_count_components(calendar.get(), ICAL_VEVENT_COMPONENT) == 3);
    std::vector<std::string> starts, ends, alarms;
    std::size_t i = 0;
    for (auto* event = icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT); event;
         event = icalcomponent_get_next_component(calendar.get(), ICAL_VEVENT_COMPONENT), ++i) {
        CHECK(icalcomponent_count_properties(event, ICAL_UID_PROPERTY) == 1);
        CHECK(textOf(icalcomponent_get_uid(event)) == events[i].uid);
        CHECK(textOf(icalcomponent_get_summary(event)) == events[i].summary);
        CHECK(textOf(icalcomponent_get_location(event)) == events[i].location);
        CHECK(textOf(icalcomponent_get_description(event)) == events[i].description);
        CHECK(icalcomponent_get_sequence(event) == events[i].sequence);
        CHECK(timeOf(icalcomponent_get_dtstamp(event)) == "20261125T210500Z");
        const auto start = icalcomponent_get_dtstart(event);
        CHECK(start.zone == nullptr);  // floating: wherever the phone is
        starts.push_back(timeOf(start));
        ends.push_back(icalcomponent_count_properties(event, ICAL_DTEND_PROPERTY) == 1 ? timeOf(icalcomponent_get_dtend(event)) : "");
        CHECK(icalcomponent_count_properties(event, ICAL_DURATION_PROPERTY) == 0);
        const auto geo = icalproperty_get_geo(icalcomponent_get_first_property(event, ICAL_GEO_PROPERTY));
        CHECK(geo.lat == Approx(44.951));
        CHECK(geo.lon == Approx(-93.1));
        auto* alarm = icalcomponent_get_first_component(event, ICAL_VALARM_COMPONENT);
        REQUIRE(alarm);
        const auto trigger = icalproperty_get_trigger(icalcomponent_get_first_property(alarm, ICAL_TRIGGER_PROPERTY));
        // The alarm rings at six in the evening before, whenever the work begins.
        auto rings = start;
        rings.is_date = 0;
        alarms.push_back(timeOf(icaltime_add(rings, trigger.duration)));
    }
    CHECK(starts == std::vector<std::string>{"20261127T073000", "20261126T233000", "20261128"});
    CHECK(ends == std::vector<std::string>{"", "20261127T010000", ""});  // past midnight; a day alone is that day
    CHECK(alarms == std::vector<std::string>{"20261126T180000", "20261125T180000", "20261127T180000"});
    CHECK(events[1].description.find("Gate code 4\\7; dog: \u201cBiscuit\u201d, friendly\nHose bib") != std::string::npos);
    CHECK(events[0].location == "12 Alder Court, rear, Otter Bend");
}

TEST_CASE("an entry keeps its id and a later one replaces it", "[reference][calendar]")
{
    // Source: RFC 5545 section 3.8.7.4: the sequence rises with every significant change; 3.8.1.11 the status.
    Week week;
    const auto eventsNow = [&] {
        return calendarEvents(week.book, plannedVisits(week.book, on("2026-11-25"), on("2026-12-08")), on("2026-11-25"), on("2026-12-08"));
    };
    const auto before = eventsNow();
    week.change(week.cut, [](Visit& row) {
        row.revision = 2;
        row.plannedOn = on("2026-11-29");
    });
    const auto after = eventsNow();
    REQUIRE(after.size() == before.size());
    for (std::size_t i = 0; i < after.size(); ++i) CHECK(after[i].uid == before[i].uid);
    CHECK(after[2].day == on("2026-11-29"));
    CHECK(after[2].sequence > before[2].sequence);

    week.change(week.cut, [](Visit& row) {
        row.revision = 3;
        row.waivedOn = on("2026-11-25");
        row.waivedReason = "Joints were tooled";
    });
    const auto calendar = readBack(calendarText(eventsNow(), written));
    int cancelled = 0;
    for (auto* event = icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT); event;
         event = icalcomponent_get_next_component(calendar.get(), ICAL_VEVENT_COMPONENT)) {
        if (icalcomponent_get_status(event) != ICAL_STATUS_CANCELLED) continue;
        ++cancelled;
        CHECK(textOf(icalcomponent_get_uid(event)) == before[2].uid);
        CHECK(icalcomponent_count_components(event, ICAL_VALARM_COMPONENT) == 0);
    }
    CHECK(cancelled == 1);
    CHECK(calendarText({}, written).empty());  // a calendar holds at least one component (section 3.6)
}

TEST_CASE("what lost its day is struck out of the phone, and what has one again is moved", "[reference][calendar]")
{
    // Source: RFC 5545 sections 3.8.1.11 (status), 3.8.7.4 (a newer entry of one id has the higher sequence); read back by libical.
    Week week;
    const auto from = on("2026-11-25"), to = on("2026-12-08");
    const auto first = calendarEvents(week.book, plannedVisits(week.book, from, to), from, to);
    FormerDays former{{week.book.get(week.seal), week.book.get(week.cut)}, {week.book.get(week.next)}};
    week.change(week.seal, [](Visit& row) {  // put off without a new day
        row.revision = 2;
        row.plannedOn.reset();
        row.plannedAt.reset();
        row.putOffOn = on("2026-11-25");
        row.putOffReason = SharedText{"rain; gate locked"};
    });
    week.change(week.cut, [](Visit& row) {
        row.revision = 2;
        row.plannedOn = on("2026-12-01");
    });
    week.book.erase(RecordKind::pour, week.next.value());

    const auto calendar = readBack(calendarOf(week.book, from, to, written, former));
    std::map<std::string, icalcomponent*> byId;
    for (auto* event = icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT); event;
         event = icalcomponent_get_next_component(calendar.get(), ICAL_VEVENT_COMPONENT))
        CHECK(byId.emplace(textOf(icalcomponent_get_uid(event)), event).second);  // an id stands once
    REQUIRE(byId.size() == 3);
    const auto check = [&](std::size_t which, icalproperty_status status, const char* start) {
        const auto& before = first[which];
        REQUIRE(byId.contains(before.uid));
        auto* event = byId[before.uid];
        CHECK(icalcomponent_get_status(event) == status);
        CHECK(icalcomponent_get_sequence(event) > before.sequence);
        CHECK(timeOf(icalcomponent_get_dtstart(event)) == start);
        CHECK(icalcomponent_count_components(event, ICAL_VALARM_COMPONENT) == (status == ICAL_STATUS_CANCELLED ? 0 : 1));
    };
    check(0, ICAL_STATUS_CANCELLED, "20261127T073000");  // the pour
    check(1, ICAL_STATUS_CANCELLED, "20261126T233000");  // the seal
    check(2, ICAL_STATUS_CONFIRMED, "20261201");         // the cut
    CHECK(textOf(icalcomponent_get_description(byId[first[1].uid])) == "Put off: rain; gate locked");

    week.change(week.cut, [](Visit& row) {  // done sooner than it stands in the phone
        row.revision = 3;
        row.doneOn = on("2026-11-30");
    });
    const auto after = calendarEvents(week.book, plannedVisits(week.book, from, to), from, to);
    REQUIRE(after.size() == 1);
    CHECK(after[0].cancelled);
    CHECK(after[0].uid == first[2].uid);
    CHECK(after[0].description.starts_with("Done on Mon Nov 30"));
}

TEST_CASE("an id of 255 octets survives", "[reference][calendar]")
{
    // Source: RFC 5545 section 3.8.4.7.
    CalendarEvent event;
    event.uid = std::string(243, 'u') + "@example.com";
    event.day = on("1997-07-14");
    event.summary = "Seal";
    const auto calendar = readBack(calendarText(std::span{&event, 1}, {on("1997-12-10"), at("08:00")}));
    auto* read = icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT);
    CHECK(textOf(icalcomponent_get_uid(read)) == event.uid);
    CHECK(timeOf(icalcomponent_get_dtstart(read)) == "19970714");
    CHECK(timeOf(icalcomponent_get_dtstamp(read)) == "19971210T080000Z");
}

TEST_CASE("an address card has its version first, one name, and its parts escaped", "[reference][calendar]")
{
    // Source: RFC 6350 (August 2011) sections 3.2 (folding), 3.4 and 6.3.1 (an address's seven parts), erratum 3377 (escaping); that VERSION stands right
    // after BEGIN and FN is needed is from memory.
    Week week;
    const std::vector jobs{week.work, week.work};
    const auto text = addressCards(week.book, jobs);
    const auto lines = linesOf(text);
    CHECK(std::count(lines.begin(), lines.end(), "BEGIN:VCARD") == 1);  // a site stands once, however many stops there are
    REQUIRE(lines.size() > 4);
    CHECK(lines[0] == "BEGIN:VCARD");
    CHECK(lines[1] == "VERSION:4.0");
    CHECK(lines.back() == "END:VCARD");
    for (const auto& line : lines) CHECK(line.size() <= 75);
    const auto has = [&](const std::string& line) { return std::find(lines.begin(), lines.end(), line) != lines.end(); };
    CHECK(has("FN:Alder Court"));
    CHECK(has("KIND:location"));
    CHECK(has("ADR:;;12 Alder Court\\, rear;Otter Bend;;;"));
    CHECK(has("GEO:geo:44.951,-93.1"));
    CHECK(has("TEL;VALUE=text:555-0142"));

    const auto customer = addressCard(week.book.get(week.book.get(week.work).customer));
    CHECK(customer.find("FN:Hollis\\; Farm\\, Inc.\r\n") != std::string::npos);
}
