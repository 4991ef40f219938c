#include "verbs/verb.h"

#include <array>
#include <cstdlib>
#include <fcntl.h>
#include <string>
#include <termios.h>
#include <unistd.h>

namespace strikeoff {

namespace {

void write(int terminal, std::string_view text)
{
    while (!text.empty()) {
        const auto written = ::write(terminal, text.data(), text.size());
        if (written <= 0) return;
        text.remove_prefix(static_cast<std::size_t>(written));
    }
}

}

std::optional<std::string> askUnseen(const std::string& question)
{
    const int terminal = ::open("/dev/tty", O_RDWR | O_NOCTTY | O_CLOEXEC);
    if (terminal < 0) return std::nullopt;
    termios before{};
    if (tcgetattr(terminal, &before) != 0) {
        ::close(terminal);
        return std::nullopt;
    }
    auto unseen = before;
    unseen.c_lflag &= ~static_cast<tcflag_t>(ECHO);
    tcsetattr(terminal, TCSAFLUSH, &unseen);
    write(terminal, question);
    std::string line;
    std::array<char, 256> some{};
    bool ended = false;
    while (!ended) {
        const auto got = ::read(terminal, some.data(), some.size());
        if (got <= 0) break;
        line.append(some.data(), static_cast<std::size_t>(got));
        ended = line.ends_with('\n');
    }
    tcsetattr(terminal, TCSAFLUSH, &before);
    write(terminal, "\n");
    ::close(terminal);
    if (!ended) return std::nullopt;
    line.pop_back();
    return line;
}

std::optional<std::string> passPhraseFor(const std::string& file, bool isNew)
{
    if (const auto* given = std::getenv("STRIKEOFF_PASS_PHRASE"); given && *given) return std::string{given};
    const auto phrase = askUnseen("Pass phrase for " + file + ": ");
    if (!phrase || !isNew) return phrase;
    const auto again = askUnseen("Once more: ");
    return again == phrase ? phrase : std::nullopt;
}

OpenOptions openingOptions()
{
    OpenOptions options;
    options.askPassword = [](const std::string& book, bool again) {
        return askUnseen((again ? "That was not taken. Password for " : "Password for ") + book + ": ");
    };
    return options;
}

}
