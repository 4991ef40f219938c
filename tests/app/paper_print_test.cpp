#include "app/application.h"
#include "app/paper_sample.h"

#include "labels.h"
#include "paper/paper_layout.h"
#include "paper/paper_print.h"
#include "paper/papers.h"
#include "table/record_table.h"

#include <QFile>
#include <QFileInfo>
#include <QPrintPreviewDialog>
#include <QPrintPreviewWidget>
#include <QPrinter>
#include <QRegularExpression>
#include <QTimer>

#include <catch2/catch.hpp>

using namespace strikeoff;
using strikeoff::sample::Outfit;

namespace {

QByteArray bytesOf(const QString& path)
{
    QFile file{path};
    REQUIRE(file.open(QIODevice::ReadOnly));
    return file.readAll();
}

/// Pages and paper of a PDF, by its page objects.
int pageCount(const QByteArray& pdf) { return static_cast<int>(QString::fromLatin1(pdf).count(QRegularExpression{QStringLiteral("/Type\\s*/Page\\b(?!s)")})); }
QSizeF mediaBox(const QByteArray& pdf)
{
    const auto found = QRegularExpression{QStringLiteral("/MediaBox\\s*\\[0 0 ([0-9.]+) ([0-9.]+)\\]")}.match(QString::fromLatin1(pdf));
    return found.hasMatch() ? QSizeF{found.captured(1).toDouble(), found.captured(2).toDouble()} : QSizeF{};
}

}

TEST_CASE("a paper is written as PDF of its size, for its owner's eyes only", "[paper]")
{
    test::application();
    const QTemporaryDir folder;
    Outfit outfit;
    for (const auto size : {PaperSize::letter, PaperSize::a4}) {
        auto settings = outfit.book.settings();
        settings.paper = size;
        outfit.book.put(rowOf(settings));
        const auto paper = quotePaper(outfit.book, outfit.book.get(outfit.quote));
        const auto path = folder.filePath(QStringLiteral("quote %1.pdf").arg(static_cast<int>(size)));
        QString fault;
        REQUIRE(writePdf(path, paper, fault));
        CHECK(fault.isEmpty());
        const auto pdf = bytesOf(path);
        CHECK(pdf.startsWith("%PDF-1."));
        const PaperFonts fonts;
        CHECK(pageCount(pdf) == static_cast<int>(layOut(paper, pageSizeOf(paper, fonts), fonts).size()));
        // In points: Letter 612 by 792; A4 595.28 by 841.89, whole ones where the writer rounds.
        CHECK(mediaBox(pdf).width() == Approx(size == PaperSize::letter ? 612 : 595.28).margin(0.5));
        CHECK(mediaBox(pdf).height() == Approx(size == PaperSize::letter ? 792 : 841.89).margin(0.5));
        CHECK(QFile::permissions(path) == (QFile::ReadOwner | QFile::WriteOwner | QFile::ReadUser | QFile::WriteUser));
    }
    CHECK(QDir{folder.path()}.entryList(QDir::Files | QDir::Hidden).size() == 2);
}

TEST_CASE("a PDF that cannot be written names the file and the reason and leaves what was there", "[paper]")
{
    test::application();
    const QTemporaryDir folder;
    const Outfit outfit;
    const auto paper = creditPaper(outfit.book, outfit.book.get(outfit.credit));
    QString fault;
    CHECK_FALSE(writePdf(folder.filePath(QStringLiteral("no such folder/credit.pdf")), paper, fault));
    CHECK(fault.contains(QStringLiteral("no such folder/credit.pdf")));
    CHECK(fault.contains(QStringLiteral("no such directory")));
    CHECK_FALSE(writePdf(folder.path(), paper, fault));
    CHECK(fault.contains(QStringLiteral("directory")));

    const auto path = folder.filePath(QStringLiteral("credit.pdf"));
    REQUIRE(writePdf(path, paper, fault));
    const auto first = bytesOf(path).size();
    REQUIRE(writePdf(path, accountPaper(outfit.book, outfit.book.get(outfit.customer), sample::day(2026, 7, 10)), fault));
    CHECK(bytesOf(path).size() != first);
}

TEST_CASE("a printer gets the same pages as a file", "[paper]")
{
    test::application();
    const QTemporaryDir folder;
    const Outfit outfit;
    const auto paper = quotePaper(outfit.book, outfit.book.get(outfit.quote));
    const auto path = folder.filePath(QStringLiteral("printed.pdf"));
    {
        QPrinter printer{QPrinter::HighResolution};
        printer.setOutputFormat(QPrinter::PdfFormat);
        printer.setOutputFileName(path);
        setUpPage(printer, paper);
        print(printer, paper);
    }
    const PaperFonts fonts;
    const auto pdf = bytesOf(path);
    CHECK(pageCount(pdf) == static_cast<int>(layOut(paper, pageSizeOf(paper, fonts), fonts).size()));
    CHECK(mediaBox(pdf).width() == Approx(612).margin(0.5));
}

TEST_CASE("the preview shows the pages and goes away again", "[paper]")
{
    test::application();
    const Outfit outfit;
    const auto paper = quotePaper(outfit.book, outfit.book.get(outfit.quote));
    int pages = 0;
    QString title;
    QTimer::singleShot(0, [&] {
        auto* dialog = qobject_cast<QPrintPreviewDialog*>(QApplication::activeModalWidget());
        if (!dialog) return;
        test::settle();
        title = dialog->windowTitle();
        pages = dialog->findChild<QPrintPreviewWidget*>()->pageCount();
        dialog->reject();
    });
    showPrintPreview(nullptr, paper);
    const PaperFonts fonts;
    CHECK(pages == static_cast<int>(layOut(paper, pageSizeOf(paper, fonts), fonts).size()));
    CHECK(title == QStringLiteral("Print preview: Quote Q1012, revision 2"));
}

TEST_CASE("a table in view prints the rows as they are shown", "[paper]")
{
    test::Office office;
    RecordTable table{QStringLiteral("Receipts"), {{.heading = QStringLiteral("Vendor")}, {.heading = QStringLiteral("Amount, $"), .align = Align::right}}, *office.desk};
    table.setRows({{{RecordKind::receipt, 1}, {textCell(QStringLiteral("=SUM(A1)")), moneyCell(std::nullopt)}, {}, false},
                   {{RecordKind::receipt, 2}, {textCell(QStringLiteral("<b>Steel</b>")), moneyCell(Money::ofCents(-2'550))}, {}, false},
                   {{RecordKind::receipt, 3}, {textCell(QStringLiteral("Lumber")), moneyCell(Money::ofCents(100'000))}, {}, false}});
    table.sortBy(0);
    table.setFilter(QStringLiteral("e"));
    const auto text = plainText(table.paper(QStringLiteral("Receipts of June")));
    INFO(text);
    CHECK(text.find("Receipts of June") != std::string::npos);
    CHECK(text.find("Vendor  Amount, $\n<b>Steel</b>  \u221225.50\nLumber  1,000.00\n") != std::string::npos);
    CHECK(text.find("SUM") == std::string::npos);
    table.setFilter({});
    CHECK(plainText(table.paper(QStringLiteral("All"))).find("=SUM(A1)  \u2013") != std::string::npos);
}
