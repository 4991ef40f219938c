#include "app/commands.h"
#include "app/keyboard.h"

#include "chart_file.h"
#include "csv.h"
#include "paper/paper_layout.h"
#include "paper/papers.h"
#include "plain_words.h"
#include "table/record_table.h"
#include "verbs/demonstration_book.h"
#include "visits/address_card.h"
#include "visits/calendar.h"
#include "visits/content_line.h"

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QFileInfo>
#include <QJsonDocument>
#include <QLabel>
#include <QPainter>
#include <QTabBar>
#include <QTabWidget>
#include <QTextDocument>
#include <QXmlStreamReader>

#include <set>

using namespace strikeoff;
using namespace strikeoff::test;

namespace {

/// What would show as something else wherever markup is read, and be run wherever a formula is.
constexpr std::string_view owned = "<u>0wned</u>&amp;";

/// The demonstration book with that before every name, title and note of its jobs, customers and suppliers.
struct HostileDesk : Keyboard {
    HostileDesk()
    {
        office.store.reset();
        office.desk.reset();
        office.path = office.folder.filePath(QStringLiteral("hostile.strikeoff")).toStdString();
        const auto store = writeDemonstrationBook(office.path);
        Edit edit{std::string{owned}};
        for (const auto& kind : allKinds()) {
            const bool isFrozen = kind.kind == RecordKind::quote || kind.kind == RecordKind::quoteLine || kind.kind == RecordKind::invoice || kind.kind == RecordKind::invoiceLine
                                  || kind.kind == RecordKind::priceSheet || kind.kind == RecordKind::changeOrder;
            if (isFrozen) continue;
            for (std::size_t i = 0; i < store->book().count(kind.kind); ++i) {
                auto row = *store->book().row(kind.kind, store->book().idAt(kind.kind, i));
                bool changed = false;
                for (std::size_t f = 0; f < kind.fields.size(); ++f) {
                    const auto& field = kind.fields[f];
                    // Codes are what tickets, sheets and statements are matched by.
                    const std::set<std::string_view> words{"name", "title", "note", "town", "address", "description", "phone", "email", "site", "spoken_with", "reason", "outfit", "outfit_name", "terms", "license"};
                    if (!field.isText() || !words.contains(field.name)) continue;
                    auto* text = std::get_if<std::string>(&row.values[f]);
                    if (!text || text->empty() || text->size() > 300) continue;
                    *text = std::string{owned} + *text;
                    if (field.type == FieldType::note) *text += "\r\nEND:VEVENT\r\nATTACH:file:///etc/passwd\n=1+1";
                    changed = true;
                }
                if (changed) edit.change(std::move(row));
            }
        }
        const auto result = store->commit(std::move(edit));
        INFO(result.text().substr(0, 2000));
        REQUIRE(result.done());
    }
};

/// Looks at every text of a window that could be read as markup or lose an ampersand.
struct Looker {
    std::size_t seen = 0;
    std::set<std::string> faults;

    void markup(const QString& text, const QString& where)
    {
        if (!text.contains(QStringLiteral("0wned"))) return;
        ++seen;
        if (!Qt::mightBeRichText(text)) return;
        // Read as markup it has to come out as it was typed.
        QTextDocument document;
        document.setHtml(text);
        if (!document.toPlainText().contains(QString::fromUtf8(owned.data(), static_cast<qsizetype>(owned.size())))) faults.insert((where + QStringLiteral(": ") + text.left(80)).toStdString());
    }
    void mnemonic(const QString& text, const QString& where)
    {
        if (!text.contains(QStringLiteral("0wned"))) return;
        ++seen;
        if (!text.contains(QStringLiteral("&&amp;"))) faults.insert((where + QStringLiteral(": ") + text.left(80)).toStdString());
    }
    void look(const QWidget& root)
    {
        for (const auto* widget : root.findChildren<QWidget*>()) {
            const auto where = QString::fromLatin1(widget->metaObject()->className()) + u' ' + widget->objectName();
            markup(widget->toolTip(), where + QStringLiteral(" tip"));
            if (const auto* label = qobject_cast<const QLabel*>(widget); label && label->textFormat() != Qt::PlainText) markup(label->text(), where);
            else if (label && label->text().contains(QStringLiteral("0wned"))) ++seen;
            if (const auto* button = qobject_cast<const QAbstractButton*>(widget)) mnemonic(button->text(), where);
            if (const auto* tabs = qobject_cast<const QTabBar*>(widget))
                for (int i = 0; i < tabs->count(); ++i) {
                    mnemonic(tabs->tabText(i), where);
                    markup(tabs->tabToolTip(i), where);
                }
            if (const auto* view = qobject_cast<const QAbstractItemView*>(widget); view && view->model()) {
                const auto& model = *view->model();
                for (int column = 0; column < model.columnCount(); ++column) {
                    markup(model.headerData(column, Qt::Horizontal, Qt::ToolTipRole).toString(), where);
                    for (int row = 0; row < std::min(model.rowCount(), 40); ++row) {
                        const auto index = model.index(row, column);
                        markup(index.data(Qt::ToolTipRole).toString(), where);
                        if (index.data().toString().contains(QStringLiteral("0wned"))) ++seen;
                    }
                }
            }
        }
    }
};

}

