#include "desk.h"
#include "pages/job_folders/job_folders_page.h"
#include "table/record_table.h"

#include <QApplication>
#include <QLineEdit>
#include <QTemporaryDir>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>

using namespace strikeoff;

namespace {

template <class Work>
double millisecondsOf(const Work& work)
{
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
}

double medianOf(std::vector<double> figures)
{
    std::nth_element(figures.begin(), figures.begin() + static_cast<std::ptrdiff_t>(figures.size() / 2), figures.end());
    return figures[figures.size() / 2];
}

}

/// filter_bench BOOK: milliseconds from a letter typed into the filter of the job list to the list being narrowed (median of many), the same for the very
/// first letter after the list was shown, and a bare scan of the same texts for the same words.
int main(int argc, char** argv)
{
    if (argc < 2) return 2;
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QApplication application{argc, argv};
    const std::string path{argv[1]};
    const QTemporaryDir folder;
    Preferences preferences{folder.filePath(QStringLiteral("preferences.ini"))};
    const auto store = Store::open(path);
    Desk desk{*store, preferences};
    JobFoldersPage page{desk};
    page.resize(1080, 640);
    page.show();
    page.refresh();
    const auto read = std::chrono::steady_clock::now() + std::chrono::milliseconds{1500};  // as long as it takes to read the first rows
    while (std::chrono::steady_clock::now() < read) QApplication::processEvents();
    auto& table = *page.table();
    const auto* source = table.model().source();
    std::vector<std::string> texts(source->size());
    for (std::size_t i = 0; i < texts.size(); ++i) source->appendWords(i, texts[i]);

    double first = 0;
    std::vector<double> ours, bare;
    const QString words[] = {QStringLiteral("walk 12"), QStringLiteral("town 7"), QStringLiteral("customer 99")};
    for (const auto& word : words)
        for (qsizetype letters = 1; letters <= word.size(); ++letters) {
            const auto typed = word.left(letters);
            const auto took = millisecondsOf([&] { table.filterField().setText(typed); });
            if (first == 0) first = took;
            else ours.push_back(took);
            std::vector<std::string> wanted;
            for (const auto& each : typed.toLower().split(u' ', Qt::SkipEmptyParts)) wanted.push_back(each.toStdString());
            std::vector<std::uint32_t> found;
            bare.push_back(millisecondsOf([&] {
                for (std::size_t i = 0; i < texts.size(); ++i)
                    if (std::ranges::all_of(wanted, [&](const auto& each) { return texts[i].find(each) != std::string::npos; })) found.push_back(static_cast<std::uint32_t>(i));
            }));
            if (static_cast<int>(found.size()) != table.model().shownRows()) std::abort();  // the same rows, or the comparison is worth nothing
        }
    std::printf("%.4f %.4f %.4f\n", medianOf(ours), first, medianOf(bare));
    return 0;
}
