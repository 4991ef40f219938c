#include "app/keyboard.h"

#include "pages/rates/rates_page.h"
#include "pages/rates/sheet_model.h"
#include "pages/rates/sheet_page.h"
#include "pages/ticket_desk/check_page.h"
#include "pages/ticket_desk/import_page.h"
#include "pages/ticket_desk/stack_model.h"
#include "pages/ticket_desk/stack_page.h"
#include "pages/ticket_desk/statement_rows.h"
#include "pages/ticket_desk/ticket_desk_page.h"
#include "ready_mix/claims.h"
#include "table/grid_view.h"
#include "table/record_table.h"
#include "window/actions.h"

#include <QAction>
#include <QClipboard>
#include <QComboBox>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QProgressBar>

#include <algorithm>
#include <set>

using namespace strikeoff;

namespace {

/// What the owner had before: a supplier with a sheet, and a pour that was placed yesterday.
struct Yard : test::Keyboard {
    Id<Supplier> supplier;
    Id<Job> job;
    Id<Pour> pour;

    Yard()
    {
        job = office.addJob(office.addCustomer("Nora Bell"), "Patio");
        Edit edit{"Set up"};
        Supplier mixer;
        mixer.name = "Tamarack Ready Mix";
        supplier = edit.add(mixer);
        const auto charge = [&](ChargeKind kind, const char* code, const char* amount, ChargeUnit unit) {
            SheetCharge each;
            each.supplier = supplier;
            each.effectiveOn = test::day("2026-01-01");
            each.charge = kind;
            each.code = code;
            each.amount = *UnitPrice::parse(amount);
            each.unit = unit;
            edit.add(each);
        };
        charge(ChargeKind::mix, "4000AE", "165.00", ChargeUnit::perYard);
        charge(ChargeKind::option, "ACC", "6.00", ChargeUnit::perYard);
        charge(ChargeKind::option, "FIBER", "8.00", ChargeUnit::perYard);
        Pour placed;
        placed.job = job;
        placed.pouredOn = test::day("2026-06-10");
        placed.supplier = supplier;
        placed.mix = "4000AE";
        edit.add(placed);
        const auto ids = office.commit(edit);
        supplier = Id<Supplier>{ids.front()};
        pour = Id<Pour>{ids.back()};
    }

    TicketDeskPage& desk() { return *window->findChild<TicketDeskPage*>(); }
    TicketStackPage& stack() { return *window->findChild<TicketStackPage*>(); }
    void toStack()
    {
        key(Qt::Key_3, Qt::AltModifier);
        desk().showTab(&stack());
        desk().takeFocus();
        test::settle();
    }
    void enter(std::initializer_list<const char*> cells)
    {
        for (const auto* cell : cells) {
            type(cell);
            key(Qt::Key_Return);
        }
    }
};

}

TEST_CASE("a stack of three tickets is typed without a mouse and saved as one edit", "[window][desk]")
{
    Yard yard;
    yard.open();
    yard.toStack();
    // The pour of yesterday is known; typing begins at the ticket's own number.
    REQUIRE(yard.focused() == QStringLiteral("number"));
    yard.enter({"48213", "9 1/2", "14", "705", "742", "7:50", "8:26a", "acc 2 fib"});
    CHECK(yard.stack().model().wordsAt(0).isEmpty());
    yard.key(Qt::Key_Return, Qt::ShiftModifier);
    REQUIRE(yard.focused() == QStringLiteral("number"));
    CHECK(qobject_cast<QLineEdit*>(QApplication::focusWidget())->placeholderText() == QStringLiteral("48214"));
    yard.enter({"48214", "10"});
    yard.key(Qt::Key_Return, Qt::ShiftModifier);
    yard.enter({"48215", "4"});
    yard.key(Qt::Key_Return, Qt::ControlModifier);

    const auto& tickets = yard.book().all<Ticket>();
    REQUIRE(tickets.size() == 3);
    const auto& first = tickets[0];
    CHECK(first.number == "48213");
    CHECK(first.yards == Yards::ofUnits(9500));
    CHECK(first.arrivedAt == ClockTime::of(7, 42));
    CHECK(first.dischargeEndedAt == ClockTime::of(8, 26));
    CHECK(first.options == "ACC=2;FIBER");
    for (const auto& ticket : tickets) {
        CHECK(ticket.supplier == yard.supplier);
        CHECK(ticket.job == yard.job);
        CHECK(ticket.pour == yard.pour);
        CHECK(ticket.mix == "4000AE");
        CHECK(ticket.date == test::day("2026-06-10"));
    }
    CHECK_FALSE(tickets[1].arrivedAt.has_value());
    CHECK_FALSE(yard.stack().hasUnsaved());
    yard.window->action(ActionId::undo)->trigger();
    CHECK(yard.book().all<Ticket>().empty());
}

