#pragma once

#include "record/book.h"

#include <string>
#include <vector>

/// What a book holds about one person, and what blotting the person out does to it. Figures and days stay, as do codes and what was sold; names, numbers to
/// call, addresses and notes go. How long pay and tax records must be kept is set by law, and for a licensed practitioner to say.
namespace strikeoff {

/// A customer or somebody on the crew.
struct Person {
    RecordKind kind = RecordKind::customer;  ///< or crewMember
    std::int64_t id = 0;
    friend bool operator==(const Person&, const Person&) = default;
};

/// One row that is about a person.
struct PersonRow {
    RecordKind kind{};
    std::int64_t id = 0;
    friend auto operator<=>(const PersonRow&, const PersonRow&) = default;
};

/// The rows about a person in the order of kinds and ids: of a customer their sites, leads (also those that belong to nobody and are in their name, or in one
/// they had before) and jobs with all that stands under a job, and payments; of a crew member pay and hours. What a supplier wrote is not among them.
std::vector<PersonRow> rowsAbout(const Book& book, Person person, const std::vector<std::string>& formerNames = {});
/// Whether a row of that kind tells of the person, and not only of the work or of somebody else who worked on it: what an account to them holds.
bool tellsOf(Person person, RecordKind kind);

/// What becomes of a field of a row about the person.
enum class Blotting {
    kept,    ///< figures, days, codes
    taken,   ///< gone as if never recorded
    marked,  ///< says that it was blotted out, where something must be said
    named,   ///< the same with the row's number, as no two rows go by one name
    swept,   ///< stays, less the words that name the person
};
Blotting blottingOf(RecordKind kind, const Field& field);

/// The words a person goes by: names, numbers, addresses, as they are and as they were.
class PersonWords {
public:
    /// Whether rows of a kind say what a person goes by.
    static bool takesFrom(RecordKind kind);
    /// Takes the words of one field of a row about the person; other fields say nothing.
    void take(RecordKind kind, std::string_view field, std::string_view text);
    /// The text with whatever names the person in full as "(blotted out)": whole words, whatever their case (of ASCII letters).
    std::string swept(std::string_view text) const { return sweep(text, whole_); }
    /// The same for a text about the person, where single words of a name or an address are taken out too.
    std::string sweptOfOwn(std::string_view text) const { return sweep(sweep(text, whole_), parts_); }
    /// The same for the title of a step, where a long name stands cut short.
    std::string sweptTitle(std::string_view title, bool isOwn) const;
    bool names(std::string_view text) const { return swept(text) != text; }

private:
    static std::string sweep(std::string_view text, const std::vector<std::string>& words);
    std::vector<std::string> whole_;  ///< the longest first
    std::vector<std::string> parts_;
};

/// A value of a row about the person as it is after blotting out. Blotting twice changes nothing.
Value blotted(const PersonWords& words, RecordKind kind, std::int64_t id, const Field& field, const Value& value);
/// A value of any other row: free text is swept; what names another person, or a row by its key, is left.
Value sweptElsewhere(const PersonWords& words, RecordKind kind, const Field& field, const Value& value);

/// The name of a person who was blotted out: "Blotted out 12".
std::string blottedName(std::int64_t id);

}
