#include "app/application.h"
#include "app/paper_sample.h"

#include "paper/paper_layout.h"
#include "paper/papers.h"

#include <QFile>
#include <QImage>

#include <catch2/catch.hpp>

#include <map>

using namespace strikeoff;
using strikeoff::sample::Outfit;

namespace {

struct Laid {
    Laid(const PaperDocument& paper, const PaperFonts& fonts) : size{pageSizeOf(paper, fonts)}, pages{layOut(paper, size, fonts)} {}
    QSizeF size;
    std::vector<PaperPage> pages;

    QString text() const
    {
        QString all;
        for (const auto& page : pages) all += page.text();
        return all;
    }
};

const PaperFonts& fonts()
{
    test::application();
    static const PaperFonts made;
    return made;
}

/// All that stands on the pages lies between the margins; half a point for the thickness of lines and the ends of strokes.
void checkInside(const Laid& laid)
{
    const QRectF room{paperMargin, paperMargin, laid.size.width() - 2 * paperMargin, laid.size.height() - 2 * paperMargin};
    const auto roomy = room.adjusted(-points(0.5), -points(0.5), points(0.5), points(0.5));
    for (const auto& page : laid.pages)
        for (const auto& item : page.items) {
            const auto bounds = boundsOf(item, fonts());
            const auto* text = std::get_if<PlacedText>(&item);
            INFO((text ? text->text : QStringLiteral("no text")).toStdString() << " at " << bounds.left() << ", " << bounds.top() << " to " << bounds.right() << ", " << bounds.bottom());
            CHECK(bounds.left() >= roomy.left());
            CHECK(bounds.right() <= roomy.right());
            CHECK(bounds.top() >= roomy.top());
            CHECK(bounds.bottom() <= roomy.bottom());
        }
}

/// Letters and digits of a text in order, blanks left out: what wrapping may not change.
QString letters(const QString& text)
{
    QString kept;
    for (const auto c : text)
        if (!c.isSpace()) kept += c;
    return kept;
}

std::string words(int count)
{
    std::string text;
    for (int i = 0; i < count; ++i) text += (i ? " " : "") + std::string{"word"} + std::to_string(i);
    return text;
}

PaperTable table(int rows)
{
    PaperTable made;
    made.columns = {{"Name"}, {"Amount, $", PaperSide::right}};
    for (int i = 0; i < rows; ++i) made.rows.push_back({{"Row " + std::to_string(i), Money::ofCents(i * 977).shown()}, {}, PaperRowManner::plain});
    return made;
}

std::vector<PlacedText> textsOf(const PaperPage& page)
{
    std::vector<PlacedText> all;
    for (const auto& item : page.items)
        if (const auto* text = std::get_if<PlacedText>(&item)) all.push_back(*text);
    return all;
}

bool stands(const PaperPage& page, const QString& text)
{
    for (const auto& placed : textsOf(page))
        if (placed.text == text) return true;
    return false;
}

}

TEST_CASE("every paper stands between its margins, on letter and on A4", "[paper]")
{
    Outfit outfit;
    for (const auto size : {PaperSize::letter, PaperSize::a4}) {
        auto settings = outfit.book.settings();
        settings.paper = size;
        outfit.book.put(rowOf(settings));
        const auto day = sample::day(2026, 7, 10);
        for (const auto& paper : {quotePaper(outfit.book, outfit.book.get(outfit.quote)), invoicePaper(outfit.book, outfit.book.get(outfit.invoice), day),
                                  changeOrderPaper(outfit.book, outfit.book.get(outfit.change)), creditPaper(outfit.book, outfit.book.get(outfit.credit)),
                                  accountPaper(outfit.book, outfit.book.get(outfit.customer), day)}) {
            const Laid laid{paper, fonts()};
            // ANSI Letter is 8.5 by 11 in, ISO 216 A4 210 by 297 mm.
            CHECK(laid.size.width() == Approx(size == PaperSize::letter ? 8.5 * 1200 : 210 / 25.4 * 1200).epsilon(0.001));
            CHECK(laid.size.height() == Approx(size == PaperSize::letter ? 11 * 1200 : 297 / 25.4 * 1200).epsilon(0.001));
            checkInside(laid);
            CHECK(stands(laid.pages.back(), QStringLiteral("Page %1 of %1").arg(laid.pages.size())));
        }
    }
}

