#include "table/record_table.h"

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

/// RFC 4180; text a spreadsheet would take for a formula is led by an apostrophe.
void appendCell(QByteArray& csv, const QString& text, bool figure)
{
    auto bytes = text.toUtf8();
    if (!figure && !bytes.isEmpty() && QByteArray{"=+-@\t\r\n'"}.contains(bytes.front())) bytes.prepend('\'');
    if (bytes.contains('"') || bytes.contains(',') || bytes.contains('\n') || bytes.contains('\r') || bytes.startsWith('\'')) {
        bytes.replace("\"", "\"\"");
        bytes = '"' + bytes + '"';
    }
    csv += bytes;
}

}

QByteArray RecordTable::csv() const
{
    QByteArray csv;
    const auto& columns = model_->columns();
    for (std::size_t i = 0; i < columns.size(); ++i) {
        if (i > 0) csv += ',';
        appendCell(csv, columns[i].heading, false);
    }
    csv += "\r\n";
    for (int row = 0; row < model_->rowCount(); ++row) {
        for (std::size_t i = 0; i < columns.size(); ++i) {
            if (i > 0) csv += ',';
            const auto text = model_->cellAt(row, static_cast<int>(i)).text;
            const bool figure = columns[i].align == Align::right;
            appendCell(csv, figure ? plainFigure(text) : text, figure);
        }
        csv += "\r\n";
    }
    return csv;
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
