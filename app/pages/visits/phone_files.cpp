#include "pages/visits/phone_files.h"

#include "labels.h"
#include "phone_calendar.h"
#include "visits/address_card.h"
#include "visits/forecast_entry.h"

namespace strikeoff {

namespace {

Date lastDay(const Desk& desk) { return daysOn(desk.today(), forecastDays - 1).value_or(desk.today()); }

bool save(Desk& desk, const QString& title, const QString& name, const QString& filter, const std::string& text, const QString& path)
{
    if (text.empty()) {
        desk.say(QObject::tr("No visit and no pour is planned from today on, so there is nothing to send to the phone. Plan them first."), Tone::attention);
        return false;
    }
    return desk.saveFile(title, name, filter, QByteArray::fromStdString(text), path);
}

}

bool saveCalendar(Desk& desk, const QString& path)
{
    return save(desk, QObject::tr("Calendar for the phone"), QStringLiteral("visits-%1.ics").arg(qs(desk.today().text())), QObject::tr("Calendars (*.ics)"),
                phoneCalendar(desk.store(), desk.today()), path);
}

bool saveAddresses(Desk& desk, const QString& path)
{
    const auto& book = desk.book();
    std::vector<Id<Job>> jobs;
    for (const auto& visit : plannedVisits(book, desk.today(), lastDay(desk))) jobs.push_back(visit.visit->job);
    for (const auto& pour : book.all<Pour>())
        if (pour.plannedOn && !pour.pouredOn && *pour.plannedOn >= desk.today() && *pour.plannedOn <= lastDay(desk)) jobs.push_back(pour.job);
    return save(desk, QObject::tr("Addresses for the phone"), QStringLiteral("addresses-%1.vcf").arg(qs(desk.today().text())), QObject::tr("Address cards (*.vcf)"),
                addressCards(book, jobs), path);
}

}
