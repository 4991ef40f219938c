#include "storage/loading.h"

#include "database.h"

using namespace strikeoff;
using namespace strikeoff::test;

namespace {

/// A book with rows added one by one and in a run, changed and removed.
std::string writtenBook(const Folder& folder)
{
    const auto store = folder.fresh();
    std::string rows = "name,note\n";
    for (int i = 0; i < 250; ++i) rows += "Customer " + std::to_string(i) + ",from the old ledger\n";
    loaded(*store, RecordKind::customer, rows);
    Edit add{"Add Merle"};
    Customer merle;
    merle.name = "Merle Ostrander";
    merle.phone = "555-0142";
    add.add(merle);
    REQUIRE(store->commit(std::move(add)).done());
    auto changed = store->book().all<Customer>()[17];
    changed.phone = "555-0117";
    Edit change{"Phone"};
    change.change(changed);
    REQUIRE(store->commit(std::move(change)).done());
    Edit remove{"Remove one"};
    remove.remove(store->book().all<Customer>()[40]);
    REQUIRE(store->commit(std::move(remove)).done());
    REQUIRE(store->undo().done());
    REQUIRE(store->redo().done());
    REQUIRE(store->verify().empty());
    return folder.file();
}

std::string findingsAfter(const std::string& path, const std::vector<std::string>& tampering)
{
    {
        Database database{path, Database::Mode::readWrite};
        for (const auto& sql : tampering) database.run(sql);
    }
    std::string text;
    for (const auto& finding : Store::open(path)->verify()) {
        text += finding.where + ": " + finding.what + '\n';
        CHECK_FALSE(finding.remedy.empty());
    }
    return text;
}

}

TEST_CASE("what was changed in the book by other means than an edit is found", "[store][verify]")
{
    const Folder folder;
    const auto path = writtenBook(folder);
    SECTION("a value that was typed")
    {
        CHECK_THAT(findingsAfter(path, {"UPDATE customer SET phone = '555-0199' WHERE name = 'Merle Ostrander'"}),
                   Catch::Contains("customer Merle Ostrander: Phone is not what the trail says"));
    }
    SECTION("a value that was blank")
    {
        CHECK_THAT(findingsAfter(path, {"UPDATE customer SET town = 'Elsewhere' WHERE name = 'Merle Ostrander'"}), Catch::Contains("customer Merle Ostrander: Town is not what"));
    }
    SECTION("a value that came in by the hundred")
    {
        CHECK_THAT(findingsAfter(path, {"UPDATE customer SET note = 'from the new ledger' WHERE name = 'Customer 101'"}), Catch::Contains("the trail, entry 2 of"));
    }
    SECTION("a value that came in by the hundred and was changed since")
    {
        CHECK_THAT(findingsAfter(path, {"UPDATE customer SET note = 'from the new ledger' WHERE name = 'Customer 17'"}), Catch::Contains("the trail, entry 2 of"));
        CHECK_THAT(findingsAfter(path, {"UPDATE customer SET phone = '555-0118' WHERE name = 'Customer 17'"}), Catch::Contains("customer Customer 17: Phone is not"));
    }
    SECTION("a row that went")
    {
        CHECK_THAT(findingsAfter(path, {"DELETE FROM customer WHERE name = 'Customer 101'"}), Catch::Contains("it is gone and the trail does not say why"));
    }
    SECTION("a row that came")
    {
        CHECK_THAT(findingsAfter(path, {"INSERT INTO customer (id, revision, name, tax_exempt) VALUES (9000, 1, 'Nobody', 0)"}),
                   Catch::Contains("customer Nobody: the trail knows nothing of it"));
    }
}

TEST_CASE("a trail that was written over, cut or mended is found at its entry", "[store][verify]")
{
    const Folder folder;
    const auto path = writtenBook(folder);
    SECTION("who did it") { CHECK_THAT(findingsAfter(path, {"UPDATE edit SET desk = 'somebody@else' WHERE id = 3"}), Catch::Contains("the trail, entry 3 of") && Catch::Contains("somebody@else")); }
    SECTION("when it was done") { CHECK_THAT(findingsAfter(path, {"UPDATE edit SET at = '2020-01-01T00:00:00Z' WHERE id = 3"}), Catch::Contains("the trail, entry 3 of 2020")); }
    SECTION("what it was before")
    {
        CHECK_THAT(findingsAfter(path, {"UPDATE edit_change SET after = replace(after, '555-0117', '555-0999') WHERE edit = 4"}), Catch::Contains("the trail, entry 4 of"));
    }
    SECTION("an entry taken out")
    {
        CHECK_THAT(findingsAfter(path, {"DELETE FROM edit_change WHERE edit = 4", "DELETE FROM edit WHERE id = 4"}), Catch::Contains("the trail, entry 5 of"));
    }
    SECTION("the newest entry taken out")
    {
        CHECK_THAT(findingsAfter(path, {"DELETE FROM edit_change WHERE edit = 7", "DELETE FROM edit WHERE id = 7"}), Catch::Contains("its newest entry is 6, and 7 were written"));
    }
    SECTION("a link wiped out") { CHECK_THAT(findingsAfter(path, {"UPDATE edit SET chain = NULL WHERE id = 4"}), Catch::Contains("it has no link to the entry before")); }
}

TEST_CASE("sums that do not agree are said", "[store][verify]")
{
    const Folder folder;
    const auto store = folder.fresh();
    Edit edit{"An account"};
    Customer customer;
    customer.name = "Ines Talbot";
    Job job;
    job.title = "Walk";
    job.customer = edit.add(customer);
    job.openedOn = *Date::of(2026, 5, 4);
    Invoice invoice;
    invoice.job = edit.add(job);
    invoice.draftedOn = *Date::of(2026, 6, 1);
    invoice.issuedOn = *Date::of(2026, 6, 1);
    invoice.dueOn = *Date::of(2026, 7, 1);
    InvoiceLine line;
    line.invoice = edit.add(invoice);
    line.description = "Walk, 240 sq ft";
    line.unitPrice = UnitPrice::ofWhole(1200);
    line.taxable = false;
    edit.add(line);
    Payment payment;
    payment.customer = job.customer;
    payment.receivedOn = *Date::of(2026, 6, 20);
    payment.amount = Money::ofWhole(500);
    PaymentShare share;
    share.payment = edit.add(payment);
    share.invoice = line.invoice;
    share.amount = Money::ofWhole(500);
    edit.add(share);
    const auto result = store->commit(std::move(edit));
    INFO(result.text());
    REQUIRE(result.done());
    REQUIRE(store->verify().empty());
    CHECK_THAT(findingsAfter(folder.file(), {"UPDATE payment_share SET amount = 60000"}), Catch::Contains("is split over invoices but only $500.00 came in"));
}
