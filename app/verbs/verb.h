#pragma once

#include "command_line.h"
#include "record/description.h"
#include "store.h"

#include <map>
#include <memory>
#include <optional>
#include <stdexcept>
#include <vector>

namespace strikeoff {

/// The command was not written as the verb wants it: exit status 2, with the usage of the verb.
class UsageError : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

/// The exit statuses.
enum Status : int { done = 0, faulty = 1, wrongUsage = 2, needsOwner = 3 };

struct VerbOption {
    std::string_view name;     ///< without its dashes
    std::string_view value;    ///< what stands behind it, in the usage; blank for one that stands alone
    std::string_view meaning;
};

/// What was written behind the verb: words in order, options by name.
struct Arguments {
    std::vector<std::string> words;
    std::map<std::string, std::string, std::less<>> options;

    bool has(std::string_view option) const { return options.contains(option); }
    std::optional<std::string> value(std::string_view option) const;
    /// The day of --date, else today. UsageError for what is no day.
    Date date(Date today) const;
};

struct Verb {
    std::string_view name;
    std::string_view words;    ///< "BOOK KIND"; one in brackets may be left out
    std::string_view meaning;  ///< one line
    std::vector<VerbOption> options;
    std::string_view more;     ///< what else `help VERB` says, in lines
    int (*run)(const Arguments& arguments, const Surroundings& surroundings);
};

/// All verbs, in the order in which help shows them.
const std::vector<Verb>& allVerbs();

extern const Verb newVerb, demoVerb, loadVerb, dumpVerb, kindsVerb, todayVerb, costVerb, matchVerb, owedVerb, paysVerb, chargeVerb, seasonsVerb, weekVerb, visitsVerb, verifyVerb, backupVerb, restoreVerb, removedVerb, personVerb, blotVerb, moveVerb;

inline const VerbOption jsonOption{"json", "", "as JSON"};
/// A folder that pictures are drawn into. A verb that is given it runs with what drawing needs.
inline const VerbOption outOption{"out", "DIR", "write the pictures into that folder: PNG, SVG, and the numbers behind as CSV"};
inline const VerbOption dateOption{"date", "D", "as of that day (YYYY-MM-DD, yesterday, tomorrow); today when left out"};

/// A kind by its name ("price_sheet", also "price-sheet"); UsageError naming all kinds when there is none.
const KindDescription& kindNamed(std::string_view name);

/// Asks at the terminal for what nobody should see typed; nothing without a terminal.
std::optional<std::string> askUnseen(const std::string& question);
/// The pass phrase of a sealed copy, from STRIKEOFF_PASS_PHRASE or asked for at the terminal; a new one twice, and nothing when the two differ.
std::optional<std::string> passPhraseFor(const std::string& file, bool isNew);
/// How a verb opens a book: it asks for a server's password at the terminal.
OpenOptions openingOptions();
/// Opens a book to write in it, with today's copy, and says when that could not be kept.
std::unique_ptr<Store> openToWrite(const std::string& path, const Surroundings& surroundings);

/// A book opened to be read only.
std::unique_ptr<Store> openToRead(const std::string& path);

/// Text in the quotes of a message.
std::string inQuotes(std::string_view text);

/// A figure for a table, or the dash for what is not recorded.
template <class Figure>
std::string shownOrDash(const std::optional<Figure>& figure) { return figure ? figure->shown() : "\u2013"; }

}