TEST_CASE("no page of the window reads what the owner typed as markup", "[window][hostile]")
{
    HostileDesk desk;
    desk.open();
    desk.window->desk().setToday(day("2026-11-25"));
    settle();
    Looker looker;
    for (int page = 0; page < 8; ++page) {
        desk.key(static_cast<Qt::Key>(Qt::Key_1 + page), Qt::AltModifier);
        looker.look(*desk.window);
        for (auto* tabs : desk.window->findChildren<QTabWidget*>()) {
            if (!tabs->isVisible()) continue;
            for (int i = 0; i < tabs->count(); ++i) {
                tabs->setCurrentIndex(i);
                settle();
                looker.look(*desk.window);
            }
        }
    }
    for (const auto& kind : allKinds()) {
        if (desk.book().count(kind.kind) == 0) continue;
        desk.window->desk().open(kind.kind, desk.book().lastId(kind.kind));
        settle();
        looker.look(*desk.window);
    }
    for (const auto& fault : looker.faults) FAIL_CHECK(fault);
    CHECK(looker.seen > 1000);
}

TEST_CASE("what was typed stands on papers and charts, in calendars and addresses and on the clipboard as it was typed", "[hostile]")
{
    HostileDesk desk;
    const auto store = Store::open(desk.office.path);
    const auto& book = store->book();
    const auto today = day("2026-11-25");
    const PaperFonts fonts;
    const auto contains = [&](const PaperDocument& paper) {
        QString all;
        for (const auto& page : layOut(paper, pageSizeOf(paper, fonts), fonts)) all += page.text();
        // A long word is broken where the line is full; the letters are all there.
        all.remove(u'\n').remove(u' ');
        INFO(plainText(paper).substr(0, 400));
        CHECK(all.contains(QStringLiteral("<u>0wned</u>&amp;")));
    };
    contains(quotePaper(book, book.all<Quote>()[0]));
    contains(invoicePaper(book, book.all<Invoice>()[0], today));
    contains(accountPaper(book, book.all<Customer>()[0], today));
    CostReckoner reckoner{book};
    contains(costPaper(reckoner, book.all<Job>()[0], today));

    SECTION("calendar and addresses")
    {
        std::vector<CalendarEvent> events(1);
        events[0].uid = "one@strikeoff.example";
        events[0].day = today;
        events[0].summary = std::string{owned} + "\r\nEND:VEVENT;,:\\";
        events[0].location = std::string(300, 'W') + "\u202E\U0001F9F1";
        events[0].description = "=1+1\nATTACH:file:///etc/passwd";
        const auto made = calendarText(events, {today, *ClockTime::of(12, 0)});
        const auto whole = calendarOf(book, day("2026-11-01"), day("2026-12-31"), {today, *ClockTime::of(12, 0)});
        std::vector<Id<Job>> jobs;
        for (const auto& job : book.all<Job>()) jobs.push_back(job.id);
        const auto cards = addressCards(book, jobs);
        CHECK(cards.find("0wned") != std::string::npos);
        for (const auto* text : {&made, &whole, &cards}) {
            std::istringstream lines{*text};
            std::string line, unfolded;
            std::size_t begun = 0, ended = 0;
            while (std::getline(lines, line)) {
                REQUIRE(line.ends_with('\r'));
                line.pop_back();
                CHECK(line.size() <= 75);
                CHECK_FALSE(line.starts_with("ATTACH"));
                begun += line.starts_with("BEGIN:VEVENT") || line.starts_with("BEGIN:VCARD");
                ended += line.starts_with("END:VEVENT") || line.starts_with("END:VCARD");
                unfolded += line.starts_with(' ') ? line.substr(1) : '\n' + line;
            }
            CHECK(begun == ended);
            if (text == &made) {
                CHECK(begun == 1);
                CHECK(unfolded.find("\nSUMMARY:" + std::string{owned.substr(0, 12)}) != std::string::npos);
                CHECK(unfolded.find("\\nEND:VEVENT\\;\\,:\\\\\n") != std::string::npos);
                CHECK(unfolded.find("\u202E\U0001F9F1\n") != std::string::npos);
            }
        }
    }
    SECTION("charts")
    {
        Chart chart;
        chart.name = QStringLiteral("../../%1\u202E").arg(qs(owned));
        chart.inWords = qs(owned) + QStringLiteral(" ]]> <script>alert(1)</script>");
        chart.size = {300, 200};
        chart.paint = [](QPainter& painter, const QRectF& area, const ChartStyle&) { painter.drawText(area, qs(owned)); };
        chart.numbers = [] { return NumberTable{{{qs("=1+1"), true}}, {QStringList{qs("@SUM(A1)")}, QStringList{qs(owned)}}}; };
        QXmlStreamReader svg{bytesOf(chart, ChartFormat::svg)};
        QString said;
        while (!svg.atEnd()) {
            svg.readNext();
            CHECK(svg.name() != QStringLiteral("script"));
            CHECK(svg.name() != QStringLiteral("u"));
            if (svg.isCharacters()) said += svg.text();
        }
        CHECK_FALSE(svg.hasError());
        CHECK(said.contains(qs(owned)));
        const auto csv = bytesOf(chart, ChartFormat::csv).toStdString();
        CHECK(csv == "\"'=1+1\"\r\n\"'@SUM(A1)\"\r\n" + std::string{owned} + "\r\n");
        const auto folder = desk.office.folder.filePath(QStringLiteral("charts")).toStdString();
        for (const auto& file : writeCharts(folder, std::span{&chart, 1})) {
            const auto name = QFileInfo{QString::fromStdString(file)}.canonicalFilePath();
            CHECK(name.startsWith(QFileInfo{QString::fromStdString(folder)}.canonicalFilePath() + u'/'));
        }
    }
    SECTION("answers as JSON")
    {
        const auto number = book.all<Job>()[book.all<Job>().size() - 1].number;
        const std::vector<std::vector<std::string>> calls{{"today"}, {"cost"}, {"owed"}, {"pays"}, {"week"}, {"visits"}, {"seasons"}};
        std::size_t owners = 0;
        for (auto call : calls) {
            call.push_back(desk.office.path);
            const auto text = run(call);
            INFO(call[0] << '\n' << text.err);
            CHECK(text.status != 2);
            CHECK(text.out.find('\x1B') == std::string::npos);
            call.push_back("--json");
            const auto json = run(call);
            QJsonParseError fault;
            const auto document = QJsonDocument::fromJson(QByteArray::fromStdString(json.out), &fault);
            CHECK(fault.error == QJsonParseError::NoError);
            owners += document.toJson().contains("<u>0wned</u>&amp;");
        }
        CHECK(owners >= 3);
    }
}

