#include "pages/ticket_desk/statement_file.h"

#include "text_rows.h"

#include <QString>
#include <QStringDecoder>

#include <algorithm>

namespace strikeoff {

namespace {

/// Old spreadsheets write the western code page; what is no UTF-8 is taken for that.
std::string asUtf8(std::string bytes)
{
    QStringDecoder decoder{QStringDecoder::Utf8, QStringDecoder::Flag::Stateless};
    const QString decoded = decoder(QByteArrayView{bytes.data(), static_cast<qsizetype>(bytes.size())});
    Q_UNUSED(decoded);
    if (!decoder.hasError()) return bytes;
    return QString::fromLatin1(bytes.data(), static_cast<qsizetype>(bytes.size())).toStdString();
}

}

StatementFile readStatementFile(std::string given, const std::string& remembered, const std::function<bool(int percent)>& progress)
{
    StatementFile file;
    const auto goesOn = [&](std::size_t done) {
        if (progress && !progress(static_cast<int>(done))) file.stopped = true;
        return !file.stopped;
    };
    const auto bytes = asUtf8(std::move(given));
    if (!goesOn(5)) return file;
    auto split = splitText(bytes);
    if (split.fault) {
        file.fault = split.fault->message;
        return file;
    }
    if (!goesOn(30)) return file;
    file.rows = std::move(split.rows);
    const auto isBlank = [](const auto& row) { return std::ranges::all_of(row, &std::string::empty); };
    if (std::ranges::all_of(file.rows, isBlank)) {
        file.rows.clear();
        file.fault = "there is nothing in it; choose the statement\u2019s own file, or copy its lines first";
        return file;
    }
    file.guess = guessStatement(file.rows, remembered);
    if (!goesOn(45)) return file;
    file.read = readStatement(file.rows, file.guess, [&](int percent) { return goesOn(45 + static_cast<std::size_t>(percent) * 55 / 100); });
    return file;
}

StatementFile blankStatement()
{
    StatementFile file;
    using enum StatementColumn;
    file.guess.columns = {ticket, date, description, quantity, unit, unitPrice, amount};
    file.guess.headings = {"Ticket", "Date", "Description", "Quantity", "Unit", "Unit price", "Amount"};
    file.guess.headingRow = 0;
    file.rows = {file.guess.headings, std::vector<std::string>(file.guess.headings.size())};
    file.read = readStatement(file.rows, file.guess);
    return file;
}

}
