#pragma once

#include <QString>

#include "desk.h"

namespace strikeoff {

/// "Job J1034": the kind and the name the owner knows the record by.
QString recordName(const Book& book, RecordRef record);
/// The key alone, as people read it: "J1034", "48213" of a ticket, "2 of job J1034" of a pour.
QString recordKey(const Book& book, RecordRef record);
/// What tells it from its like, after its key: "Patio behind the house, Nora Bell". Empty when nothing more is recorded.
QString recordTelling(const Book& book, RecordRef record);
/// A value in words with its unit; a reference by name, also one that was removed since. Blank when not recorded.
QString valueWords(const Desk& desk, const Field& field, const Value& value);
/// A time stamp of the trail (UTC) or of a file (without a zone) as the owner's clock had it: "Nov 25, 2026 4:30 pm".
QString localTime(const std::string& time);
/// What an entry of the trail did: its title, with a word before it where it was undone or done again.
QString entryWords(const TrailEntry& entry);
/// The title of an edit that adds, changes or removes a row: "Enter ticket 48213".
std::string editTitle(ChangeType what, const KindDescription& kind, const Row& row);

}
