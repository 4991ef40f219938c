#include "app/application.h"

#include "form/conflict_view.h"
#include "form/field_editor.h"
#include "form/record_form.h"
#include "labels.h"
#include "records/records_panel.h"
#include "table/record_table.h"

#include "record/field_text.h"

#include <QComboBox>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QRadioButton>
#include <QSignalSpy>
#include <QTableView>
#include <QTest>

#include <catch2/catch.hpp>

using namespace strikeoff;
using strikeoff::test::Office;

namespace {

/// Types into the field that has the keyboard and goes on with Enter.
void typeAndGoOn(const char* text)
{
    auto* field = QApplication::focusWidget();
    REQUIRE(field);
    QTest::keyClicks(field, QString::fromUtf8(text));
    QTest::keyClick(field, Qt::Key_Return);
    test::settle();
}

std::unique_ptr<RecordForm> formOf(Office& office, RecordKind kind)
{
    auto form = std::make_unique<RecordForm>(*office.desk, kind, layoutFor(kind));
    form->resize(500, 700);
    form->show();
    form->activateWindow();
    QApplication::setActiveWindow(form.get());
    test::settle();
    return form;
}

void setText(RecordForm& form, const char* field, const char* text) { form.editor(field)->setText(QString::fromUtf8(text)); }

}

TEST_CASE("a lead is entered by keyboard alone, the way people type", "[form]")
{
    Office office;
    auto form = formOf(office, RecordKind::lead);
    form->editor("received_on")->input().setFocus();
    static_cast<QLineEdit&>(form->editor("received_on")->input()).selectAll();
    typeAndGoOn("yesterday");
    CHECK(QApplication::focusWidget() == &form->editor("number")->input());
    typeAndGoOn("");
    typeAndGoOn("Nora Bell");
    typeAndGoOn("555-0142");
    typeAndGoOn("");
    typeAndGoOn("Millbrook");
    CHECK(QApplication::focusWidget() == &form->editor("source")->input());
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Y);  // Yard sign
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    typeAndGoOn("");
    typeAndGoOn("");
    typeAndGoOn("1,250");
    CHECK(QApplication::focusWidget() == &form->editor("wish")->input());
    QTest::keyClicks(QApplication::focusWidget(), QStringLiteral("a patio"));
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return, Qt::ControlModifier);
    test::settle();

    REQUIRE(office.book().all<Lead>().size() == 1);
    const auto& lead = office.book().all<Lead>()[0];
    CHECK(lead.receivedOn == test::day("2026-06-10"));
    CHECK(lead.name == "Nora Bell");
    CHECK(lead.phone == "555-0142");
    CHECK(lead.town == "Millbrook");
    CHECK(lead.source == LeadSource::yardSign);
    CHECK(lead.area == Area::ofWhole(1250));
    CHECK(lead.wish == "a patio");
    CHECK_FALSE(lead.number.empty());
    CHECK(office.store->undoTitle().find("lead") != std::string::npos);
    // The next new lead stands ready, with the day carried on and the rest blank.
    CHECK(form->isNew());
    CHECK(form->editor("name")->text().isEmpty());
    CHECK(form->editor("received_on")->text() == QStringLiteral("Jun 10, 2026"));
}

TEST_CASE("a fault is said in words under its field while it is typed, and nothing is saved", "[form]")
{
    Office office;
    auto form = formOf(office, RecordKind::receipt);
    setText(*form, "amount", "12,50x");
    CHECK(form->editor("amount")->fault().contains(QStringLiteral("12,50x")));
    setText(*form, "date", "2/31");
    CHECK_FALSE(form->editor("date")->fault().isEmpty());
    CHECK_FALSE(form->save());
    CHECK(office.book().all<Receipt>().empty());
    CHECK(form->editor("amount")->text() == QStringLiteral("12,50x"));
    setText(*form, "amount", "12.50");
    CHECK(form->editor("amount")->fault().isEmpty());
    setText(*form, "date", "6/12");
    CHECK_FALSE(form->save());
    CHECK(form->editor("cost_class")->fault().contains(QStringLiteral("Class")));
    setText(*form, "cost_class", "Forms");
    CHECK(form->save());
    REQUIRE(office.book().all<Receipt>().size() == 1);
    CHECK(office.book().all<Receipt>()[0].date == test::day("2026-06-12"));
}

TEST_CASE("a bound is checked while it is typed", "[form]")
{
    Office office;
    auto form = formOf(office, RecordKind::ticket);
    setText(*form, "yards", "-3");
    CHECK(form->editor("yards")->fault().contains(QStringLiteral("zero or more")));
}

