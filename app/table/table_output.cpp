#include "table/record_table.h"

#include "csv.h"
#include "labels.h"

#include <QPainter>
#include <QPrinter>
#include <QTableView>
#include <QTextDocument>

namespace strikeoff {

namespace {

/// A cell of tab-separated text: tabs and line ends would make cells of their own.
QString oneCell(QString text) { return text.replace(u'\t', u' ').replace(u'\n', u' ').replace(u'\r', u' '); }

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

void RecordTable::print(QPrinter& printer, const QString& heading) const
{
    QString html = QStringLiteral("<style>h1{font-size:14pt}table{border-collapse:collapse}th,td{padding:2px 6px;font-size:8.5pt}th{border-bottom:1px solid #000}"
                                  "td{border-bottom:1px solid #999}</style><h1>%1</h1><table width='100%' cellspacing='0'><thead><tr>")
                       .arg(heading.toHtmlEscaped());
    const auto& columns = model_->columns();
    const auto side = [&](std::size_t i) { return columns[i].align == Align::right ? QStringLiteral("right") : QStringLiteral("left"); };
    for (std::size_t i = 0; i < columns.size(); ++i) html += QStringLiteral("<th align='%1'>%2</th>").arg(side(i), columns[i].heading.toHtmlEscaped());
    html += QStringLiteral("</tr></thead>");
    for (int row = 0; row < model_->rowCount(); ++row) {
        html += QStringLiteral("<tr>");
        for (std::size_t i = 0; i < columns.size(); ++i)
            html += QStringLiteral("<td align='%1'>%2</td>").arg(side(i), model_->cellAt(row, static_cast<int>(i)).text.toHtmlEscaped());
        html += QStringLiteral("</tr>");
    }
    html += QStringLiteral("</table>");
    QTextDocument document;
    document.setDefaultFont(QFont{QStringLiteral("Sans Serif"), 9});
    document.setHtml(html);
    document.print(&printer);
}

}
