#include "bench_of_harm.h"

#include <QCoreApplication>

#include <cstdio>
#include <cstdlib>
#include <exception>
#include <string_view>

using namespace strikeoff::faults;

int main(int argc, char** argv)
{
    const QCoreApplication application{argc, argv};
    Call call;
    std::string_view name;
    for (int i = 1; i < argc; ++i) {
        const std::string_view word{argv[i]};
        if (word == "--long") call.isLong = true;
        else if (word.starts_with("--seed=")) call.seed = static_cast<unsigned>(std::atoi(argv[i] + 7));
        else name = word;
    }
    try {
        if (name == "damage") return damage(call);
        if (name == "disks") return disks(call);
        if (name == "fight") return fight(call);
        if (name == "kill") return kill(call);
        if (name == "server") return serverStops(call);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "NOT KEPT: %s\n", error.what());
        return 1;
    }
    std::fprintf(stderr, "usage: faults damage|disks|fight|kill|server [--long] [--seed=N]\n");
    return 2;
}
