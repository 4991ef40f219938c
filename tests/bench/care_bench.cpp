#include "book_again.h"
#include "window/book_care.h"

#include <QApplication>
#include <QDir>
#include <QTimer>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>

using namespace strikeoff;

namespace {

using Clock = std::chrono::steady_clock;

double millisecondsSince(Clock::time_point start) { return std::chrono::duration<double, std::milli>(Clock::now() - start).count(); }

/// How long the work took, and the longest time in which the window would not have answered.
struct Held {
    double whole = 0, longest = 0;
};

Held heldBy(BookCare& care, const Store& store, bool check, bool copy)
{
    Held held;
    auto last = Clock::now();
    QTimer beat;
    beat.setTimerType(Qt::PreciseTimer);
    beat.setInterval(5);  // so that it sleeps between, as a window does
    QObject::connect(&beat, &QTimer::timeout, [&] {
        held.longest = std::max(held.longest, millisecondsSince(last));
        last = Clock::now();
    });
    beat.start();
    const auto start = Clock::now();
    care.begin(bookAgain(store), check, copy);
    while (care.isRunning()) QApplication::processEvents(QEventLoop::WaitForMoreEvents);
    held.whole = millisecondsSince(start);
    return held;
}

}

/// care_bench BOOK: milliseconds that the day's copy takes and those it holds the window; the same of the check after the program broke off. The book is a file
/// without copies, or an address on a server.
int main(int argc, char** argv)
{
    if (argc < 2) return 2;
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QApplication application{argc, argv};
    const auto store = Store::open(argv[1]);
    BookCare care;
    QObject::connect(&care, &BookCare::copied, [](const QString& fault) {
        if (!fault.isEmpty()) std::abort();
    });
    QObject::connect(&care, &BookCare::checked, [](const std::vector<VerifyFinding>& findings, const QString& fault) {
        if (!findings.empty() || !fault.isEmpty()) std::abort();
    });
    const auto copy = heldBy(care, *store, false, true);
    if (copy.whole < 1) std::abort();  // there was one already
    const auto check = heldBy(care, *store, true, false);
    std::printf("%.4f %.4f %.4f %.4f\n", copy.longest, copy.whole, check.longest, check.whole);
    return 0;
}