TEST_CASE("a name the owner typed leads no file out of its folder", "[hostile]")
{
    for (const auto* name : {"../../etc/passwd", "..", ".hidden", "/", "a\\b", "C:x", "a\nb", "\u202Egnp.exe", "", "   ", "-rf", "con:", "\U0001F9F1"}) {
        const auto made = inFileName(QString::fromUtf8(name));
        INFO(name << " as " << made.toStdString());
        CHECK_FALSE(made.isEmpty());
        CHECK_FALSE(made.startsWith(u'.'));
        CHECK_FALSE(made.startsWith(u'-'));
        for (const auto* mark : {"/", "\\", ":", "\n", "\u202E", "*", "?"}) CHECK_FALSE(made.contains(QString::fromUtf8(mark)));
    }
    CHECK(inFileName(QString{5000, u'W'}).size() <= 60);
    CHECK(inFileName(QStringLiteral("S-1024")) == QStringLiteral("S-1024"));
    CHECK(inFileName(QStringLiteral("F\u00f6hr 7/26")) == QStringLiteral("F\u00f6hr 7-26"));
}

TEST_CASE("a tool tip of anything is the text it is", "[hostile]")
{
    for (const auto* text : {"<b>x</b>", "a & b &amp; c", "x\n  y", "</p><script>", "1 < 2"}) {
        const auto tip = asPlainTip(QString::fromUtf8(text));
        QTextDocument document;
        document.setHtml(tip);
        INFO(text);
        CHECK(Qt::mightBeRichText(tip));
        CHECK(document.toPlainText() == QString::fromUtf8(text));
    }
    CHECK(asPlainTip({}).isEmpty());
}
