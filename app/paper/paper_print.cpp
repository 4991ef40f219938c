#include "paper/paper_print.h"

#include "paper/page_drawer.h"
#include "paper/paper_layout.h"

#include "file.h"

#include <QBuffer>
#include <QFile>
#include <QPageLayout>
#include <QPagedPaintDevice>
#include <QPainter>
#include <QPdfWriter>
#include <QPrintPreviewDialog>
#include <QPrinter>

#include <filesystem>

namespace strikeoff {

namespace {

QPageLayout pageLayoutOf(const PaperDocument& document)
{
    const bool sideways = isSideways(document, PaperFonts{});
    return QPageLayout{QPageSize{document.size == PaperSize::a4 ? QPageSize::A4 : QPageSize::Letter}, sideways ? QPageLayout::Landscape : QPageLayout::Portrait, QMarginsF{}};
}

}

void setUpPage(QPagedPaintDevice& device, const PaperDocument& document)
{
    const auto layout = pageLayoutOf(document);
    device.setPageSize(layout.pageSize());
    device.setPageOrientation(layout.orientation());
}

void print(QPagedPaintDevice& device, const PaperDocument& document)
{
    const PaperFonts fonts;
    const auto layout = device.pageLayout();
    const auto page = layout.fullRect(QPageLayout::Point).size() * dotsPerPoint;
    const auto pages = layOut(document, page, fonts);

    QPainter painter;
    if (!painter.begin(&device)) return;
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.setRenderHint(QPainter::LosslessImageRendering);
    // The device counts from where it can print; our pages count from the corner of the paper.
    painter.scale(device.logicalDpiX() / dotsPerInch, device.logicalDpiY() / dotsPerInch);
    if (layout.mode() != QPageLayout::FullPageMode) painter.translate(-layout.paintRect(QPageLayout::Point).topLeft() * dotsPerPoint);
    PageDrawer drawer{painter, fonts};
    bool first = true;
    for (const auto& each : pages) {
        if (!first && !device.newPage()) break;
        first = false;
        for (const auto& item : each.items) std::visit(drawer, item);
    }
}

bool writePdf(const QString& path, const PaperDocument& document, QString& fault)
{
    QByteArray bytes;
    {
        QBuffer buffer{&bytes};
        buffer.open(QIODevice::WriteOnly);
        QPdfWriter writer{&buffer};
        writer.setResolution(static_cast<int>(dotsPerInch));
        writer.setTitle(QString::fromStdString(document.title));
        writer.setCreator(QStringLiteral("Strikeoff"));
        writer.setPageLayout(pageLayoutOf(document));
        print(writer, document);
    }
    std::string why;
    const auto name = QFile::encodeName(path);
    if (writePrivateFile(std::filesystem::path{name.toStdString()}, std::string_view{bytes.constData(), static_cast<std::size_t>(bytes.size())}, why)) return true;
    fault = QString::fromStdString(why);
    return false;
}

void showPrintPreview(QWidget* parent, const PaperDocument& document)
{
    QPrinter printer{QPrinter::HighResolution};
    printer.setDocName(QString::fromStdString(document.title));
    printer.setCreator(QStringLiteral("Strikeoff"));
    setUpPage(printer, document);
    QPrintPreviewDialog preview{&printer, parent};
    preview.setWindowTitle(document.title.empty() ? QStringLiteral("Print preview") : QStringLiteral("Print preview: ") + QString::fromStdString(document.title));
    QObject::connect(&preview, &QPrintPreviewDialog::paintRequested, &preview, [&document](QPrinter* device) { print(*device, document); });
    preview.exec();
}

}
