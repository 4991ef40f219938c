#pragma once

#include "fuzz/promise.h"
#include "takeoff/outline.h"

#include <cmath>

namespace strikeoff::fuzz {

/// Reads the lines of any bytes as tape lengths, and measures a section of every shape that has them for its sides; the last line is also read as the
/// corners of a polygon.
inline void readAnyTape(std::string_view bytes)
{
    const auto shape = choiceIn(bytes) % choicesOf<SectionShape>.size();
    const auto lines = linesOf(bytes, 12);
    std::vector<TapeLength> lengths;
    for (const auto line : lines) {
        const auto length = TapeLength::parse(line);
        if (!length) continue;
        require(*length >= TapeLength{} && *length <= TapeLength::ofFeet(52'800), "a length is not below nothing and not past ten miles");
        require(TapeLength::parse(length->text()) == length, "a length written is read as the same length");
        lengths.push_back(*length);
    }

    TakeoffSection section;
    section.shape = static_cast<SectionShape>(shape);
    const auto& kind = describe(RecordKind::takeoffSection);
    std::size_t next = 0;
    for (const auto& field : kind.fields)
        if (field.type == FieldType::tapeLength && next < lengths.size()) field.setNumber(&section, lengths[next++].sixteenths());
    section.points = std::string{lines.back()};
    const auto measured = measure(section);
    require(std::isfinite(measured.areaSqft) && std::isfinite(measured.volumeYards) && std::isfinite(measured.perimeterFt), "what is measured is a number");
    require(measured.fault.empty() || (measured.areaSqft == 0 && measured.volumeYards == 0), "what cannot be measured measures nothing");
    if (const auto joints = planJoints(section)) require(joints->panelsLong >= 1 && joints->panelsWide >= 1 && std::isfinite(joints->jointFt), "a slab has a panel");
    const TakeoffSection* const sections[] = {&section, &section};
    const auto takeoff = takeoffOf(Book{}, std::nullopt, sections);
    require(takeoff.ordered >= Yards{}, "nobody orders less than nothing");

    const auto outline = readOutline(lines.back());
    require(!outline.fault.empty() || outline.areaSqft > 0, "an outline bounds an area or says why not");
    require(std::isfinite(outline.areaSqft) && std::isfinite(outline.perimeterFt), "an outline measures a number");
}

}
