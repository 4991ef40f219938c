#include "storage/any_book.h"
#include "storage/loading.h"

#include "csv.h"

#include <set>

using namespace strikeoff;
using namespace strikeoff::test;

namespace {

/// Texts that mean something to somebody else: a server, a browser, a spreadsheet, a shell, a file system, a terminal, a font.
const std::vector<std::string>& hostileTexts()
{
    static const std::vector<std::string> texts{
        "'; DROP TABLE customer;--",
        "\"; DELETE FROM edit; --",
        "1' OR '1'='1",
        "?1 :name $1 %s {int}",
        "<script>alert(1)</script>",
        "&amp; <b>bold</b> &lt;",
        "=1+1",
        "+1-1",
        "-2+3",
        "@SUM(A1:A9)",
        "'=1+1",
        "''@x",
        "=HYPERLINK(\"http://example.com\",\"pay\")",
        "|calc",
        "../../etc/passwd",
        "C:\\temp\\..\\x",
        "$(reboot) `reboot` ; reboot",
        "a,b;c|d",
        "say \"hi\"",
        "/",
        "\\",
        "a/b\\/c",
        "\u202Egnp.exe",            // what follows reads from the right
        "\u2067mixed\u2069 text",
        "\u05E9\u05DC\u05D5\u05DD", // letters that read from the right
        "e\u0301\u0302\u0303\u0304\u0305\u0306",  // marks that pile up
        "\uFEFFmark",               // a byte-order mark
        "\uFF1D1+1",                // a wide equals sign
        "\U0001F9F1\U0001F6A7\U0001F469\u200D\U0001F527",
        std::string(390, 'W'),
        "NULL",
        "true",
        "0x1F",
        "1e309",
        " led and trailed ",
        "\u00A0",
    };
    return texts;
}

/// What only fits where several lines do.
const std::vector<std::string>& hostileNotes()
{
    static const std::vector<std::string> texts{"\t=1", "\r=1", "\n=1", "one\r\ntwo\rthree\nfour", "x\r\nEND:VEVENT\r\nATTACH:file:///etc/passwd", "\"\n\"", "\n", std::string(19'000, '<')};
    return texts;
}

bool takesText(const Field& field) { return field.type == FieldType::text || field.type == FieldType::note; }

}

TEST_CASE("any text in any field of any kind is the text it is, in the book, its trail and its files", "[load][hostile]")
{
    Folder folder;
    const auto store = folder.fresh();
    AnyBook{*store, 11}.fill(80);
    // What every field of text was made to hold, and holds.
    std::map<RecordKind, std::map<std::size_t, std::set<std::string>>> kept;
    std::size_t next = 0;
    for (const auto& kind : allKinds()) {
        for (std::size_t i = 0; i < store->book().count(kind.kind); ++i) {
            auto row = *store->book().row(kind.kind, store->book().idAt(kind.kind, i));
            for (std::size_t f = 0; f < kind.fields.size(); ++f) {
                if (!takesText(kind.fields[f])) continue;
                const auto& texts = kind.fields[f].type == FieldType::note && next % 4 == 0 ? hostileNotes() : hostileTexts();
                row.values[f] = texts[(next + f * 5) % texts.size()];
            }
            ++next;
            Edit edit{"Hostile <b>" + std::string{kind.name} + "</b>'; --"};
            edit.change(row);
            const auto result = store->commit(std::move(edit));
            if (!result.done()) continue;  // a frozen paper, or a name that another row has by now
            const auto now = *store->book().row(kind.kind, row.id);
            for (std::size_t f = 0; f < kind.fields.size(); ++f) {
                if (!takesText(kind.fields[f])) continue;
                INFO(kind.name << '.' << kind.fields[f].name);
                CHECK(now.values[f] == row.values[f]);
                kept[kind.kind][f].insert(std::get<std::string>(row.values[f]));
            }
        }
    }
    for (const auto& kind : allKinds())
        for (std::size_t f = 0; f < kind.fields.size(); ++f)
            if (takesText(kind.fields[f])) {
                INFO(kind.name << '.' << kind.fields[f].name);
                CHECK(kept[kind.kind][f].size() >= 1);
            }
    std::set<std::string> all;
    for (const auto& [kind, fields] : kept)
        for (const auto& [field, texts] : fields) all.insert(texts.begin(), texts.end());
    CHECK(all.size() == hostileTexts().size() + hostileNotes().size());

    // Opened anew the book says the same, and its tables and trail are whole.
    const auto dump = dumpOf(store->book());
    const auto again = Store::open(store->path());
    CHECK(dumpOf(again->book()) == dump);
    for (const auto& finding : again->verify()) {
        // Rows made by chance do not add up, which is no matter of texts.
        if (finding.what.find("add up to") == std::string::npos && finding.what.find("it credits") == std::string::npos) FAIL_CHECK(finding.where << ": " << finding.what);
    }
    const auto id = again->book().idAt(RecordKind::customer, 0);
    const auto trail = again->trailOf(RecordKind::customer, id);
    REQUIRE(trail.size() >= 2);
    CHECK(trail.back().entry.title == "Hostile <b>customer</b>'; --");
    CHECK(trail.back().after->values == again->book().row(RecordKind::customer, id)->values);

    // A file of it is loaded as the same, and nothing in it begins as a formula does.
    const auto other = folder.fresh("other.strikeoff");
    for (const auto& kind : allKinds()) {
        const auto result = loadCsv(*other, kind.kind, "rows.csv", dump.at(kind.kind));
        INFO(kind.name << '\n' << result.faultText("rows.csv", 5));
        REQUIRE(result.done());
        CsvReader reader{dump.at(kind.kind)};
        REQUIRE(reader.next());
        while (reader.next())
            for (std::size_t f = 0; f < kind.fields.size(); ++f)
                if ((takesText(kind.fields[f]) || kind.fields[f].type == FieldType::reference) && !reader.cells()[f].empty())
                    CHECK((std::string_view{"=+-@\t\r\n"}.find(reader.cells()[f].front()) == std::string_view::npos && !reader.cells()[f].starts_with("\uFF1D")));
    }
    for (const auto& kind : allKinds()) {
        INFO(kind.name);
        const auto once = loadCsv(*other, kind.kind, "rows.csv", dump.at(kind.kind));
        CHECK(once.done());
        CHECK(once.unchanged == store->book().count(kind.kind));
        // A new book has rows of its own, which the other book renamed.
        if (other->book().count(kind.kind) == store->book().count(kind.kind)) CHECK(dumpCsv(other->book(), kind.kind) == dump.at(kind.kind));
        else CHECK(kind.kind == RecordKind::burdenRate);
    }
}

TEST_CASE("what is no text is refused in every field, by the field's name, and nothing is changed", "[load][hostile]")
{
    const std::vector<std::string> noText{std::string{"a\0b", 3}, "a\x1B[2Jb", "a\x7F", "a\xC2\x9B" "2J", "\xED\xA0\x80 half a pair", "\xFF\xFE", "\xC0\xAF", "\xE2\x82"};
    const std::vector<std::string> noLine{"two\nlines", "a\tb", "a\rb"};
    std::size_t fields = 0;
    for (const auto& kind : allKinds())
        for (std::size_t f = 0; f < kind.fields.size(); ++f) {
            const auto& field = kind.fields[f];
            if (!takesText(field)) continue;
            ++fields;
            auto texts = noText;
            if (field.type == FieldType::text) texts.insert(texts.end(), noLine.begin(), noLine.end());
            texts.push_back(std::string(static_cast<std::size_t>(field.most) + 1, 'W'));
            for (const auto& text : texts) {
                auto row = blankRow(kind.kind);
                row.values[f] = text;
                const auto problems = checkFields(row);
                INFO(kind.name << '.' << field.name << ": " << text.substr(0, 40));
                CHECK(std::any_of(problems.begin(), problems.end(), [&](const Problem& problem) { return problem.field == field.name && !problem.message.empty(); }));
            }
        }
    CHECK(fields > 60);

    Folder folder;
    const auto store = folder.fresh();
    const auto before = dumpOf(store->book());
    Edit edit{"No text"};
    Customer customer;
    customer.name = "\xED\xA0\x80";
    edit.add(customer);
    const auto result = store->commit(std::move(edit));
    CHECK(result.text() == "Name holds bytes that are no text (UTF-8); type it again");
    CHECK(dumpOf(store->book()) == before);
}