TEST_CASE("a long text goes on from page to page and loses nothing", "[paper]")
{
    PaperDocument paper;
    const auto text = words(4000);
    paper.add(PaperParagraph{text});
    const Laid laid{paper, fonts()};
    CHECK(laid.pages.size() > 2);
    checkInside(laid);
    QString set;
    for (const auto& page : laid.pages)
        for (const auto& placed : textsOf(page))
            if (!placed.text.startsWith(QStringLiteral("Page "))) set += placed.text;
    CHECK(letters(set) == letters(QString::fromStdString(text)));
    CHECK(stands(laid.pages.front(), QStringLiteral("Page 1 of %1").arg(laid.pages.size())));
}

TEST_CASE("a word longer than the line is broken, in a paragraph and in a table", "[paper]")
{
    const std::string endless(600, 'm');
    PaperDocument paper;
    paper.add(PaperParagraph{endless});
    PaperTable rows = table(1);
    rows.rows.push_back({{endless, "1.00"}, endless, PaperRowManner::plain});
    rows.rows.push_back({{"short", std::string(300, '9')}, {}, PaperRowManner::plain});
    rows.totals = {{endless, std::string(200, '8'), true}};
    paper.add(rows);
    paper.add(PaperFigures{{{endless, endless, true}, {"Due", "now", false}}});
    paper.add(PaperParties{{{"For", {endless}}, {endless, {"x"}}}});
    paper.add(PaperHeading{endless, {endless}, {}, endless, {{endless, endless, true}}, endless});
    paper.add(PaperSignatures{endless, {endless}});
    const Laid laid{paper, fonts()};
    checkInside(laid);
    CHECK(laid.text().count(u'm') >= 600 * 16);
    CHECK(laid.text().count(u'9') >= 300);
    CHECK(laid.text().count(u'8') >= 200);
}

TEST_CASE("a table repeats its headings on every page and keeps its totals together", "[paper]")
{
    for (int rows = 30; rows < 90; ++rows) {
        PaperDocument paper;
        auto long_ = table(rows);
        long_.totals = {{"Sum", "1.00", false}, {"Tax", "2.00", false}, {"In all", "$3.00", true}};
        paper.add(long_);
        const Laid laid{paper, fonts()};
        int found = 0, totals = 0;
        for (const auto& page : laid.pages) {
            CHECK(stands(page, QStringLiteral("Amount, $")));
            for (const auto& text : textsOf(page)) found += text.text.startsWith(QStringLiteral("Row "));
            if (stands(page, QStringLiteral("Sum"))) {
                ++totals;
                CHECK(stands(page, QStringLiteral("In all")));
                CHECK(stands(page, QStringLiteral("Row %1").arg(rows - 1)));
            }
        }
        CHECK(found == rows);
        CHECK(totals == 1);
    }
}

TEST_CASE("a heading never stands alone at the foot of a page", "[paper]")
{
    for (int lines = 30; lines < 60; ++lines) {
        PaperDocument paper;
        std::string text;
        for (int i = 0; i < lines; ++i) text += "line\n";
        paper.add(PaperParagraph{text});
        paper.addSection("Heading", "What it says");
        paper.add(PaperSection{"Second"});
        paper.add(table(3));
        const Laid laid{paper, fonts()};
        for (const auto& page : laid.pages) {
            CHECK(stands(page, QStringLiteral("Heading")) == stands(page, QStringLiteral("What it says")));
            CHECK(stands(page, QStringLiteral("Second")) <= stands(page, QStringLiteral("Row 0")));
        }
    }
}

