#include "command_line.h"

#include "server_address.h"
#include "text_table.h"
#include "verbs/verb.h"

#include <QGuiApplication>

#include <algorithm>
#include <filesystem>
#include <ostream>

namespace strikeoff {

namespace {

constexpr std::string_view exitStatuses =
    "Exit status: 0 done, 1 the input or the book has a fault that is printed, 2 wrong usage,\n"
    "3 an answer that needs the owner.\n";

const Verb* findVerb(std::string_view name)
{
    const auto& verbs = allVerbs();
    const auto found = std::find_if(verbs.begin(), verbs.end(), [&](const auto& verb) { return verb.name == name; });
    return found == verbs.end() ? nullptr : &*found;
}

std::string withDashes(const VerbOption& option)
{
    auto text = "--" + std::string{option.name};
    if (!option.value.empty()) text += ' ' + std::string{option.value};
    return text;
}

std::string usageOf(const Verb& verb)
{
    auto usage = "strikeoff " + std::string{verb.name};
    if (!verb.words.empty()) usage += ' ' + std::string{verb.words};
    for (const auto& option : verb.options) usage += " [" + withDashes(option) + ']';
    return usage;
}

/// A list with the second parts below each other.
std::string inTwoColumns(const std::vector<std::pair<std::string, std::string>>& lines)
{
    std::size_t width = 0;
    for (const auto& [left, right] : lines) width = std::max(width, terminalWidth(left));
    std::string text;
    for (const auto& [left, right] : lines) text += "  " + left + std::string(width - terminalWidth(left) + 2, ' ') + right + '\n';
    return text;
}

void printHelp(std::ostream& out)
{
    out << "strikeoff: the ledger of a small flatwork crew, in one book.\n\n";
    std::vector<std::pair<std::string, std::string>> lines{{"strikeoff [BOOK]", "the window"}};
    for (const auto& verb : allVerbs()) lines.emplace_back(usageOf(verb), verb.meaning);
    lines.emplace_back("strikeoff help VERB", "more about one of them");
    lines.emplace_back("strikeoff --version", "which version this is");
    out << inTwoColumns(lines) << "\nOptions may stand anywhere; -- ends them.\n" << exitStatuses;
}

void printHelp(std::ostream& out, const Verb& verb)
{
    out << "usage: " << usageOf(verb) << "\n\n" << verb.meaning << '\n';
    if (!verb.more.empty()) out << '\n' << verb.more;
    if (!verb.options.empty()) {
        std::vector<std::pair<std::string, std::string>> lines;
        for (const auto& option : verb.options) lines.emplace_back(withDashes(option), option.meaning);
        out << '\n' << inTwoColumns(lines);
    }
    out << '\n' << exitStatuses;
}

/// Whether an option of this name takes a value, whichever verb it belongs to; nothing for an unknown one.
std::optional<bool> takesValue(std::string_view name)
{
    if (name == "help" || name == "version") return false;
    for (const auto& verb : allVerbs())
        for (const auto& option : verb.options)
            if (option.name == name) return !option.value.empty();
    return std::nullopt;
}

/// Sorts words from options. What is wrong with them is kept in `fault`, so that the verb's usage can be shown with it.
Arguments sorted(std::span<const std::string> given, std::string& fault)
{
    Arguments arguments;
    const auto complain = [&](std::string message) {
        if (fault.empty()) fault = std::move(message);
    };
    bool optionsEnded = false;
    for (std::size_t i = 0; i < given.size(); ++i) {
        const auto& argument = given[i];
        if (optionsEnded || argument.size() < 2 || argument[0] != '-') {
            arguments.words.push_back(argument);
            continue;
        }
        if (argument == "--") {
            optionsEnded = true;
            continue;
        }
        const auto equals = argument.find('=');
        const auto shown = argument.substr(0, equals);
        const auto name = shown == "-h" ? std::string{"help"} : shown.starts_with("--") ? shown.substr(2) : std::string{};
        const auto wanted = takesValue(name);
        if (!wanted) {
            complain("there is no option " + inQuotes(shown));
            continue;
        }
        std::string value;
        if (equals != std::string::npos) {
            if (!*wanted) complain("the option " + shown + " takes no value");
            value = argument.substr(equals + 1);
        } else if (*wanted) {
            if (i + 1 == given.size() || given[i + 1].starts_with("--"))
                complain("the option " + shown + " needs a value behind it");
            else value = given[++i];
        }
        if (!arguments.options.emplace(name, value).second) complain("the option " + shown + " is given twice");
    }
    return arguments;
}

/// How many words a verb takes, at least and at most.
std::pair<std::size_t, std::size_t> wordCount(const Verb& verb)
{
    if (verb.words.empty()) return {0, 0};
    const auto all = static_cast<std::size_t>(std::count(verb.words.begin(), verb.words.end(), ' ')) + 1;
    return {all - static_cast<std::size_t>(std::count(verb.words.begin(), verb.words.end(), '[')), all};
}

int misused(const Surroundings& surroundings, const Verb* verb, const std::string& message)
{
    surroundings.err << "strikeoff: " << message << '\n';
    if (verb) surroundings.err << "usage: " << usageOf(*verb) << '\n';
    else surroundings.err << "usage: strikeoff [BOOK], or a verb; strikeoff --help lists them\n";
    return wrongUsage;
}

int runVerb(const Verb& verb, Arguments arguments, const Surroundings& surroundings)
{
    arguments.words.erase(arguments.words.begin());
    for (const auto& [name, value] : arguments.options)
        if (std::none_of(verb.options.begin(), verb.options.end(), [&](const auto& option) { return option.name == name; }))
            return misused(surroundings, &verb, std::string{verb.name} + " has no option --" + name);
    const auto [least, most] = wordCount(verb);
    if (arguments.words.size() < least)
        return misused(surroundings, &verb, std::string{verb.name} + " needs more: " + std::string{verb.words});
    if (arguments.words.size() > most)
        return misused(surroundings, &verb,
                       "there is too much behind " + std::string{verb.name} + ": " + inQuotes(arguments.words[most]));

    // The engine's driver is a plugin, and finding plugins needs an application; no display does.
    // Drawing needs fonts, and so an application that knows them; it draws into memory and never asks for a display.
    std::optional<QCoreApplication> application;
    std::optional<QGuiApplication> drawing;
    int count = 1;
    char name[] = "strikeoff";
    char* names[] = {name, nullptr};
    if (!QCoreApplication::instance()) {
        if (arguments.has(outOption.name)) {
            qputenv("QT_QPA_PLATFORM", "offscreen");
            drawing.emplace(count, names);
        } else {
            application.emplace(count, names);
        }
    }

    return verb.run(arguments, surroundings);
}

int runWindowOn(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto& words = arguments.words;
    if (words.empty()) return surroundings.openWindow({});
    const auto& book = words.front();
    std::error_code ignored;
    if (!isServerAddress(book) && !std::filesystem::exists(book, ignored)) {
        if (book.find_first_of("./") == std::string::npos)
            return misused(surroundings, nullptr, inQuotes(book) + " is neither a verb nor a book that is there");
        surroundings.err << "strikeoff: there is no book " << inQuotes(withoutPassword(book)) << "; strikeoff new BOOK makes one\n";
        return faulty;
    }
    if (words.size() > 1)
        return misused(surroundings, nullptr, "the window opens one book, and " + inQuotes(words[1]) + " is one more");
    return surroundings.openWindow(book);
}

int dispatch(std::span<const std::string> given, const Surroundings& surroundings)
{
    std::string fault;
    const auto arguments = sorted(given, fault);
    const auto& words = arguments.words;
    const bool asksHelp = !words.empty() && words[0] == "help";
    const auto* verb = words.empty() ? nullptr : findVerb(asksHelp && words.size() > 1 ? words[1] : words[0]);
    if (!fault.empty()) return misused(surroundings, verb, fault);
    if (asksHelp || arguments.has("help")) {
        if (verb) printHelp(surroundings.out, *verb);
        else if (asksHelp && words.size() > 1) return misused(surroundings, nullptr, "there is no verb " + inQuotes(words[1]));
        else printHelp(surroundings.out);
        return done;
    }
    if (arguments.has("version")) {
        surroundings.out << "strikeoff " STRIKEOFF_VERSION "\n";
        return done;
    }
    if (verb) {
        try {
            return runVerb(*verb, arguments, surroundings);
        } catch (const UsageError& error) {
            return misused(surroundings, verb, error.what());
        }
    }
    if (!arguments.options.empty())
        return misused(surroundings, nullptr, "the option --" + arguments.options.begin()->first + " belongs to a verb");
    return runWindowOn(arguments, surroundings);
}

}

int runCommandLine(std::span<const std::string> arguments, const Surroundings& surroundings)
{
    try {
        const int status = dispatch(arguments, surroundings);
        surroundings.out.flush();
        if (surroundings.out) return status;
        surroundings.err << "strikeoff: standard output took no more; is the disk full?\n";
    } catch (const std::bad_alloc&) {
        surroundings.err << "strikeoff: there is not enough memory for this; close other programs or use a smaller file\n";
    } catch (const std::exception& error) {
        surroundings.err << "strikeoff: " << error.what() << '\n';
    }
    return faulty;
}

}
