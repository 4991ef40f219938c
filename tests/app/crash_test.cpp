#include "app/keyboard.h"

#include "app/dialogs.h"
#include "app/money_sample.h"
#include "form/draft_keeper.h"
#include "form/field_editor.h"
#include "form/lines_editor.h"
#include "form/payment_split.h"
#include "form/record_form.h"
#include "form/visit_strip.h"
#include "pages/hours_sheet/hours_model.h"
#include "pages/hours_sheet/hours_sheet_page.h"
#include "pages/money_in/money_in_page.h"
#include "pages/rates/rates_page.h"
#include "pages/rates/sheet_model.h"
#include "pages/rates/sheet_page.h"
#include "pages/ticket_desk/import_page.h"
#include "pages/ticket_desk/stack_model.h"
#include "pages/ticket_desk/stack_page.h"
#include "pages/ticket_desk/statement_rows.h"
#include "pages/ticket_desk/ticket_desk_page.h"
#include "pages/visits/forecast_model.h"
#include "pages/visits/forecast_sheet.h"
#include "pages/visits/visits_page.h"
#include "records/records_page.h"
#include "records/records_panel.h"
#include "table/grid_view.h"
#include "window/message_strip.h"

#include <QElapsedTimer>
#include <QFile>
#include <QLineEdit>
#include <QProcess>
#include <QTableView>

#include <csignal>
#include <cstdio>
#include <random>

using namespace strikeoff;
using strikeoff::test::day;

// What is typed and not saved when the program is killed (-9) is offered again: once, where it was typed, and the book is whole.

namespace {

/// A window at a book in which something of everything can be typed.
struct Typist : test::Keyboard {
    RecordForm& customers() { return window->page(1).findChild<RecordsPage*>()->panel(RecordKind::customer)->form(); }
    LinesEditor& quoteLines()
    {
        for (auto* lines : window->findChildren<LinesEditor*>())
            if (lines->model().columnOf("unit_cost") >= 0) return *lines;
        throw DomainError{"no lines of a quote"};
    }
    TicketDeskPage& desk() { return *window->findChild<TicketDeskPage*>(); }
    MoneyInPage& money() { return *window->findChild<MoneyInPage*>(); }
    RecordForm& payment()
    {
        for (auto* form : money().findChildren<RecordForm*>())
            if (form->kind() == RecordKind::payment) return *form;
        throw DomainError{"no form of a payment"};
    }
    HoursSheetPage& hours() { return *window->findChild<HoursSheetPage*>(); }
    SheetPage& prices() { return *window->findChild<SheetPage*>(); }
    VisitsPage& visits() { return *window->findChild<VisitsPage*>(); }
    ForecastSheet& forecast() { return *visits().findChild<ForecastSheet*>(); }
    VisitStrip& strip() { return *visits().findChild<VisitStrip*>(); }
    template <class Record>
    std::int64_t first() { return book().all<Record>()[0].id.value(); }

