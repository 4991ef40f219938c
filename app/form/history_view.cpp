#include "form/history_view.h"

#include "labels.h"
#include "person_account.h"
#include "records/record_words.h"
#include "table/record_table.h"

#include "record/field_text.h"

#include <QKeyEvent>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace strikeoff {

HistoryView::HistoryView(Desk& desk, QWidget* parent) : QWidget{parent}, desk_{desk}
{
    title_ = makeLabel({}, TextSize::body, Tone::plain, this);
    table_ = new RecordTable{tr("History"), {{.heading = tr("When"), .width = 20}, {.heading = tr("What"), .width = 20}, {.heading = tr("Field"), .width = 20},
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

namespace {

/// A line of a paper, and how the history of the paper names it.
struct Line {
    RecordRef record;
    QString name;
};

/// The lines a paper has or had, which are typed on it and have no form of their own.
std::vector<Line> linesOf(const Desk& desk, RecordRef paper)
{
    std::vector<Line> lines;
    for (const auto kind : {RecordKind::quoteLine, RecordKind::invoiceLine, RecordKind::paymentShare}) {
        const auto& description = describe(kind);
        const auto owner = keyFields(description).front();
        if (description.fields[owner].refersTo != paper.kind) continue;
        const auto name = [&](const Value& place) {
            const auto words = valueWords(desk, description.fields[keyFields(description).back()], place);
            return QObject::tr("%1 %2").arg(qs(description.label), words);
        };
        for (const auto id : desk.book().referring(kind, owner, paper.id)) lines.push_back({{kind, id}, name(desk.book().row(kind, id)->values[keyFields(description).back()])});
        for (const auto& removed : desk.store().removedRows(2000))
            if (removed.kind == kind && removed.before->values[owner] == Value{paper.id}) lines.push_back({{kind, removed.id}, name(removed.before->values[keyFields(description).back()])});
    }
    return lines;
}

/// The times somebody was blotted out whom the record is about: of that no change is kept, as it would hold what was taken out.
std::vector<TrailEntry> blottingsAbout(const Desk& desk, RecordRef record)
{
    auto entries = desk.store().blottings();
    std::erase_if(entries, [&](const TrailEntry& entry) {
        const auto person = blottedPerson(entry);
        if (!person) return true;
        const auto rows = rowsAbout(desk.book(), *person);
        return !std::binary_search(rows.begin(), rows.end(), PersonRow{record.kind, record.id});
    });
    return entries;
}

}

void HistoryView::show(RecordRef record)
{
    title_->setText(tr("History of %1").arg(recordName(desk_.book(), record)));
    std::vector<std::pair<std::int64_t, TableRow>> rows;
    const auto tell = [&](RecordRef which, const QString& line) {
        const auto fields = describe(which.kind).fields;
        for (const auto& change : desk_.store().trailOf(which.kind, which.id)) {
            const auto add = [&](QString field, const QString& before, const QString& after) {
                if (!line.isEmpty()) field = tr("%1: %2").arg(line, field);
                rows.push_back({change.entry.id, {{}, {{localTime(change.entry.at), Value{change.entry.at}, Tone::plain, {}}, textCell(entryWords(change.entry)), textCell(field), textCell(before), textCell(after),
                                                       textCell(qs(change.entry.desk))}, {}, false}});
            };
            if (!change.after) {
                add(line.isEmpty() ? tr("(the record)") : tr("(the line)"), tr("kept"), tr("removed"));
                continue;
            }
            for (std::size_t i = 0; i < fields.size(); ++i) {
                const auto before = change.before ? change.before->values[i] : Value{};
                const auto& after = change.after->values[i];
                const bool saysOwner = !line.isEmpty() && fields[i].type == FieldType::reference && fields[i].refersTo == record.kind;
                if (before == after || saysOwner) continue;
                add(qs(fields[i].label), valueWords(desk_, fields[i], before), valueWords(desk_, fields[i], after));
            }
        }
    };
    desk_.guarded(tr("History"), [&] {
        tell(record, {});
        for (const auto& line : linesOf(desk_, record)) tell(line.record, line.name);
    });
    desk_.guarded(tr("History"), [&] {
        for (const auto& entry : blottingsAbout(desk_, record))
            rows.push_back({entry.id, {{}, {{localTime(entry.at), Value{entry.at}, Tone::plain, {}}, textCell(entryWords(entry)), textCell(tr("Names, addresses, notes")), textCell(tr("kept")), textCell(tr("blotted out")),
                                            textCell(qs(entry.desk))}, {}, false}});
    });
    std::stable_sort(rows.begin(), rows.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    std::vector<TableRow> shown;
    for (auto& [entry, row] : rows) shown.push_back(std::move(row));
    table_->setRows(std::move(shown));
    QWidget::show();
}

void HistoryView::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Escape) emit left();
    else QWidget::keyPressEvent(event);
}

}
