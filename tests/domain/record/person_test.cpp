#include "domain/book_maker.h"

#include "record/person.h"

using namespace strikeoff;

TEST_CASE("rows about a customer are theirs alone", "[person]")
{
    BookMaker made;
    const auto honora = made.customer("Honora Quill");
    const auto other = made.customer("Ines Talbot");
    const auto job = made.job("Walk", honora);
    const auto theirs = made.job("Patio", other);
    const auto loose = made.add(Lead{.number = "L1001", .receivedOn = on("2026-03-01"), .name = "honora quill"});
    const auto shared = made.add(Lead{.number = "L1002", .receivedOn = on("2026-03-01"), .name = "Honora Quill", .customer = honora});
    made.change(theirs, [&](Job& row) { row.lead = shared; });  // a word of hers that became somebody else's job
    made.add(Pour{.job = job});
    made.add(Pour{.job = theirs});
    const auto rows = rowsAbout(made.book, {RecordKind::customer, honora.value()});
    const auto holds = [&](RecordKind kind, std::int64_t id) { return std::find(rows.begin(), rows.end(), PersonRow{kind, id}) != rows.end(); };
    CHECK(holds(RecordKind::customer, honora.value()));
    CHECK(holds(RecordKind::job, job.value()));
    CHECK(holds(RecordKind::lead, loose.value()));
    CHECK(holds(RecordKind::lead, shared.value()));
    CHECK_FALSE(holds(RecordKind::job, theirs.value()));
    CHECK_FALSE(holds(RecordKind::customer, other.value()));
    CHECK(std::count_if(rows.begin(), rows.end(), [](const auto& row) { return row.kind == RecordKind::pour; }) == 1);
    CHECK(rowsAbout(made.book, {RecordKind::customer, 99}).empty());
}

TEST_CASE("a person's words are swept as whole words, in any case, and twice changes nothing", "[person]")
{
    PersonWords words;
    words.take(RecordKind::customer, "name", "Nora Bell");
    words.take(RecordKind::customer, "phone", "(555) 555-0142");
    words.take(RecordKind::customer, "email", "nora@example.com");
    words.take(RecordKind::site, "address", "12 Cobble Way");
    words.take(RecordKind::customer, "note", "the note says nothing of who it is");
    CHECK(words.swept("call NORA BELL at (555) 555-0142.") == "call (blotted out) at (blotted out).");
    CHECK(words.swept("Nora Bellweather, 112 Cobble Way") == "Nora Bellweather, 112 Cobble Way");
    CHECK(words.swept("Nora\u2019s dog; a bell") == "Nora\u2019s dog; a bell");
    CHECK(words.sweptOfOwn("Nora\u2019s walk by the cobbles, Cobble side, Bell") == "(blotted out)\u2019s walk by the cobbles, (blotted out) side, (blotted out)");
    const auto once = words.sweptOfOwn("for Nora and Tom Bell, 12 Cobble Way");
    CHECK(once == "for (blotted out) and Tom (blotted out), (blotted out)");
    CHECK(words.sweptOfOwn(once) == once);
    CHECK(words.swept("nothing of hers") == "nothing of hers");
    // Signs beside a name are no letters of it; letters are, of whatever alphabet.
    CHECK(words.swept("\u00abNora Bell\u00bb \u2192Nora Bell\u2014Nora Bell \U0001F4DENora Bell \uFEFFNora Bell")
          == "\u00ab(blotted out)\u00bb \u2192(blotted out)\u2014(blotted out) \U0001F4DE(blotted out) \uFEFF(blotted out)");
    CHECK(words.swept("\u00e9Nora Bell\u00e9 \u0416Nora Bell") == "\u00e9Nora Bell\u00e9 \u0416Nora Bell");
    CHECK_FALSE(words.names("the note says nothing of who it is"));

    PersonWords longName;
    longName.take(RecordKind::customer, "name", "Bartholomew Featherstone-Ingleby Concrete Holdings");
    CHECK(longName.sweptTitle("Enter customer Bartholomew Featherstone-Ingleby Concre\u2026", true) == "Enter customer (blotted out)\u2026");
}

TEST_CASE("what a row is reckoned with is kept, what names the person goes", "[person]")
{
    PersonWords words;
    words.take(RecordKind::customer, "name", "Nora Bell");
    const auto value = [&](RecordKind kind, std::string_view name, Value before) {
        const auto& description = describe(kind);
        return blotted(words, kind, 7, description.fields[fieldIndex(description, name)], before);
    };
    const auto text = [](const char* said) { return Value{std::string{said}}; };
    CHECK(value(RecordKind::customer, "name", text("Nora Bell")) == text("Blotted out 7"));
    CHECK(value(RecordKind::customer, "phone", text("555-0142")) == Value{});
    CHECK(value(RecordKind::customer, "terms_days", Value{std::int64_t{30}}) == Value{std::int64_t{30}});
    CHECK(value(RecordKind::visit, "waived_reason", text("Nora said no")) == text("Blotted out"));
    CHECK(value(RecordKind::visit, "waived_reason", Value{}) == Value{});
    CHECK(value(RecordKind::invoice, "number", text("1002")) == text("1002"));
    CHECK(value(RecordKind::invoiceLine, "description", text("Walk for Nora Bell")) == text("Walk for (blotted out)"));
    CHECK(value(RecordKind::invoiceLine, "unit_price", Value{std::int64_t{24'000'000}}) == Value{std::int64_t{24'000'000}});
    CHECK(value(RecordKind::site, "latitude", Value{std::int64_t{45'000'000}}) == Value{});
    for (const auto& [kind, name] : {std::pair{RecordKind::pour, "mix"}, {RecordKind::ticket, "plant"}, {RecordKind::quoteLine, "code"}, {RecordKind::invoiceLine, "unit"}}) {
        const auto& description = describe(kind);
        const auto& field = description.fields[fieldIndex(description, name)];
        CHECK(value(kind, name, text("Nora Bell 4000")) == text("Nora Bell 4000"));
        CHECK(sweptElsewhere(words, kind, field, text("Nora Bell 4000")) == text("Nora Bell 4000"));
    }
    // A mark longer than its word still fits the field.
    PersonWords shortName;
    shortName.take(RecordKind::customer, "name", "Abe");
    const auto& line = describe(RecordKind::invoiceLine);
    const auto& description = line.fields[fieldIndex(line, "description")];
    std::string many;
    while (many.size() + 4 <= 400) many += "Abe ";
    CHECK(std::get<std::string>(blotted(shortName, RecordKind::invoiceLine, 1, description, Value{many})).size() <= 400);

    const auto& receipt = describe(RecordKind::receipt);
    CHECK(sweptElsewhere(words, RecordKind::receipt, receipt.fields[fieldIndex(receipt, "note")], text("half for Nora Bell")) == text("half for (blotted out)"));
    const auto& supplier = describe(RecordKind::supplier);
    CHECK(sweptElsewhere(words, RecordKind::supplier, supplier.fields[fieldIndex(supplier, "name")], text("Nora Bell Ready Mix")) == text("Nora Bell Ready Mix"));
}