TEST_CASE("a last page of a few lines is saved by setting the paper closer, one of more is not", "[paper]")
{
    // Sections of one line each: what goes over the page's end is in the rooms between them.
    const auto paperOf = [](int sections) {
        PaperDocument paper;
        for (int i = 0; i < sections; ++i) paper.addSection("Heading " + std::to_string(i), "What it says");
        return paper;
    };
    int fitting = 1;
    while (Laid{paperOf(fitting + 1), fonts()}.pages.size() == 1) ++fitting;
    const auto gapOf = [](const Laid& laid) {
        double first = 0, second = 0;
        for (const auto& item : laid.pages.front().items)
            if (const auto* text = std::get_if<PlacedText>(&item)) {
                if (text->text == QStringLiteral("Heading 0")) first = text->at.y();
                if (text->text == QStringLiteral("Heading 1")) second = text->at.y();
            }
        return second - first;
    };
    const Laid loose{paperOf(2), fonts()}, closest{paperOf(fitting), fonts()}, over{paperOf(fitting + 1), fonts()};
    CHECK(gapOf(closest) < gapOf(loose));                  // brought onto one page
    CHECK(gapOf(over) == Approx(gapOf(loose)));            // could not be, and is set as always
    CHECK(over.pages.size() == 2);
    const Laid long_{paperOf(fitting * 3 / 2), fonts()};  // half a page over
    CHECK(long_.pages.size() == 2);
    CHECK(gapOf(long_) == Approx(gapOf(loose)));
    for (const auto* laid : {&loose, &closest, &over, &long_}) checkInside(*laid);
}

TEST_CASE("a row higher than a page goes on on the next one", "[paper]")
{
    PaperDocument paper;
    auto tall = table(1);
    tall.rows.push_back({{words(1500), "5.00"}, words(900), PaperRowManner::plain});
    paper.add(tall);
    const Laid laid{paper, fonts()};
    CHECK(laid.pages.size() > 1);
    checkInside(laid);
    CHECK(laid.text().contains(QStringLiteral("word1499")));
    CHECK(laid.text().contains(QStringLiteral("word899")));
}

TEST_CASE("figures of a column end at one line, all digits as wide as one another", "[paper]")
{
    PaperDocument paper;
    paper.add(table(20));
    const Laid laid{paper, fonts()};
    std::map<int, int> ends;
    for (const auto& text : textsOf(laid.pages.front()))
        if (text.text.contains(u'.') && !text.text.contains(u'P')) ++ends[qRound(text.at.x() + text.width)];
    REQUIRE(ends.size() == 1);
    CHECK(ends.begin()->second == 20);
    for (char digit = '1'; digit <= '9'; ++digit)
        CHECK(fonts().width(PaperStyle::body, QString{QLatin1Char{digit}}) == Approx(fonts().width(PaperStyle::body, QStringLiteral("0"))));
}

TEST_CASE("a list too wide to be read upright turns sideways", "[paper]")
{
    const Settings settings;
    std::vector<PaperColumn> narrow{{"No."}, {"Customer"}};
    CHECK(Laid{tablePaper(settings, "Jobs", {}, narrow, {{{"1001", "A name"}, {}, PaperRowManner::plain}}), fonts()}.size.width() == Approx(8.5 * 1200));
    std::vector<PaperColumn> wide;
    PaperRow row;
    for (int i = 0; i < 12; ++i) {
        wide.push_back({"Heading " + std::to_string(i)});
        row.cells.push_back("A text of some length");
    }
    const Laid laid{tablePaper(settings, "Jobs", {}, wide, std::vector<PaperRow>(500, row)), fonts()};
    CHECK(laid.size.width() == Approx(11 * 1200));
    checkInside(laid);
    CHECK(laid.text().count(QStringLiteral("some")) == 500 * 12);
}

