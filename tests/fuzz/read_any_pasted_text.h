#pragma once

#include "fuzz/promise.h"
#include "ready_mix/sheet_entry.h"
#include "ready_mix/ticket_stack.h"
#include "record/check.h"
#include "visits/forecast_entry.h"

namespace strikeoff::fuzz {

/// Puts any bytes into tables as if they were pasted or typed there: the forecast of the days ahead, a sheet of prices, a stack of tickets.
inline void readAnyPastedText(std::string_view bytes)
{
    const auto today = *Date::of(2026, 11, 25);
    const Book none;
    const auto choice = choiceIn(bytes);
    const auto& forecast = describe(RecordKind::forecast);
    const auto field = forecast.fields[choice % forecast.fields.size()].name;

    auto days = forecastRows(none, today);
    const auto before = days;
    const auto pasted = pasteForecast(days, bytes, choice % days.size(), field, today);
    require(days.size() == before.size(), "pasting adds no days");
    require(pasted.taken >= 0, "lines are counted from none");
    if (pasted.taken == 0) {
        require(days == before, "a text that is not taken changes nothing");
        require(!pasted.remark.empty() || bytes.find_first_not_of(" \t\r\n") == std::string_view::npos, "what is left out is said");
    }
    std::vector<ForecastReading> readings;
    bool hasFaults = false;
    for (const auto& day : days) {
        readings.push_back(readForecast(day, today));
        hasFaults = hasFaults || !readings.back().faults.empty();
        require(readings.back().faults.empty() == readings.back().says().empty(), "every fault is said");
    }
    require(!forecastAnswer(readings, today).empty(), "there is an answer");
    if (!hasFaults) {
        Book book;
        auto edit = forecastEdit(none, readings);
        std::int64_t id = 0;
        for (auto& change : edit.changes()) change.row.id = ++id;
        require(applyEdit(book, std::move(edit)).problems.empty(), "a forecast without faults can be saved");
    }

    TypedRow charge;
    std::vector<TypedTicket> stack(2);
    const auto& charges = describe(RecordKind::priceSheet);
    const auto& tickets = describe(RecordKind::ticket);
    std::size_t place = choice;
    for (const auto line : linesOf(bytes, 20)) {
        typeInto(charge, charges.fields[place % charges.fields.size()].name, line);
        typeInto(none, stack[place % 2], tickets.fields[place % tickets.fields.size()].name, line, today);
        ++place;
        (void)readMix(nullptr, line);
        (void)readOptions(nullptr, line);
        (void)numberAfter(line);
    }
    const TypedRow rows[] = {charge, charge};
    const auto sheet = readSheet(rows, Id<Supplier>{1}, today);
    require(!sheetAnswer(sheet).empty(), "a sheet has an answer");
    for (const auto& reading : sheet) {
        require(!reading.canBeSaved() || reading.faults.empty(), "a charge at fault is not saved");
        if (!reading.canBeSaved()) continue;
        auto row = rowOf(reading.charge);
        for (const auto& problem : checkFields(row)) require(false, "a charge that can be saved fits its fields: " + problem.message);
    }
    const auto read = readStack(none, stack, today);
    require(!stackAnswer(read).empty(), "a stack has an answer");
    (void)nextOfStack(stack[0]);
    for (const auto& reading : read)
        if (reading.canBeSaved())
            for (const auto& problem : checkFields(rowOf(reading.ticket))) require(false, "a ticket that can be saved fits its fields: " + problem.message);
}

}