TEST_CASE("a fault loses no row, a warning may be overruled, and half a stack outlives another page", "[window][desk]")
{
    Yard yard;
    yard.open();
    yard.toStack();
    yard.enter({"48213", "11", "14", "8", "quarter past"});
    auto& model = yard.stack().model();
    CHECK(model.isBlocked(0));
    CHECK(model.wordsAt(0).startsWith(QStringLiteral("Arrived: \u201cquarter past\u201d is not understood")));
    CHECK(model.wordsAt(0).contains(QStringLiteral("more than a truck holds")));
    yard.key(Qt::Key_Return, Qt::ControlModifier);
    CHECK(yard.book().all<Ticket>().empty());
    // The keyboard stands in the cell at fault, with what was typed.
    REQUIRE(yard.focused() == QStringLiteral("arrived_at"));

    yard.key(Qt::Key_1, Qt::AltModifier);
    CHECK(yard.window->currentPage() == 0);
    yard.key(Qt::Key_3, Qt::AltModifier);
    test::settle();
    CHECK(typedText(model.typedAt(0), "arrived_at") == "quarter past");
    CHECK(typedText(model.typedAt(0), "number") == "48213");
    REQUIRE(yard.focused() == QStringLiteral("arrived_at"));
    yard.enter({"815"});
    CHECK_FALSE(model.isBlocked(0));
    CHECK(model.wordsAt(0).startsWith(QStringLiteral("Look again (you may save it all the same): 11.00 yd\u00b3 is more than a truck holds")));
    yard.key(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(yard.book().all<Ticket>().size() == 1);
    CHECK(yard.book().all<Ticket>()[0].yards == Yards::ofWhole(11));
}

TEST_CASE("the book's refusal stands under its row and keeps the stack", "[window][desk]")
{
    Yard yard;
    yard.open();
    yard.toStack();
    yard.enter({"48213", "9"});
    yard.key(Qt::Key_Return, Qt::ShiftModifier);
    yard.enter({"48213", "8"});
    yard.key(Qt::Key_Return, Qt::ControlModifier);
    CHECK(yard.book().all<Ticket>().empty());
    auto& model = yard.stack().model();
    CHECK((model.wordsAt(0) + model.wordsAt(1)).contains(QStringLiteral("already in the book")));
    CHECK(typedText(model.typedAt(1), "yards") == "8");
    CHECK(yard.stack().hasUnsaved());
    model.takeOut(1);
    CHECK(yard.stack().save());
    CHECK(yard.book().all<Ticket>().size() == 1);
}

namespace {

/// Three loads of one day on file, and a statement whose headings the program has never seen: one load mistyped, one charge that is on no sheet, one
/// load that never came.
struct Month : Yard {
    Month()
    {
        Edit edit{"Enter three tickets"};
        for (const auto* number : {"48213", "48214", "48215"}) {
            Ticket ticket;
            ticket.supplier = supplier;
            ticket.number = number;
            ticket.date = test::day("2026-06-10");
            ticket.mix = "4000AE";
            ticket.yards = Yards::ofWhole(number[4] == '5' ? 7 : 10);
            ticket.job = job;
            ticket.pour = pour;
            edit.add(ticket);
        }
        office.commit(edit);
    }
    static QByteArray file()
    {
        return "Del. Slip;Poured;Goods;How much;Each;Comes to\n"
               "48213;06/10/2026;Mix 4000AE;10,00;165,00;1.650,00\n"
               "48214;06/10/2026;Mix 4000AE;10,00;165,00;1.650,00\n"
               "48214;06/10/2026;Seasonal surcharge;1,00;28,00;28,00\n"
               "77001;06/10/2026;Mix 4000AE;8,00;165,00;1.320,00\n"
               "48251;06/10/2026;Mix 4000AE;7,00;165,00;1.155,00\n";
    }
    void toImport()
    {
        key(Qt::Key_3, Qt::AltModifier);
        desk().showTab(&desk().import());
        test::settle();
    }
    const StatementCheck& check()
    {
        REQUIRE(desk().check().check());
        return *desk().check().check();
    }
    const LineFinding& current()
    {
        REQUIRE(desk().check().current());
        return check().lines[*desk().check().current()];
    }
    void takeIn()
    {
        toImport();
        desk().import().takeText(file(), QStringLiteral("june.csv"));
        test::settle();
        desk().import().findChild<QLineEdit*>(QStringLiteral("importNumber"))->setFocus();
        type("2606-1");
        press(desk().import().findChild<QPushButton*>(QStringLiteral("takeStatementIn")));
    }
};

}

TEST_CASE("a statement with headings never seen before is taken in, its layout remembered", "[window][desk]")
{
    Month month;
    month.open();
    month.takeIn();
    REQUIRE(month.book().all<Statement>().size() == 1);
    REQUIRE(month.book().all<StatementLine>().size() == 5);
    const auto& line = month.book().all<StatementLine>()[2];
    CHECK(line.ticketNumber == "48214");
    CHECK(line.date == test::day("2026-06-10"));
    CHECK(line.description == "Seasonal surcharge");
    CHECK(line.amount == Money::ofCents(2800));
    CHECK_FALSE(month.book().get(month.supplier).statementColumns.empty());
    CHECK(month.desk().isShown(&month.desk().check()));
    CHECK_FALSE(month.desk().import().hasUnsaved());
    month.window->action(ActionId::undo)->trigger();
    CHECK(month.book().all<StatementLine>().empty());
    CHECK(month.book().get(month.supplier).statementColumns.empty());
}

TEST_CASE("a wrong guess is put right over its column, and a row that cannot be read keeps all of it out", "[window][desk]")
{
    Month month;
    month.open();
    month.toImport();
    auto& import = month.desk().import();
    import.takeText("Ticket,Date,Amount,Weight\n48213,06/10/2026,1650.00,12.00\n48214,06/10/2026,sixteen hundred,12.00\n", QStringLiteral("june.csv"));
    test::settle();
    CHECK_FALSE(import.rows().read().fine());
    CHECK_FALSE(import.findChild<QLabel*>(QStringLiteral("importProblems"))->text().isEmpty());
    import.findChild<QLineEdit*>(QStringLiteral("importNumber"))->setText(QStringLiteral("9"));
    CHECK_FALSE(import.takeIn());
    CHECK(month.book().all<Statement>().empty());
    // The cell is put right in its place.
    REQUIRE(import.rows().firstRefused() == 2);
    import.rows().setData(import.rows().index(2, 3), QStringLiteral("1600.00"), Qt::EditRole);
    CHECK(import.rows().read().fine());
    // The amount was meant to be the last column.
    auto* chooser = import.findChild<QComboBox*>(QStringLiteral("column4"));
    REQUIRE(chooser);
    chooser->setFocus();
    month.type("Amount");
    emit chooser->activated(chooser->currentIndex());
    test::settle();
    CHECK(import.rows().guess().columns[3] == StatementColumn::amount);
    CHECK(import.rows().guess().columns[2] != StatementColumn::amount);
    REQUIRE(import.takeIn());
    CHECK(month.book().all<StatementLine>()[0].amount == Money::ofCents(1200));
}

TEST_CASE("the check is walked with F3, paired by hand, approved, and the claim and the letter say what is disputed", "[window][desk]")
{
    Month month;
    month.open();
    month.takeIn();
    auto& check = month.desk().check();
    // Every line agrees, is off, or waits: to the cent.
    CHECK(month.check().billed == month.check().agreed + month.check().disputed + month.check().needsEye);
    const int open = month.check().linesOpen;
    REQUIRE(open >= 2);

    // F3 comes by each open finding once and says when there are no more.
    month.desk().takeFocus();
    std::set<const StatementLine*> seen{month.current().line};
    for (int i = 1; i < open; ++i) {
        month.key(Qt::Key_F3);
        CHECK(month.current().state == FindingState::open);
        seen.insert(month.current().line);
    }
    CHECK(static_cast<int>(seen.size()) == open);
    const auto last = check.current();
    month.key(Qt::Key_F3);
    CHECK(check.current() == last);
    month.key(Qt::Key_F3, Qt::ShiftModifier);
    CHECK(check.current() != last);

    // The load that is on no ticket is another's, by hand.
    const auto strange = std::ranges::find_if(month.check().lines, [](const auto& finding) { return finding.line && finding.line->ticketNumber == "77001"; });
    REQUIRE(strange != month.check().lines.end());
    CHECK(strange->finding == Finding::noTicket);
    const auto mistyped = std::ranges::find_if(month.check().lines, [](const auto& finding) { return finding.line && finding.line->ticketNumber == "48251"; });
    CHECK(mistyped->ticket);
    CHECK(mistyped->how == PairedHow::near);
    check.choose(static_cast<std::size_t>(mistyped - month.check().lines.begin()));
    auto* with = check.findChild<QLineEdit*>(QStringLiteral("pairWith"));
    // A settled pair is not asked about; part and pair stand where a line is open.
    check.choose(static_cast<std::size_t>(strange - month.check().lines.begin()));
    REQUIRE(with->isVisible());
    month.reach(with);
    month.type("Tamarack Ready Mix//48215/2026-06-10");
    month.key(Qt::Key_Return);  // takes the name from the list
    month.key(Qt::Key_Return);  // and pairs
    REQUIRE(month.book().all<StatementLine>()[3].ticket.has_value());
    CHECK(month.book().get(*month.book().all<StatementLine>()[3].ticket).number == "48215");
    month.window->action(ActionId::undo)->trigger();
    CHECK_FALSE(month.book().all<StatementLine>()[3].ticket.has_value());

    REQUIRE(month.check().needsEye.isZero());
    const auto disputed = month.check().disputed;
    CHECK(disputed >= Money::ofCents(28'00 + 1'320'00));
    const auto letter = check.letter();
    REQUIRE(letter);
    CHECK(letter->asked == disputed);
    const auto text = letter->text();
    CHECK(text.find("48214") != std::string::npos);
    CHECK(text.find("Seasonal surcharge") != std::string::npos);
    CHECK(text.find("77001") != std::string::npos);
    CHECK(text.find("1,320.00") != std::string::npos);
    month.press(check.findChild<QPushButton*>(QStringLiteral("copyLetter")));
    CHECK(QApplication::clipboard()->text() == qs(text));
    REQUIRE(month.desk().paper());
    CHECK(plainText(*month.desk().paper()).find("Seasonal surcharge") != std::string::npos);

    month.press(check.findChild<QPushButton*>(QStringLiteral("approve")));
    CHECK(month.book().all<Statement>()[0].approvedOn == test::day("2026-06-11"));
    Money claimed;
    for (const auto& claim : month.book().all<Claim>()) claimed += claim.amount;
    CHECK(claimed == disputed);

    // A claim is let go with a reason, in the list of claims.
    const auto id = month.book().all<Claim>()[0].id;
    REQUIRE(month.window->openRecord(RecordKind::claim, id.value()));
    test::settle();
    auto* reason = month.desk().findChild<QLineEdit*>(QStringLiteral("letGoReason"));
    month.reach(reason);
    month.type("Not worth the call");
    month.key(Qt::Key_Return);
    CHECK(month.book().get(id).droppedOn == test::day("2026-06-11"));
    CHECK(month.book().get(id).droppedReason == "Not worth the call");
}

TEST_CASE("a line that could be either of two tickets shows both, and one is chosen", "[window][desk]")
{
    Month month;
    month.open();
    month.toImport();
    auto& import = month.desk().import();
    import.takeText("Ticket,Date,Description,Quantity,Price,Amount\n48219,06/10/2026,Mix 4000AE,10,165.00,1650.00\n", QStringLiteral("june.csv"));
    import.findChild<QLineEdit*>(QStringLiteral("importNumber"))->setText(QStringLiteral("9"));
    REQUIRE(import.takeIn());
    auto& check = month.desk().check();
    REQUIRE(month.current().finding == Finding::needsYourEye);
    CHECK(month.check().needsEye == Money::ofCents(1'650'00));
    REQUIRE(month.current().candidates.size() >= 2);
    const auto buttons = check.findChildren<QPushButton*>(QStringLiteral("candidate"));
    REQUIRE(buttons.size() == static_cast<qsizetype>(month.current().candidates.size()));
    // Not approved while it is not known what is billed.
    month.press(check.findChild<QPushButton*>(QStringLiteral("approve")));
    CHECK_FALSE(month.book().all<Statement>()[0].approvedOn.has_value());
    const auto second = month.current().candidates[1].ticket->id;
    month.press(buttons[1]);
    CHECK(month.book().all<StatementLine>()[0].ticket == second);
    CHECK(month.check().needsEye.isZero());
    CHECK(month.check().agreed == Money::ofCents(1'650'00));
}

TEST_CASE("a line is let stand with a reason and disputed again", "[window][desk]")
{
    Month month;
    month.open();
    month.takeIn();
    auto& check = month.desk().check();
    const auto& lines = month.check().lines;
    const auto place = static_cast<std::size_t>(std::ranges::find_if(lines, [](const auto& finding) { return finding.line && finding.line->description == "Seasonal surcharge"; }) - lines.begin());
    const auto disputed = month.check().disputed;
    check.choose(place);
    auto* reason = check.findChild<QLineEdit*>(QStringLiteral("standReason"));
    month.reach(reason);
    month.key(Qt::Key_Return);
    CHECK(month.book().all<StatementLine>()[2].standsBecause.empty());  // not without a reason
    month.type("Agreed on the phone");
    month.key(Qt::Key_Return);
    CHECK(month.book().all<StatementLine>()[2].standsBecause == "Agreed on the phone");
    CHECK(month.check().lines[place].state == FindingState::letStand);
    CHECK(month.check().disputed == disputed - Money::ofCents(2800));
    check.setFilter({FindingFilter::Show::everything, {}});
    check.choose(place);
    month.press(check.findChild<QPushButton*>(QStringLiteral("takeBackStand")));
    CHECK(month.check().lines[place].state == FindingState::open);
}

TEST_CASE("a very long file is read with progress and can be stopped", "[window][desk]")
{
    Month month;
    month.open();
    month.toImport();
    QByteArray text{"Ticket,Date,Description,Quantity,Unit price,Amount\n"};
    for (int i = 0; i < 100'000; ++i) text += QByteArray::number(100'000 + i) + ",06/10/2026,Mix 4000AE,10,165.00,1650.00\n";
    auto& import = month.desk().import();
    import.takeText(text, QStringLiteral("long.csv"));
    REQUIRE(import.isReading());
    CHECK(import.findChild<QProgressBar*>()->isVisible());
    month.press(import.findChild<QPushButton*>(QStringLiteral("stopReading")));
    while (import.isReading()) QTest::qWait(10);
    CHECK(import.rows().isEmpty());
    CHECK_FALSE(import.hasUnsaved());

    import.takeText(text, QStringLiteral("long.csv"));
    while (import.isReading()) QTest::qWait(10);
    CHECK(import.rows().read().lines.size() == 100'000);
}

TEST_CASE("a new price sheet is typed over the last one, and what changed is shown with its cost", "[window][rates]")
{
    Month month;
    month.open();
    month.key(Qt::Key_8, Qt::AltModifier);
    auto* sheets = month.window->findChild<SheetPage*>();
    REQUIRE(sheets);
    month.window->findChild<RatesPage*>()->showTab(sheets);
    test::settle();
    CHECK(sheets->moves().model().rowCount() == 0);  // one sheet so far
    month.press(sheets->findChild<QPushButton*>(QStringLiteral("typeSheet")));
    REQUIRE(month.focused() == QStringLiteral("sheetDay"));
    month.type("2027-01-01");
    month.reach(sheets->findChild<GridView*>());
    auto& model = sheets->model();
    REQUIRE(model.readings().size() == 4);  // three charges and a row to type
    sheets->findChild<GridView*>()->typeAt(0, model.columnOf("amount"));
    month.type("171");
    month.key(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(month.book().all<SheetCharge>().size() == 6);
    CHECK(sheets->moves().model().rowCount() == 4);
    CHECK(sheets->answer().contains(QStringLiteral("one up")));
    // 27 yards at $6.00 more.
    CHECK(sheets->answer().contains(QStringLiteral("27.00 yd\u00b3 in three loads")));
    CHECK(sheets->answer().contains(QStringLiteral("$162.00 more")));
}

TEST_CASE("a sheet from CSV is loaded whole or not at all, every fault shown", "[window][rates]")
{
    Month month;
    month.open();
    month.key(Qt::Key_8, Qt::AltModifier);
    auto* sheets = month.window->findChild<SheetPage*>();
    month.window->findChild<RatesPage*>()->showTab(sheets);
    const auto write = [&](const char* name, const QByteArray& bytes) {
        const auto path = month.office.folder.filePath(QString::fromLatin1(name));
        QFile file{path};
        REQUIRE(file.open(QIODevice::WriteOnly));
        file.write(bytes);
        return path;
    };
    const QByteArray head{"supplier,effective_on,charge,code,amount,unit\n"};
    CHECK_FALSE(sheets->loadSheet(write("bad.csv", head + "Tamarack Ready Mix,2027-01-01,mix,3000,lots,per_yard\nNobody,2027-01-01,mix,3000,5,per_yard\nTamarack Ready Mix,2027-01-01,mix,4000AE,170,per_yard\n")));
    CHECK(month.book().all<SheetCharge>().size() == 3);
    CHECK(sheets->faults().isVisible());
    CHECK(sheets->faults().model().rowCount() == 2);
    CHECK(sheets->faults().model().index(0, 0).data().toString() == QStringLiteral("2"));
    CHECK(sheets->faults().model().index(0, 1).data().toString() == QStringLiteral("amount"));
    CHECK(sheets->loadSheet(write("good.csv", head + "Tamarack Ready Mix,2027-01-01,mix,4000AE,170,per_yard\n")));
    CHECK(month.book().all<SheetCharge>().size() == 4);
    CHECK(sheets->moves().isVisible());
}

TEST_CASE("a credit on a later statement answers the claim it looks like", "[window][desk]")
{
    Month month;
    month.open();
    month.takeIn();
    month.press(month.desk().check().findChild<QPushButton*>(QStringLiteral("approve")));
    REQUIRE_FALSE(month.book().all<Claim>().empty());
    const auto claim = month.book().all<Claim>()[0];
    auto& import = month.desk().import();
    month.desk().showTab(&import);
    test::settle();
    const auto text = "Ticket,Date,Description,Quantity,Price,Amount\n," + std::string{"06/20/2026,Credit for overcharge,1,-"} + claim.amount.text() + ",-" + claim.amount.text() + "\n";
    import.takeText(QByteArray::fromStdString(text), QStringLiteral("july.csv"));
    import.findChild<QLineEdit*>(QStringLiteral("importNumber"))->setText(QStringLiteral("2607-1"));
    import.findChild<QLineEdit*>(QStringLiteral("importDate"))->setText(QStringLiteral("2026-06-20"));
    REQUIRE(import.takeIn());
    auto& check = month.desk().check();
    REQUIRE(month.check().lines.size() == 1);
    CHECK(month.check().lines[0].finding == Finding::credit);
    check.choose(0);
    auto* claims = check.findChild<QComboBox*>(QStringLiteral("creditClaims"));
    REQUIRE(claims->isVisible());
    const auto at = claims->findData(QVariant::fromValue<qlonglong>(claim.id.value()));
    REQUIRE(at >= 0);
    claims->setCurrentIndex(at);
    month.press(check.findChild<QPushButton*>(QStringLiteral("creditClaim")));
    const auto& credited = month.book().get(claim.id);
    CHECK(credited.creditedOn.has_value());
    CHECK(credited.creditLine == month.check().lines[0].line->id);
}

TEST_CASE("the letter is written as a PDF file", "[window][desk]")
{
    Month month;
    month.open();
    month.takeIn();
    const auto path = month.office.folder.filePath(QStringLiteral("letter.pdf"));
    REQUIRE(month.desk().check().writeLetter(path));
    QFile file{path};
    REQUIRE(file.open(QIODevice::ReadOnly));
    CHECK(file.readAll().startsWith("%PDF"));
    CHECK_FALSE(month.desk().check().writeLetter(month.office.folder.filePath(QStringLiteral("nowhere/letter.pdf"))));
}

TEST_CASE("how a supplier's file is laid out is remembered as it was put right", "[window][desk]")
{
    Month month;
    month.open();
    month.toImport();
    auto& import = month.desk().import();
    const QByteArray head{"Slip,Poured,Sum,Weight\n"};
    import.takeText(head + "48213,06/10/2026,12.00,1650.00\n", QStringLiteral("june.csv"));
    import.rows().correct([](StatementGuess& guess) { guess.set(StatementColumn::amount, 3); });
    import.findChild<QLineEdit*>(QStringLiteral("importNumber"))->setText(QStringLiteral("1"));
    REQUIRE(import.takeIn());
    CHECK(month.book().all<StatementLine>()[0].amount == Money::ofCents(1'650'00));
    month.desk().showTab(&import);
    test::settle();
    import.takeText(head + "48214,06/10/2026,13.00,1700.00\n", QStringLiteral("july.csv"));
    CHECK(import.rows().guess().columns[3] == StatementColumn::amount);
    CHECK(import.rows().read().lines.at(0).amount == Money::ofCents(1'700'00));
}

TEST_CASE("a statement is typed from the paper", "[window][desk]")
{
    Month month;
    month.open();
    month.toImport();
    auto& import = month.desk().import();
    month.press(import.findChild<QPushButton*>(QStringLiteral("typeStatement")));
    for (const auto* cell : {"48213", "6/10/2026", "Mix 4000AE", "10", "yd3", "165.00", "1650.00"}) {
        month.type(cell);
        month.key(Qt::Key_Tab);
    }
    test::settle();
    REQUIRE(import.rows().rowCount() >= 3);  // headings, the line, and one more to type
    import.findChild<QLineEdit*>(QStringLiteral("importNumber"))->setText(QStringLiteral("77"));
    INFO(import.findChild<QLabel*>(QStringLiteral("importProblems"))->text().toStdString());
    REQUIRE(import.takeIn());
    REQUIRE(month.book().all<StatementLine>().size() == 1);
    CHECK(month.book().all<StatementLine>()[0].amount == Money::ofCents(1'650'00));
    CHECK(month.book().all<StatementLine>()[0].quantity == Quantity::ofWhole(10));
    CHECK(month.check().lines[0].finding == Finding::agrees);
}

TEST_CASE("an empty book's ticket desk says what to do first", "[window][desk]")
{
    test::Keyboard bare;
    bare.open();
    bare.key(Qt::Key_3, Qt::AltModifier);
    auto& page = *bare.window->findChild<TicketDeskPage*>();
    CHECK(page.answer() == QStringLiteral("No tickets and no statements yet."));
    CHECK(bare.focused() == QStringLiteral("takeIn"));
    bare.key(Qt::Key_F3);  // nothing to step through, and no harm
    bare.key(Qt::Key_Return);
    CHECK(page.isShown(&page.import()));
    CHECK_FALSE(page.import().takeIn());
    CHECK(bare.book().all<Statement>().empty());
}