TEST_CASE("a reference is named as the owner knows it, and one that is not there is said so", "[form]")
{
    Office office;
    const auto nora = office.addCustomer("Nora Bell");
    auto form = formOf(office, RecordKind::job);
    setText(*form, "title", "Patio");
    setText(*form, "customer", "Nobody");
    CHECK(form->editor("customer")->fault().contains(QStringLiteral("Nobody")));
    setText(*form, "customer", "Nora Bell");
    CHECK(form->editor("customer")->fault().isEmpty());
    REQUIRE(form->save());
    CHECK(office.book().all<Job>()[0].customer == nora);
}

TEST_CASE("a pour is named by its count once the job is known", "[form]")
{
    Office office;
    const auto job = office.addJob(office.addCustomer("Nora Bell"), "Patio");
    Pour pour;
    pour.job = job;
    pour.sequence = 2;
    Edit edit{"Plan"};
    edit.add(pour);
    const Id<Pour> second{office.commit(edit).front()};
    Supplier supplier;
    supplier.name = "Three Forks";
    Edit add{"Enter supplier"};
    add.add(supplier);
    office.commit(add);

    auto form = formOf(office, RecordKind::ticket);
    setText(*form, "supplier", "Three Forks");
    setText(*form, "number", "48213");
    setText(*form, "yards", "9 1/4");
    setText(*form, "job", office.book().get(job).number.c_str());
    setText(*form, "pour", "7");
    CHECK_FALSE(form->editor("pour")->fault().isEmpty());
    setText(*form, "pour", "2");
    CHECK(form->editor("pour")->fault().isEmpty());
    REQUIRE(form->save());
    const auto& ticket = office.book().all<Ticket>()[0];
    CHECK(ticket.pour == second);
    CHECK(ticket.yards == Yards::ofUnits(9'250));
    CHECK(form->editor("pour")->text() == QStringLiteral("2"));
}

TEST_CASE("what is half typed stays with its record while others are looked at", "[form]")
{
    Office office;
    const auto nora = office.addCustomer("Nora Bell");
    const auto tomas = office.addCustomer("Tomas Ferrin");
    auto form = formOf(office, RecordKind::customer);
    REQUIRE(form->edit(nora.value()));
    setText(*form, "phone", "555-01");
    REQUIRE(form->edit(tomas.value()));
    CHECK(form->editor("phone")->text().isEmpty());
    CHECK(form->hasDrafts());
    REQUIRE(form->edit(nora.value()));
    CHECK(form->editor("phone")->text() == QStringLiteral("555-01"));
    CHECK(form->isDirty());
}

TEST_CASE("Esc asks only when something would be lost", "[form]")
{
    Office office;
    const auto nora = office.addCustomer("Nora Bell");
    auto form = formOf(office, RecordKind::customer);
    REQUIRE(form->edit(nora.value()));
    QSignalSpy left{form.get(), &RecordForm::left};
    QTest::keyClick(&form->editor("name")->input(), Qt::Key_Escape);
    CHECK(left.count() == 1);
    setText(*form, "phone", "555-0100");
    QTest::keyClick(&form->editor("name")->input(), Qt::Key_Escape);
    CHECK(left.count() == 1);
    auto* drop = form->findChild<QPushButton*>(QStringLiteral("dropTyped"));
    REQUIRE(drop);
    REQUIRE(drop->isVisible());
    drop->click();
    CHECK(left.count() == 2);
    CHECK(form->editor("phone")->text().isEmpty());
}

TEST_CASE("a row changed elsewhere is shown field by field, and the choice is saved", "[form]")
{
    Office office;
    const auto nora = office.addCustomer("Nora Bell");
    auto form = formOf(office, RecordKind::customer);
    REQUIRE(form->edit(nora.value()));
    setText(*form, "phone", "555-0111");
    setText(*form, "town", "Millbrook");

    auto other = Store::open(office.path);
    auto theirs = other->book().get(nora);
    theirs.town = "Harlan Falls";
    theirs.note = "prefers mornings";
    Edit edit{"Elsewhere"};
    edit.change(theirs);
    REQUIRE(other->commit(edit).done());

    CHECK_FALSE(form->save());
    auto* conflict = form->findChild<ConflictView*>();
    REQUIRE(conflict);
    REQUIRE(conflict->isVisible());
    CHECK(form->editor("phone")->text() == QStringLiteral("555-0111"));
    // phone, town and note differ; theirs is taken for town and note.
    int choices = 0;
    for (auto* choice : conflict->findChildren<QRadioButton*>()) {
        ++choices;
        if (choice->accessibleName() == QStringLiteral("Town: theirs") || choice->accessibleName() == QStringLiteral("Note: theirs")) choice->setChecked(true);
    }
    CHECK(choices == 6);
    conflict->findChild<QPushButton*>(QStringLiteral("conflictSave"))->click();
    const auto& now = office.book().get(nora);
    CHECK(now.phone == "555-0111");
    CHECK(now.town == "Harlan Falls");
    CHECK(now.note == "prefers mornings");
    CHECK_FALSE(form->isDirty());
}

TEST_CASE("every value a form shows is read back as the same value", "[form]")
{
    Office office;
    for (const auto& kind : allKinds()) {
        for (const auto& field : kind.fields) {
            if (field.isText() || field.type == FieldType::reference || field.type == FieldType::boolean) continue;
            for (const std::int64_t number : {std::int64_t{1}, std::int64_t{7}, std::int64_t{1234}, std::int64_t{20'000}, std::int64_t{1'234'567}}) {
                if (number < field.least || number > field.most) continue;
                if (field.type == FieldType::choice && number >= static_cast<std::int64_t>(field.choices.size())) continue;
                if (field.type == FieldType::clockTime && number >= 1440) continue;
                if (field.type == FieldType::monthDay && !MonthDay::ofNumber(number)) continue;
                if (field.type == FieldType::date && number > 80'000) continue;
                FieldEditor editor{field, *office.desk, {}};
                editor.show(Value{number});
                const auto reading = editor.read();
                INFO(kind.name << '.' << field.name << " shows " << utf8(editor.text()) << "; " << reading.fault);
                CHECK((reading.value == Value{number}));
            }
        }
    }
}

TEST_CASE("text that looks like markup or a formula is kept and shown as the text it is", "[form]")
{
    Office office;
    auto form = formOf(office, RecordKind::customer);
    setText(*form, "name", "<b>=SUM(A1)</b> & Sons'); DROP TABLE customer;--");
    REQUIRE(form->save());
    CHECK(office.book().all<Customer>()[0].name == "<b>=SUM(A1)</b> & Sons'); DROP TABLE customer;--");
    CHECK(form->editor("name")->text() == QStringLiteral("<b>=SUM(A1)</b> & Sons'); DROP TABLE customer;--"));
    const auto* title = form->findChild<QLabel*>(QStringLiteral("formTitle"));
    REQUIRE(title);
    CHECK(title->textFormat() == Qt::PlainText);
    CHECK(title->text().contains(QStringLiteral("<b>=SUM(A1)</b>")));
}

TEST_CASE("a panel lists its records, edits the current one and takes removing back", "[form]")
{
    Office office;
    office.addCustomer("Nora Bell");
    const auto tomas = office.addCustomer("Tomas Ferrin");
    RecordsPanel panel{*office.desk, {.kind = RecordKind::customer}};
    QObject::connect(office.desk.get(), &Desk::changed, &panel, &RecordsPanel::refresh);
    panel.resize(1000, 600);
    panel.show();
    QApplication::setActiveWindow(&panel);
    panel.refresh();
    CHECK(panel.table()->model().rowCount() == 2);
    CHECK(panel.form().editor("name")->text() == QStringLiteral("Nora Bell"));
    panel.table()->view().setFocus();
    QTest::keyClick(&panel.table()->view(), Qt::Key_Down);
    CHECK(panel.form().record().id == tomas.value());
    panel.form().remove();
    CHECK(panel.table()->model().rowCount() == 1);
    office.desk->undo();
    CHECK(panel.table()->model().rowCount() == 2);
}

TEST_CASE("a place pasted or typed into either coordinate fills both, and a wrong one says what to do", "[form]")
{
    Office office;
    auto form = formOf(office, RecordKind::site);
    const auto text = [&](const char* field) { return form->editor(field)->text(); };
    setText(*form, "longitude", "geo:43.6423005,-72.2518005;u=20");  // all at once, as pasting does
    CHECK(text("latitude") == QStringLiteral("43.642301"));
    CHECK(text("longitude") == QStringLiteral("-72.251801"));

    auto& latitude = static_cast<QLineEdit&>(form->editor("latitude")->input());
    latitude.setFocus();
    latitude.selectAll();
    QTest::keyClicks(&latitude, QStringLiteral("48.2010, 16.3"));  // by keys it is left alone until it is done
    CHECK(latitude.text() == QStringLiteral("48.2010, 16.3"));
    QTest::keyClicks(&latitude, QStringLiteral("695"));
    QTest::keyClick(&latitude, Qt::Key_Return);
    test::settle();
    CHECK(text("latitude") == QStringLiteral("48.201"));
    CHECK(text("longitude") == QStringLiteral("16.3695"));
    CHECK(form->editor("latitude")->fault().isEmpty());

    office.addCustomer("Nora Bell");
    setText(*form, "name", "Alder Court");
    setText(*form, "customer", "Nora Bell");
    setText(*form, "latitude", "geo:148.2,16.3");
    CHECK(form->editor("latitude")->fault().contains(QStringLiteral("A latitude lies between -90 and 90")));
    CHECK_FALSE(form->save());
    CHECK(QApplication::focusWidget() == &latitude);
    CHECK(office.book().all<Site>().empty());

    auto settings = formOf(office, RecordKind::settings);
    settings->editor("shop_latitude")->setText(QStringLiteral("43.10, -40.10"));
    CHECK(settings->editor("shop_longitude")->text() == QStringLiteral("-40.1"));
}
