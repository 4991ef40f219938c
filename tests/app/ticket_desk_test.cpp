#include "app/keyboard.h"

#include "pages/ticket_desk/stack_model.h"
#include "pages/ticket_desk/stack_page.h"
#include "pages/ticket_desk/ticket_desk_page.h"
#include "table/grid_view.h"
#include "table/record_table.h"
#include "window/actions.h"

#include <QAction>
#include <QLineEdit>

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
    QString focused() const { return QApplication::focusWidget() ? QApplication::focusWidget()->objectName() : QString{}; }
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
