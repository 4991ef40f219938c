#include "table/record_table.h"

#include "csv.h"
#include "labels.h"

#include "paper/papers.h"

#include <QTableView>

namespace strikeoff {

namespace {

/// A cell of tab-separated text: tabs and line ends would make cells of their own, and a formula would be run where it is pasted.
QString oneCell(QString text)
{
    text.replace(u'\t', u' ').replace(u'\n', u' ').replace(u'\r', u' ');
    return needsGuard(utf8(text)) ? u'\'' + text : text;
}

/// Figures go out as plain figures: no thousands marks and an ordinary minus sign.
QString plainFigure(QString text) { return text.remove(u',').replace(u'\u2212', u'-'); }

}

QByteArray RecordTable::csv() const
{
    std::string csv;
    CsvWriter writer{csv};
    const auto& columns = model_->columns();
    for (const auto& column : columns) writer.plain(utf8(column.heading));
    writer.endRow();
    for (int row = 0; row < model_->rowCount(); ++row) {
        for (std::size_t i = 0; i < columns.size(); ++i) {
            const auto text = model_->cellAt(row, static_cast<int>(i)).text;
            if (columns[i].align == Align::right) writer.plain(utf8(plainFigure(text)));
            else writer.text(utf8(text));
        }
        writer.endRow();
    }
    return QByteArray::fromStdString(csv);
}

QString RecordTable::tabSeparated() const
{
    QStringList lines;
    QStringList cells;
    const auto& columns = model_->columns();
    for (const auto& column : columns) cells << oneCell(column.heading);
    lines << cells.join(u'\t');
    for (const int row : selectedRows()) {
        cells.clear();
        for (std::size_t i = 0; i < columns.size(); ++i) {
            const auto text = model_->cellAt(row, static_cast<int>(i)).text;
            cells << (columns[i].align == Align::right ? plainFigure(text) : oneCell(text));
        }
        lines << cells.join(u'\t');
    }
    return lines.join(u'\n') + u'\n';
}

void RecordTable::exportCsv()
{
    auto file = name_.toLower().replace(u' ', u'-');
    desk_.saveFile(tr("Export %1").arg(name_), file + QStringLiteral(".csv"), tr("CSV (*.csv)"), csv());
}

PaperDocument RecordTable::paper(const QString& heading) const
{
    const auto& columns = model_->columns();
    std::vector<PaperColumn> printed;
    for (const auto& column : columns) printed.push_back({utf8(column.heading), column.align == Align::right ? PaperSide::right : PaperSide::left});
    std::vector<PaperRow> rows;
    rows.reserve(static_cast<std::size_t>(model_->rowCount()));
    for (int row = 0; row < model_->rowCount(); ++row) {
        PaperRow cells;
        if (model_->index(row, 0).data(TableModel::apartRole).toBool()) cells.manner = PaperRowManner::apart;
        for (int i = 0; i < model_->columnCount(); ++i) cells.cells.push_back(utf8(model_->index(row, i).data().toString()));
        rows.push_back(std::move(cells));
    }
    return tablePaper(desk_.book().settings(), utf8(heading), {}, std::move(printed), std::move(rows));
}

}