    void show(int page, const Page* tab)
    {
        window->showPage(page);
        static_cast<RecordsPage&>(window->page(page)).showTab(tab);
        window->page(page).takeFocus();
        test::settle();
    }
    void fill(RecordForm& form, const char* field, const char* text)
    {
        form.editor(field)->input().setFocus();
        key(Qt::Key_A, Qt::ControlModifier);
        type(text);
    }
    void enter(std::initializer_list<const char*> cells, Qt::Key next = Qt::Key_Return)
    {
        for (const auto* cell : cells) {
            if (*cell) type(cell);
            key(next);
        }
    }
    void openLines()
    {
        REQUIRE(window->openRecord(RecordKind::quoteLine, first<QuoteLine>()));
        test::settle();
        quoteLines().takeFocus();
    }
    void askHowItWent()
    {
        window->showPage(3);
        strip().ask(book().all<Visit>()[0], day("2026-06-11"));
        test::settle();
    }
    void receivePayment()
    {
        window->showPage(4);
        money().findChild<QPushButton*>(QStringLiteral("receivePayment"))->click();
        test::settle();
    }
    std::string shares()
    {
        std::string all;
        for (auto* field : money().findChildren<QLineEdit*>(QStringLiteral("splitShare")))
            if (field->isVisible()) all += utf8(field->text()) + ' ';
        return all;
    }
};

void fillBook(test::Office& office)
{
    test::MoneySample sample{office};
    sample.issued("2026-04-10", "2026-05-10", "300");
    sample.issued("2026-05-20", "2026-06-19", "200");
    Edit edit{"A job in work"};
    Quote quote;
    quote.job = sample.job;
    quote.draftedOn = day("2026-05-05");
    QuoteLine line;
    line.quote = edit.add(quote);
    line.position = 1;
    line.description = "Mix";
    line.quantity = Quantity::ofWhole(5);
    line.unitCost = UnitPrice::ofWhole(165);
    edit.add(line);
    Supplier mixer;
    mixer.name = "Tamarack Ready Mix";
    SheetCharge mix;
    mix.supplier = edit.add(mixer);
    mix.effectiveOn = day("2026-01-01");
    mix.charge = ChargeKind::mix;
    mix.code = "4000AE";
    mix.amount = UnitPrice::ofWhole(165);
    mix.unit = ChargeUnit::perYard;
    edit.add(mix);
    Pour poured;
    poured.job = sample.job;
    poured.pouredOn = day("2026-06-10");
    poured.supplier = mix.supplier;
    poured.mix = "4000AE";
    Visit visit;
    visit.job = sample.job;
    visit.pour = edit.add(poured);
    visit.kind = VisitKind::seal;
    visit.due = day("2026-06-11");
    edit.add(visit);
    for (const auto* name : {"Ada", "Ben"}) {
        CrewMember person;
        person.name = name;
        edit.add(person);
    }
    office.commit(edit);
}

/// Something an owner types in one go, and whether it stands where it was typed.
struct Piece {
    const char* what;
    std::function<void(Typist&)> type;
    std::function<bool(Typist&)> isThere;
};

const std::vector<Piece>& pieces()
{
    static const std::vector<Piece> all{
        {"the phone of a customer",
         [](Typist& t) {
             REQUIRE(t.window->openRecord(RecordKind::customer, t.first<Customer>()));
             t.fill(t.customers(), "phone", "555-0177");
         },
         [](Typist& t) {
             REQUIRE(t.window->openRecord(RecordKind::customer, t.first<Customer>()));
             return t.customers().editor("phone")->text() == QStringLiteral("555-0177") && t.customers().isDirty();
         }},
        {"a note about them", [](Typist& t) { t.fill(t.customers(), "note", "call after five, dog = loud"); },
         [](Typist& t) { return t.customers().editor("note")->text() == QStringLiteral("call after five, dog = loud"); }},
        {"the name of a new customer",
         [](Typist& t) {
             t.window->page(1).newRecord();
             t.fill(t.customers(), "name", "Tomas Fer");
         },
         [](Typist& t) {
             t.window->page(1).newRecord();
             return t.customers().isNew() && t.customers().editor("name")->text() == QStringLiteral("Tomas Fer");
         }},
        {"another quantity on a line of a quote",
         [](Typist& t) {
             t.openLines();
             auto& lines = t.quoteLines();
             lines.view().setCurrentIndex(lines.model().index(0, lines.model().columnOf("quantity")));
             t.key(Qt::Key_Return);
             t.enter({"6 1/4"});
         },
         [](Typist& t) {
             t.openLines();
             const auto& model = t.quoteLines().model();
             return model.index(0, model.columnOf("quantity")).data().toString() == QStringLiteral("6.25");
         }},
        {"a new line of the quote with a quantity that cannot be read",
         [](Typist& t) {
             t.quoteLines().addLine();
             t.enter({"Labor", "Place", "Place and finish", "", "ten", "h", "40", "60"});
         },
         [](Typist& t) {
             const auto& model = t.quoteLines().model();
             if (model.rowCount() != 2) return false;
             const auto text = [&](const char* field) { return model.index(1, model.columnOf(field)).data().toString(); };
             return text("description") == QStringLiteral("Place and finish") && text("quantity") == QStringLiteral("ten") && text("unit_price") == QStringLiteral("60.00");
         }},
        {"a ticket of a stack",
         [](Typist& t) {
             t.show(2, &t.desk().stack());
             t.enter({"48213", "9 1/2", "14"});
         },
         [](Typist& t) {
             t.show(2, &t.desk().stack());
             const auto& ticket = t.desk().stack().model().typedAt(0);
             return typedText(ticket, "number") == "48213" && typedText(ticket, "yards") == "9.5" && typedText(ticket, "truck") == "14" && typedText(ticket, "mix") == "4000AE";
         }},
        {"the next ticket",
         [](Typist& t) {
             t.key(Qt::Key_Return, Qt::ShiftModifier);
             t.enter({"48214", "10"});
         },
         [](Typist& t) {
             const auto& model = t.desk().stack().model();
             return model.rowCount() == 3 && typedText(model.typedAt(1), "number") == "48214" && !model.readingAt(2).begun;
         }},
        {"a line of a statement typed from the paper",
         [](Typist& t) {
             t.show(2, &t.desk().import());
             t.desk().import().findChild<QPushButton*>(QStringLiteral("typeStatement"))->click();
             t.enter({"48213", "6/10/2026", "Mix 4000AE", "10", "yd3", "165.00", "1650.00"}, Qt::Key_Tab);
         },
         [](Typist& t) {
             t.show(2, &t.desk().import());
             const auto& rows = t.desk().import().rows();
             return rows.rowCount() == 3 && rows.read().lines.size() == 1 && rows.read().lines[0].amount == Money::ofCents(1'650'00);
         }},
        {"job, phase and hours of a day",
         [](Typist& t) {
             t.window->desk().enterHours(day("2026-06-09"));
             test::settle();
             t.enter({"1001", "pl", "7-3:30"});
         },
         [](Typist& t) {
             t.window->showPage(7);
             static_cast<RatesPage&>(t.window->page(7)).showTab(&t.hours());
             const auto& model = t.hours().model();
             const auto text = [&](int row) { return model.index(row, HoursModel::firstWork).data().toString(); };
             return model.day() == day("2026-06-09") && text(HoursModel::jobRow) == QStringLiteral("1001") && text(HoursModel::phaseRow).startsWith(QStringLiteral("Pl"))
                 && text(HoursModel::firstPerson) == QStringLiteral("7:00a-3:30p");
         }},
        {"hours of the next one that cannot be read", [](Typist& t) { t.enter({"8 or so"}); },
         [](Typist& t) { return t.hours().model().index(HoursModel::firstPerson + 1, HoursModel::firstWork).data().toString() == QStringLiteral("8 or so"); }},
        {"a day of the forecast",
         [](Typist& t) {
             t.show(3, static_cast<const Page*>(t.forecast().parentWidget()));
             t.enter({"48", "71", "30"});
         },
         [](Typist& t) {
             t.show(3, static_cast<const Page*>(t.forecast().parentWidget()));
             const auto& days = t.forecast().model().readings();
             return days[0].forecast.lowF == 48 && days[0].forecast.highF == 71 && days[0].forecast.rainChance == 30 && t.forecast().hasUnsaved();
         }},
        {"how a visit went",
         [](Typist& t) {
             t.askHowItWent();
             t.strip().findChild<QLineEdit*>(QStringLiteral("minutes"))->setFocus();
             t.type("1:15");
             t.strip().findChild<QLineEdit*>(QStringLiteral("note"))->setFocus();
             t.type("dog was in");
         },
         [](Typist& t) {
             t.askHowItWent();
             return t.strip().findChild<QLineEdit*>(QStringLiteral("minutes"))->text() == QStringLiteral("1:15")
                 && t.strip().findChild<QLineEdit*>(QStringLiteral("note"))->text() == QStringLiteral("dog was in");
         }},
        {"a new price sheet",
         [](Typist& t) {
             t.show(7, &t.prices());
             t.prices().startSheet();
             t.type("2027-01-01");
             t.prices().findChild<GridView*>()->typeAt(0, t.prices().model().columnOf("amount"));
             t.enter({"171"});
         },
         [](Typist& t) {
             t.show(7, &t.prices());
             const auto& charges = t.prices().model().readings();
             return charges.size() == 2 && charges[0].charge.amount == UnitPrice::ofWhole(171) && charges[0].charge.effectiveOn == day("2027-01-01")
                 && t.prices().findChild<GridView*>()->isVisible();
         }},
        {"a payment and how it is split",
         [](Typist& t) {
             t.receivePayment();
             t.fill(t.payment(), "amount", "350");
             for (auto* field : t.money().findChildren<QLineEdit*>(QStringLiteral("splitShare")))
                 if (field->isVisible() && field->text() == QStringLiteral("300.00")) field->setFocus();
             t.key(Qt::Key_A, Qt::ControlModifier);
             t.type("250");
         },
         [](Typist& t) {
             t.receivePayment();
             return t.payment().isNew() && t.payment().editor("amount")->text() == QStringLiteral("350.00") && t.shares() == "250 50.00 ";
         }},
    };
    return all;
}

/// The program with a hand at it, in a process of its own.
struct Hand {
    QProcess program;
    int kept = 0;  ///< so many pieces were typed long enough ago
    bool isAtIt = false, isAll = false;