TEST_CASE("a logo stands over the name; one that is missing or broken leaves the name alone", "[paper]")
{
    test::application();
    const QTemporaryDir folder;
    const auto file = [&](const char* name) { return folder.filePath(QLatin1String{name}); };
    QImage image{300, 120, QImage::Format_ARGB32};
    image.fill(Qt::black);
    REQUIRE(image.save(file("logo.png")));
    REQUIRE(image.convertToFormat(QImage::Format_RGB32).save(file("logo.jpg")));
    const auto write = [&](const char* name, const QByteArray& bytes) {
        QFile out{file(name)};
        REQUIRE(out.open(QIODevice::WriteOnly));
        out.write(bytes);
    };
    write("logo.svg", "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 50 20'><path d='M0 0L50 20'/></svg>");
    write("torn.svg", "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 50 20'><path");
    write("torn.png", "\x89PNG\r\n\x1a\nnothing of the sort");
    write("blank.svg", "<svg xmlns='http://www.w3.org/2000/svg' width='0' height='0'/>");

    Outfit outfit;
    const auto laidWith = [&](const QString& logo) {
        auto settings = outfit.book.settings();
        settings.logo = logo.toStdString();
        outfit.book.put(rowOf(settings));
        return Laid{quotePaper(outfit.book, outfit.book.get(outfit.quote)), fonts()};
    };
    for (const auto* name : {"logo.png", "logo.jpg", "logo.svg"}) {
        INFO(name);
        const auto laid = laidWith(file(name));
        REQUIRE(std::holds_alternative<PlacedPicture>(laid.pages.front().items.front()));
        const auto place = std::get<PlacedPicture>(laid.pages.front().items.front()).place;
        CHECK(place.width() / place.height() == Approx(2.5).epsilon(0.01));
        CHECK(stands(laid.pages.front(), QStringLiteral("Wrenfield Flatwork")));
        checkInside(laid);
    }
    for (const auto* name : {"missing.png", "torn.svg", "torn.png", "blank.svg", "."}) {
        INFO(name);
        const auto laid = laidWith(file(name));
        CHECK_FALSE(std::holds_alternative<PlacedPicture>(laid.pages.front().items.front()));
        CHECK(stands(laid.pages.front(), QStringLiteral("Wrenfield Flatwork")));
    }
}

TEST_CASE("shapes of any size are drawn inside the margins, all at one scale", "[paper]")
{
    const auto shapes = [](std::vector<std::pair<double, double>> sizes) {
        PaperPlan plan;
        for (const auto& [width, height] : sizes) {
            PlanShape shape;
            shape.name = "Slab of some name";
            shape.outline = {{0, 0}, {width, 0}, {width, height}, {0, height}};
            shape.dimensions = {{{0, 0}, {width, 0}, "the width", true}, {{0, height}, {0, 0}, "the height", true}};
            plan.shapes.push_back(shape);
        }
        PaperDocument paper;
        paper.add(plan);
        return paper;
    };
    const auto drawn = [](const Laid& laid) {
        std::vector<QRectF> all;
        for (const auto& page : laid.pages)
            for (const auto& item : page.items)
                if (const auto* shape = std::get_if<PlacedShape>(&item)) all.push_back(shape->outline.boundingRect());
        return all;
    };
    for (const auto& sizes : std::vector<std::vector<std::pair<double, double>>>{
             {{40, 10}, {5, 5}, {12, 22}}, {{0.5, 0.5}}, {{5000, 3}}, {{3, 5000}}, std::vector<std::pair<double, double>>(40, {18, 24}), {{400, 2}, {1, 1}}}) {
        const Laid laid{shapes(sizes), fonts()};
        checkInside(laid);
        const auto rectangles = drawn(laid);
        REQUIRE(rectangles.size() == sizes.size());
        const double scale = rectangles[0].width() / sizes[0].first;
        for (std::size_t i = 0; i < sizes.size(); ++i) {
            CHECK(rectangles[i].width() == Approx(sizes[i].first * scale));
            CHECK(rectangles[i].height() == Approx(sizes[i].second * scale));
        }
    }
    // 40 ft by 10 ft with room to spare: the bar's inch stands for so many feet as the shape has to its own inches.
    const Laid one{shapes({{40, 10}}), fonts()};
    const double feetPerInch = 40 / (drawn(one).front().width() / dotsPerInch);
    CHECK(stands(one.pages.front(), QString::number(feetPerInch) + QStringLiteral(" ft along this bar")));
}
