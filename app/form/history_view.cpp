#include "form/history_view.h"

#include "labels.h"
#include "records/record_words.h"
#include "table/record_table.h"

#include "record/field_text.h"

#include <QKeyEvent>
#include <QPushButton>
#include <QVBoxLayout>

namespace strikeoff {

HistoryView::HistoryView(Desk& desk, QWidget* parent) : QWidget{parent}, desk_{desk}
{
    title_ = makeLabel({}, TextSize::body, Tone::plain, this);
    table_ = new RecordTable{tr("History"), {{.heading = tr("When"), .width = 20}, {.heading = tr("What"), .width = 20}, {.heading = tr("Field"), .width = 12},
                             {.heading = tr("Before"), .width = 16}, {.heading = tr("After"), .width = 16}, {.heading = tr("Who"), .width = 14}}, desk, this};
    table_->setFilterVisible(false);
    table_->setEmptyText(tr("Nothing is kept about this record yet."));
    auto* back = makeButton("historyBack", tr("Back to the form"), nullptr, this);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(grid(2));
    layout->addWidget(title_);
    layout->addWidget(table_, 1);
    layout->addWidget(back, 0, Qt::AlignRight);
    connect(back, &QPushButton::clicked, this, &HistoryView::left);
}

void HistoryView::show(RecordRef record)
{
    title_->setText(tr("History of %1").arg(recordName(desk_.book(), record)));
    std::vector<TableRow> rows;
    desk_.guarded(tr("History"), [&] {
        auto trail = desk_.store().trailOf(record.kind, record.id);
        const auto& fields = describe(record.kind).fields;
        for (auto change = trail.rbegin(); change != trail.rend(); ++change) {
            const auto what = entryWords(change->entry);
            const auto add = [&](const QString& field, const QString& before, const QString& after) {
                rows.push_back({{}, {{localTime(change->entry.at), Value{change->entry.at}, Tone::plain, {}}, textCell(what), textCell(field), textCell(before), textCell(after),
                                     textCell(qs(change->entry.desk))}, {}, false});
            };
            if (!change->after) {
                add(tr("(the record)"), tr("kept"), tr("removed"));
                continue;
            }
            for (std::size_t i = 0; i < fields.size(); ++i) {
                const auto before = change->before ? change->before->values[i] : Value{};
                const auto& after = change->after->values[i];
                if (before == after) continue;
                add(qs(fields[i].label), valueWords(desk_, fields[i], before), valueWords(desk_, fields[i], after));
            }
        }
    });
    table_->setRows(std::move(rows));
    QWidget::show();
}

void HistoryView::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Escape) emit left();
    else QWidget::keyPressEvent(event);
}

}