    explicit Hand(test::Office& office, unsigned seed)
    {
        auto environment = QProcessEnvironment::systemEnvironment();
        environment.insert(QStringLiteral("STRIKEOFF_TYPED_BOOK"), qs(office.path));
        environment.insert(QStringLiteral("STRIKEOFF_TYPING_SEED"), QString::number(seed));
        environment.insert(QStringLiteral("TMPDIR"), office.folder.path());
        program.setProcessEnvironment(environment);
        program.setProcessChannelMode(QProcess::ForwardedErrorChannel);
        program.start(QCoreApplication::applicationFilePath(), {QStringLiteral("a hand that types until it is killed")});
        REQUIRE(program.waitForStarted());
    }
    /// Reads what the hand tells, for so long after it has begun, or until it has typed all.
    void listen(int milliseconds)
    {
        while (!isAtIt && program.state() == QProcess::Running) {
            program.waitForReadyRead(1'000);
            take();
        }
        QElapsedTimer since;
        since.start();
        while (!isAll && program.state() == QProcess::Running && since.elapsed() < milliseconds) {
            program.waitForReadyRead(std::max(milliseconds - static_cast<int>(since.elapsed()), 1));
            take();
        }
    }
    void kill()
    {
        ::kill(static_cast<pid_t>(program.processId()), SIGKILL);
        REQUIRE(program.waitForFinished());
        CHECK(program.exitStatus() == QProcess::CrashExit);
        take();
    }

private:
    void take()
    {
        while (program.canReadLine()) {
            const auto line = program.readLine().trimmed();
            if (line.startsWith("kept ")) kept = line.mid(5).toInt();
            if (line == "begins") isAtIt = true;
            if (line == "all") isAll = true;
        }
    }
};

/// Opens the book again and looks for the first `kept` pieces; gives how many there are in all.
int look(Typist& after, int kept)
{
    for (const auto& finding : after.office.store->verify()) FAIL_CHECK(finding.where + ": " + finding.what);
    after.open();
    const auto said = after.window->strip().message();
    CHECK((kept == 0 || said.count(QStringLiteral("Customer Nora Bell")) == 1));
    int there = 0;
    const auto& all = pieces();
    for (std::size_t i = 0; i < all.size(); ++i) {
        INFO(all[i].what << "; " << said.toStdString());
        const bool isThere = all[i].isThere(after);
        CHECK((isThere || static_cast<int>(i) >= kept));
        if (kept == static_cast<int>(all.size())) test::keepPicture(*after.window, ("offered_again_" + std::to_string(i)).c_str());
        there += isThere ? 1 : 0;
    }
    // In no other form of its kind as well.
    std::map<RecordKind, int> dirty;
    for (const auto* form : after.window->findChildren<RecordForm*>()) dirty[form->kind()] += form->hasDrafts() ? 1 : 0;
    for (const auto& [kind, count] : dirty) CHECK(count <= (kind == RecordKind::customer || kind == RecordKind::payment ? 1 : 0));
    CHECK(after.book().all<Ticket>().empty());
    CHECK(after.book().all<Hours>().empty());
    return there;
}

}

TEST_CASE("a hand that types until it is killed", "[.][hand]")
{
    const auto path = qEnvironmentVariable("STRIKEOFF_TYPED_BOOK");
    if (path.isEmpty()) return;  // it is called by others
    Typist hand;
    hand.office.path = utf8(path);
    hand.open();
    std::mt19937 random{qEnvironmentVariable("STRIKEOFF_TYPING_SEED").toUInt()};
    QElapsedTimer clock;
    clock.start();
    std::vector<qint64> typedAt;
    std::size_t told = 0;
    const auto rest = [&](int milliseconds) {
        const auto before = clock.elapsed();
        QTest::qWait(milliseconds);
        const auto was = told;
        while (told < typedAt.size() && before - typedAt[told] > 750) ++told;
        if (told != was) std::printf("kept %d\n", static_cast<int>(told));
        std::fflush(stdout);
    };
    std::printf("begins\n");
    std::fflush(stdout);
    for (const auto& piece : pieces()) {
        piece.type(hand);
        typedAt.push_back(clock.elapsed());
        rest(std::uniform_int_distribution<int>{1, 150}(random));
    }
    while (told < typedAt.size()) rest(100);
    std::printf("all\n");
    std::fflush(stdout);
    QTest::qWait(60'000);
    FAIL("nobody killed it");
}

TEST_CASE("what was typed in forms, lines, stack and sheets when the program is killed is offered again, once and in its place", "[window][desks][crash]")
{
    Typist after;
    fillBook(after.office);
    Hand hand{after.office, 1};
    hand.listen(60'000);
    REQUIRE(hand.isAll);
    REQUIRE(hand.kept == static_cast<int>(pieces().size()));
    hand.kill();
    const auto typed = DraftKeeper::fileFor(qs(after.office.path));
    REQUIRE(QFile::exists(typed));
    CHECK(look(after, hand.kept) == hand.kept);
    // Put away when the program ends in order.
    after.window.reset();
    CHECK_FALSE(QFile::exists(typed));
    after.open();
    CHECK_FALSE(after.window->strip().message().contains(QStringLiteral("not saved yet")));
    for (int page = 0; page < after.window->pageCount(); ++page) CHECK_FALSE(after.window->page(page).hasUnsaved());
}

TEST_CASE("at whatever moment the program is killed while somebody types, nothing older than a moment is lost", "[.][long]")
{
    test::application();
    constexpr int rounds = 40;
    std::mt19937 random{7};
    int kept = 0, there = 0, all = 0;
    for (int round = 0; round < rounds; ++round) {
        INFO("round " << round);
        Typist after;
        fillBook(after.office);
        Hand hand{after.office, static_cast<unsigned>(round)};
        hand.listen(std::uniform_int_distribution<int>{0, 8'000}(random));
        hand.kill();
        there += look(after, hand.kept);
        kept += hand.kept;
        all += hand.isAll ? 1 : 0;
    }
    std::printf("kill -9 while typing, %d rounds: %d pieces were typed and kept, %d are offered again, none older than a moment is lost; %d times all of it; verify passes every time\n",
                rounds, kept, there, all);
}

namespace {

const Piece& piece(std::string_view what)
{
    const auto found = std::ranges::find_if(pieces(), [&](const auto& each) { return each.what == what; });
    REQUIRE(found != pieces().end());
    return *found;
}

/// Ends the window as a killed program would have left the disk, with what `change` makes of the file.
void breakOff(Typist& typist, const std::function<void(QByteArray& bytes)>& change = {})
{
    QTest::qWait(800);
    const auto typed = DraftKeeper::fileFor(qs(typist.office.path));
    QFile file{typed};
    REQUIRE(file.open(QIODevice::ReadOnly));
    auto bytes = file.readAll();
    file.close();
    if (change) change(bytes);
    typist.window.reset();
    REQUIRE_FALSE(QFile::exists(typed));
    REQUIRE(file.open(QIODevice::WriteOnly));
    file.write(bytes);
}

}

TEST_CASE("what somebody else changed after the program broke off is not overwritten unseen", "[window][desks][crash]")
{
    Typist typist;
    fillBook(typist.office);
    typist.open();
    const std::vector<std::string_view> typed{"another quantity on a line of a quote", "job, phase and hours of a day", "a day of the forecast"};
    for (const auto what : typed) piece(what).type(typist);
    breakOff(typist);
    {
        Edit edit{"At another desk"};
        auto line = typist.office.book().all<QuoteLine>()[0];
        line.quantity = Quantity::ofWhole(7);
        edit.change(line);
        Hours hours;
        hours.person = typist.office.book().all<CrewMember>()[0].id;
        hours.date = day("2026-06-09");
        hours.phase = Phase::shop;
        hours.minutes = Minutes::of(120);
        edit.add(hours);
        DayForecast forecast;
        forecast.date = day("2026-06-11");
        forecast.lowF = 39;
        edit.add(forecast);
        typist.office.commit(edit);
    }
    typist.open();
    for (const auto what : typed) {
        INFO(what);
        CHECK(piece(what).isThere(typist));
    }
    auto& lines = typist.quoteLines();
    CHECK_FALSE(lines.save());
    CHECK(lines.findChild<QLabel*>(QStringLiteral("linesProblem"))->text().contains(QStringLiteral("Put back as saved")));
    lines.findChild<QPushButton*>(QStringLiteral("putBackLines"))->click();
    CHECK_FALSE(lines.hasDrafts());
    CHECK(lines.model().index(0, lines.model().columnOf("quantity")).data().toString() == QStringLiteral("7"));

    CHECK_FALSE(typist.hours().save());
    CHECK(typist.window->strip().message().contains(QStringLiteral("changed elsewhere")));
    typist.hours().findChild<QPushButton*>(QStringLiteral("putBackSheet"))->click();
    CHECK_FALSE(typist.hours().hasUnsaved());
    CHECK(typist.hours().model().index(HoursModel::firstPerson, HoursModel::firstWork).data().toString() == QStringLiteral("2:00"));

    CHECK_FALSE(typist.forecast().save());
    CHECK(typist.window->strip().message().contains(QStringLiteral("changed elsewhere")));
    typist.forecast().findChild<QPushButton*>(QStringLiteral("putBackForecast"))->click();
    CHECK_FALSE(typist.forecast().hasUnsaved());
    CHECK(typist.forecast().model().readings()[0].forecast.lowF == 39);

    CHECK(typist.book().all<QuoteLine>()[0].quantity == Quantity::ofWhole(7));
    CHECK(typist.book().all<Hours>().size() == 1);
    CHECK(typist.book().all<DayForecast>().size() == 1);
}

TEST_CASE("what is typed outlives a second crash, is saved once, and a damaged file of it does no harm", "[window][desks][crash]")
{
    Typist typist;
    fillBook(typist.office);
    typist.open();
    const auto& tickets = piece("a ticket of a stack");
    tickets.type(typist);
    breakOff(typist, [](QByteArray& bytes) { bytes += "\n[{\"place\":\"stack of tickets\",\"rows\":[{\"texts\":{\"number\":\"4"; });
    typist.open();
    CHECK(tickets.isThere(typist));
    CHECK(typist.window->strip().message().contains(QStringLiteral("a stack of one ticket")));
    // It goes on from there, behind what was cut off.
    const auto& next = piece("the next ticket");
    next.type(typist);
    breakOff(typist);
    typist.open();
    CHECK(tickets.isThere(typist));
    CHECK(next.isThere(typist));
    REQUIRE(typist.desk().stack().save());
    CHECK(typist.book().all<Ticket>().size() == 2);
    CHECK_FALSE(typist.desk().stack().hasUnsaved());

    // Whatever stands in the file, the book opens.
    for (const char* bytes : {"[{}, 1, {\"place\":\"price sheet\"}]",
                              R"([{"place":"stack of tickets","rows":[{}]},
                                  {"place":"hours of a day","rows":[{"texts":{"date":"2026-06-09","columns":"999999999"}}]},
                                  {"place":"statement on its way in","rows":[{},{"texts":{"columns":"3","heading row":"9"}},{},{"texts":{"7":"x"}}]},
                                  {"place":"price sheet","rows":[{"id":77}]},
                                  {"place":"how a visit went","id":1,"rows":[{}]},
                                  {"place":"lines of quote#1","id":1,"rows":[{"id":1},{"id":99,"texts":{"nothing":"x"}}]},
                                  {"place":"forecast of two weeks#1","rows":[{"texts":{"date":"never"}}]},
                                  {"place":"customer#1","id":1,"rows":[{"texts":{"nothing":"x"}}]},
                                  {"place":"split of a payment#1","owner":1,"rows":[{"id":1}]}])"}) {
        INFO(bytes);
        piece("the name of a new customer").type(typist);
        breakOff(typist, [&](QByteArray& all) { all = QByteArray{bytes}.replace('\n', ' '); });
        typist.open();
        typist.show(2, &typist.desk().stack());
        typist.show(2, &typist.desk().import());
        typist.show(7, &typist.hours());
        typist.show(7, &typist.prices());
        typist.askHowItWent();
        CHECK(typist.window->openRecord(RecordKind::quote, typist.first<Quote>()));
        typist.receivePayment();
        CHECK(typist.book().all<Ticket>().size() == 2);
    }
}
