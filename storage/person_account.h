#pragma once

#include "store.h"

namespace strikeoff {

/// All that a book holds about a person: the records about them, where else they are named, and what was entered before it was changed.
struct PersonAccount {
    struct Entered {
        const Field* field = nullptr;
        std::string words;  ///< as people see it, with its unit
        std::string exact;  ///< as in a file: "1234.50", "2026-11-25"
    };
    struct Record {
        RecordKind kind{};
        std::string key;
        std::vector<Entered> fields;  ///< what is recorded
    };
    struct Mention {
        RecordKind kind{};
        std::string key;
        const Field* field = nullptr;
        std::string text;
    };
    struct Change {
        TrailEntry entry;
        RecordKind kind{};
        std::string key;
        const Field* field = nullptr;
        std::string before, after;  ///< as people see them; blank when not recorded
    };
    std::string name, keptBy;
    std::vector<Record> records;
    std::vector<Mention> mentions;
    std::vector<Change> changes;
};
/// Nothing when the person is not in the book.
std::optional<PersonAccount> accountOf(const Store& store, Person person);

/// All that a book holds about a person, as text to hand to them: the rows about them field by field, where else they are named, and what was entered
/// before it was changed. Blank when the person is not in the book.
std::string personAccount(const Store& store, Person person);

/// What blotting a person out would touch, in a sentence of counts: "one customer, two sites, three jobs, 14 records under them and one other record that
/// names them".
/// Blank when the person is not in the book.
std::string blottingWords(const Store& store, Person person);

/// The person of a kind that goes by a name, or by its number in the book; nothing when there is none.
std::optional<Person> findPerson(const Book& book, RecordKind kind, std::string_view nameOrNumber);

/// What the entry is called by which a person was blotted out: "Blot out customer 12". And whom such an entry is about; nothing for any other.
std::string blottingTitle(Person person);
std::optional<Person> blottedPerson(const TrailEntry& entry);

/// What stands beside the question before somebody is blotted out.
inline constexpr auto blottingCaution =
    "Law says how long pay, hours and tax records must be kept, and often with the name on them: ask whoever does your payroll or taxes, or a lawyer, before you blot anybody out.";

}
