#include "chart_file.h"

#include "csv.h"
#include "file.h"
#include "labels.h"
#include "store.h"

#include <QBuffer>
#include <QFontMetricsF>
#include <QGuiApplication>
#include <QImage>
#include <QPainter>
#include <QPdfWriter>
#include <QSvgGenerator>

#include <cmath>
#include <filesystem>

namespace strikeoff {

namespace {

constexpr double margin = 24;
constexpr int dotsPerPixel = 2;  ///< of a picture, so that it stays legible when it is printed
constexpr double dotsPerInch = 96;

QFont fontOf(double factor)
{
    QFont font = QGuiApplication::font();
    font.setPixelSize(static_cast<int>(std::lround(13 * factor)));
    return font;
}

ChartStyle styleOfFiles() { return {&lightPalette(), fontOf(1), fontOf(0.9)}; }

/// A chart on its sheet: where heading, words and chart stand, in pixels at 96 dpi.
struct Sheet {
    QSizeF size;
    QRectF heading, words, chart;
};

Sheet sheetOf(const Chart& chart)
{
    const auto style = styleOfFiles();
    Sheet sheet;
    const double width = chart.size.width();
    const double height = chart.heightFor ? chart.heightFor(width, style) : chart.size.height();
    double top = margin;
    sheet.heading = {margin, top, width, QFontMetricsF{fontOf(1.5)}.height()};
    top = sheet.heading.bottom() + 4;
    if (!chart.inWords.isEmpty()) {
        const QFontMetricsF body{style.body};
        sheet.words = {margin, top, width, body.boundingRect(QRectF{0, 0, width, 1000}, Qt::TextWordWrap, chart.inWords).height()};
        top = sheet.words.bottom() + 4;
    }
    sheet.chart = {margin, top + 8, width, height};
    sheet.size = {width + 2 * margin, sheet.chart.bottom() + margin};
    return sheet;
}

void paintSheet(QPainter& painter, const Sheet& sheet, const Chart& chart)
{
    const auto style = styleOfFiles();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(QRectF{{0, 0}, sheet.size}, style.palette->sheet);
    painter.setPen(style.palette->ink);
    painter.setFont(fontOf(1.5));
    painter.drawText(sheet.heading, Qt::AlignLeft | Qt::AlignTop, chart.name);
    painter.setFont(style.body);
    if (!chart.inWords.isEmpty()) painter.drawText(sheet.words, Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, chart.inWords);
    chart.paint(painter, sheet.chart, style);
}

QByteArray asPng(const Chart& chart)
{
    const auto sheet = sheetOf(chart);
    QImage image{(sheet.size * dotsPerPixel).toSize(), QImage::Format_RGB32};
    image.setDotsPerMeterX(static_cast<int>(std::lround(dotsPerInch * dotsPerPixel / 0.0254)));
    image.setDotsPerMeterY(image.dotsPerMeterX());
    image.fill(lightPalette().sheet);
    {
        QPainter painter{&image};
        // Fonts are in pixels of 96 dpi; the picture has more of them.
        painter.scale(dotsPerPixel, dotsPerPixel);
        paintSheet(painter, sheet, chart);
    }
    QByteArray bytes;
    QBuffer buffer{&bytes};
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, "PNG");
    return bytes;
}

QByteArray asSvg(const Chart& chart)
{
    const auto sheet = sheetOf(chart);
    QByteArray bytes;
    QBuffer buffer{&bytes};
    buffer.open(QIODevice::WriteOnly);
    QSvgGenerator generator;
    generator.setOutputDevice(&buffer);
    generator.setResolution(static_cast<int>(dotsPerInch));
    generator.setSize(sheet.size.toSize());
    generator.setViewBox(QRectF{{0, 0}, sheet.size});
    // The generator writes both as they are, and a job type's name may hold what looks like markup.
    generator.setTitle(chart.name.toHtmlEscaped());
    generator.setDescription(chart.inWords.toHtmlEscaped());
    QPainter painter{&generator};
    paintSheet(painter, sheet, chart);
    painter.end();
    return bytes;
}

QByteArray asPdf(const Chart& chart)
{
    const auto sheet = sheetOf(chart);
    QByteArray bytes;
    QBuffer buffer{&bytes};
    buffer.open(QIODevice::WriteOnly);
    QPdfWriter writer{&buffer};
    writer.setResolution(static_cast<int>(dotsPerInch));
    writer.setTitle(chart.name);
    writer.setCreator(QStringLiteral("Strikeoff"));
    // The page is as large as the sheet.
    writer.setPageSize(QPageSize{sheet.size * (72 / dotsPerInch), QPageSize::Point, chart.name, QPageSize::ExactMatch});
    writer.setPageMargins({});
    QPainter painter{&writer};
    paintSheet(painter, sheet, chart);
    painter.end();
    return bytes;
}

QByteArray asCsv(const Chart& chart)
{
    std::string csv;
    CsvWriter writer{csv};
    const auto table = chart.numbers();
    for (const auto& column : table.columns) writer.text(utf8(column.heading));
    writer.endRow();
    for (const auto& row : table.rows) {
        for (std::size_t i = 0; i < table.columns.size(); ++i) {
            const auto cell = utf8(row.value(static_cast<qsizetype>(i)));
            if (table.columns[i].words) writer.text(cell);
            else writer.plain(cell);
        }
        writer.endRow();
    }
    return QByteArray::fromStdString(csv);
}

}

QByteArray bytesOf(const Chart& chart, ChartFormat format)
{
    switch (format) {
    case ChartFormat::png: return asPng(chart);
    case ChartFormat::svg: return asSvg(chart);
    case ChartFormat::pdf: return asPdf(chart);
    case ChartFormat::csv: break;
    }
    return asCsv(chart);
}

std::vector<std::string> writeCharts(const std::string& folder, std::span<const Chart> charts)
{
    namespace fs = std::filesystem;
    std::error_code error;
    if (!fs::is_directory(folder, error)) {
        error.clear();
        fs::create_directories(folder, error);
        if (error || !fs::is_directory(folder)) throw StorageError{"cannot make the folder " + folder + ": " + (error ? error.message() : "there is a file of that name") + "; choose another"};
        fs::permissions(folder, fs::perms::owner_all, error);
    }
    std::vector<std::string> written;
    for (const auto& chart : charts)
        for (const auto& spec : chartFormats) {
            if (spec.format == ChartFormat::pdf) continue;
            const auto bytes = bytesOf(chart, spec.format);
            const auto path = fs::path{folder} / (utf8(fileNameOf(chart.name)) + '.' + spec.ending);
            std::string fault;
            if (!writePrivateFile(path, std::string_view{bytes.constData(), static_cast<std::size_t>(bytes.size())}, fault)) throw StorageError{fault};
            written.push_back(path.string());
        }
    return written;
}

}
