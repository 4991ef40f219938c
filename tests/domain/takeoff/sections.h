#pragma once

#include "takeoff/takeoff.h"

#include <string>

namespace strikeoff {

inline std::optional<TapeLength> tape(std::string_view text)
{
    if (text.empty()) return std::nullopt;
    return TapeLength::parse(text).value();
}

/// A section as a test writes it; a blank dimension is not recorded.
inline TakeoffSection sectionOf(SectionShape shape, std::string_view length, std::string_view width, std::string_view thickness, std::string_view second = {})
{
    TakeoffSection section;
    section.name = "Piece";
    section.shape = shape;
    section.length = tape(length);
    section.width = tape(width);
    section.thickness = tape(thickness);
    section.secondLength = tape(second);
    return section;
}

inline TakeoffSection polygonOf(std::string points, std::string_view thickness = "4\"")
{
    auto section = sectionOf(SectionShape::polygon, "", "", thickness);
    section.points = std::move(points);
    return section;
}

/// A job with its sections in a book.
struct MeasuredJob {
    Book book;
    Job job;

    MeasuredJob()
    {
        job.id = Id<Job>{1};
        job.title = "Patio";
        book.put(rowOf(job));
    }
    void add(TakeoffSection section)
    {
        section.id = Id<TakeoffSection>{book.lastId(RecordKind::takeoffSection) + 1};
        section.job = job.id;
        book.put(rowOf(section));
    }
    Takeoff takeoff() const { return takeoffOf(book, job.id); }
};

}
