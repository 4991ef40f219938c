#include "app/application.h"

#include <catch2/catch.hpp>

namespace strikeoff::test {

QApplication& application()
{
    static int count = 1;
    static char name[] = "app_tests";
    static char* arguments[] = {name, nullptr};
    static QApplication* const one = [] {
        qputenv("QT_QPA_PLATFORM", "offscreen");
        auto* made = new QApplication{count, arguments};
        applyLook(Look::light);
        return made;
    }();
    return *one;
}

Office::Office() : path{(application(), folder.filePath(QStringLiteral("book.strikeoff")).toStdString())}, preferences{folder.filePath(QStringLiteral("preferences.ini"))}
{
    Store::create(path);
    store = Store::open(path);
    desk = std::make_unique<Desk>(*store, preferences);
    desk->setToday(day("2026-06-11"));
}

std::vector<std::int64_t> Office::commit(const Edit& edit)
{
    const auto result = store->commit(edit);
    INFO(result.text());
    REQUIRE(result.done());
    return result.ids;
}

Id<Customer> Office::addCustomer(const char* name, const char* note)
{
    Edit edit{std::string{"Enter customer "} + name};
    Customer customer;
    customer.name = name;
    customer.note = note;
    edit.add(customer);
    return Id<Customer>{commit(edit).front()};
}

Id<Job> Office::addJob(Id<Customer> customer, const char* title)
{
    Edit edit{std::string{"Open job "} + title};
    Job job;
    job.customer = customer;
    job.title = title;
    job.openedOn = day("2026-05-04");
    edit.add(job);
    return Id<Job>{commit(edit).front()};
}

void settle()
{
    for (int i = 0; i < 4; ++i) QApplication::processEvents();
}

}
