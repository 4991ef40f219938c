#include "pages/keeping/changes_page.h"

#include "labels.h"
#include "records/record_words.h"
#include "table/record_table.h"

#include "quantity/words.h"

#include <QTableView>
#include <QVBoxLayout>

#include <set>

namespace strikeoff {

namespace {

constexpr std::size_t mostShown = 5000;

}

ChangesPage::ChangesPage(Desk& desk, QWidget* parent) : Page{desk, parent}
{
    table_ = new RecordTable{tr("What was changed"), {{.heading = tr("When"), .width = 20}, {.heading = tr("Who"), .width = 24}, {.heading = tr("What"), .width = 60, .stretches = true}}, desk, this};
    table_->setEmptyText(tr("Nothing was entered in this book yet."));
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(table_);
}

void ChangesPage::refresh()
{
    std::vector<TableRow> rows;
    std::set<std::string> desks;
    desk().guarded(tr("What was changed"), [&] {
        for (const auto& entry : desk().store().recentTrail(mostShown)) {
            desks.insert(entry.desk);
            rows.push_back({{}, {{localTime(entry.at), Value{entry.at}, Tone::plain, {}}, textCell(qs(entry.desk)), textCell(entryWords(entry))}, {}, false});
        }
    });
    const auto count = static_cast<std::int64_t>(rows.size());
    answer_ = rows.size() >= mostShown ? tr("The newest %1 steps; a record\u2019s own history goes back to its beginning.").arg(qs(shownDecimal(count, 0, 0)))
            : rows.empty()            ? QString{}
                                      : tr("%1 by %2; a record\u2019s own history says field by field what it was before.").arg(qs(capitalized(counted(count, "step", "steps"))), qs(counted(static_cast<std::int64_t>(desks.size()), "desk", "desks")));
    table_->setRows(std::move(rows));
    emit answerChanged();
}

void ChangesPage::takeFocus() { table_->view().setFocus(); }

}
