#include "paper/paper_layout.h"

#include "paper/paper_flow.h"

#include <QFileInfo>
#include <QImageReader>
#include <QPageSize>
#include <QSvgRenderer>
#include <QTransform>

#include <algorithm>
#include <array>

namespace strikeoff {

namespace {

constexpr qint64 mostBytesOfPicture = 16 << 20;
constexpr double fewLines = 0.35;  // of a page
constexpr std::array closerSettings{Setting{0.85, 2.8 * dotsPerInch}, Setting{0.7, 2.4 * dotsPerInch}, Setting{0.55, 2.0 * dotsPerInch}};
constexpr int mostDotsOfPicture = 1600;  // along the longer side: some 700 to the inch as it is printed

/// Cuts what is higher than a page where no line of text is cut through.
std::pair<Chunk, Chunk> cut(const Chunk& chunk, double height, const PaperFonts& fonts)
{
    double at = height;
    for (bool moved = true; moved;) {
        moved = false;
        for (const auto& item : chunk.items) {
            const auto bounds = boundsOf(item, fonts);
            if (std::holds_alternative<PlacedText>(item) && bounds.top() < at && bounds.bottom() > at && bounds.top() > height / 2) {
                at = bounds.top();
                moved = true;
            }
        }
    }
    Chunk upper, lower;
    upper.height = at;
    upper.before = chunk.before;
    upper.repeat = chunk.repeat;
    lower.height = chunk.height - at;
    lower.keepWithNext = chunk.keepWithNext;
    lower.repeat = chunk.repeat;
    const auto shift = [](Placed item, double by) {
        std::visit([by](auto& placed) {
            using Kind = std::decay_t<decltype(placed)>;
            if constexpr (std::is_same_v<Kind, PlacedText>) placed.at.ry() += by;
            else if constexpr (std::is_same_v<Kind, PlacedLine>) placed.line.translate(0, by);
            else if constexpr (std::is_same_v<Kind, PlacedShape>) placed.outline.translate(0, by);
            else placed.place.translate(0, by);
        }, item);
        return item;
    };
    for (const auto& item : chunk.items) {
        const auto bounds = boundsOf(item, fonts);
        if (bounds.top() >= at) {
            lower.items.push_back(shift(item, -at));
        } else if (const auto* box = std::get_if<PlacedShape>(&item); box && bounds.bottom() > at) {
            // A box or a stroke between columns goes on on the next page.
            const QRectF over{bounds.left(), bounds.top(), bounds.width(), at - bounds.top()};
            const QRectF under{bounds.left(), 0, bounds.width(), bounds.bottom() - at};
            upper.items.push_back(PlacedShape{QPolygonF{over}, box->thickness, box->hatched});
            lower.items.push_back(PlacedShape{QPolygonF{under}, box->thickness, box->hatched});
        } else if (const auto* stroke = std::get_if<PlacedLine>(&item); stroke && bounds.bottom() > at) {
            const double x = bounds.left();
            upper.items.push_back(PlacedLine{QLineF{x, bounds.top(), x, at}, stroke->thickness, stroke->dashed});
            lower.items.push_back(PlacedLine{QLineF{x, 0, x, bounds.bottom() - at}, stroke->thickness, stroke->dashed});
        } else {
            upper.items.push_back(item);
        }
    }
    return {std::move(upper), std::move(lower)};
}

/// Puts chunks on pages one under the other.
class Pages {
public:
    Pages(QSizeF page, double footer, double gaps, const PaperFonts& fonts) : fonts_{&fonts}, bottom_{page.height() - paperMargin - footer}, gaps_{gaps} { begin(); }

    void put(const std::vector<Chunk>& chunks)
    {
        for (std::size_t i = 0; i < chunks.size(); ++i) {
            if (!atTop_ && y_ + gaps_ * chunks[i].before + together(chunks, i) > bottom_) {
                begin();
                if (chunks[i].repeat) place(*chunks[i].repeat);
                atTop_ = true;
            }
            putWhole(chunks[i]);
        }
    }

    std::vector<PaperPage>& pages() { return pages_; }
    /// How much of the last page is used, 0 to 1.
    double lastFilled() const { return (y_ - paperMargin) / (bottom_ - paperMargin); }

private:
    void begin()
    {
        pages_.emplace_back();
        y_ = paperMargin;
        atTop_ = true;
    }

    /// Height of a chunk with those that must not be parted from it, or only its own where they would not go on one page.
    double together(const std::vector<Chunk>& chunks, std::size_t from) const
    {
        double height = chunks[from].height;
        for (auto i = from; chunks[i].keepWithNext && i + 1 < chunks.size(); ++i) {
            height += gaps_ * chunks[i + 1].before + chunks[i + 1].height;
            if (height > bottom_ - paperMargin) return chunks[from].height;
        }
        return height;
    }

    void putWhole(const Chunk& chunk)
    {
        const double room = bottom_ - y_;
        if (atTop_ && chunk.height > room && room > points(72)) {
            const auto [upper, lower] = cut(chunk, room, *fonts_);
            place(upper);
            begin();
            putWhole(lower);
            return;
        }
        if (!atTop_) y_ += gaps_ * chunk.before;
        place(chunk);
    }

    void place(const Chunk& chunk)
    {
        for (auto item : chunk.items) {
            std::visit([this](auto& placed) {
                using Kind = std::decay_t<decltype(placed)>;
                if constexpr (std::is_same_v<Kind, PlacedText>) placed.at += QPointF{paperMargin, y_};
                else if constexpr (std::is_same_v<Kind, PlacedLine>) placed.line.translate(paperMargin, y_);
                else if constexpr (std::is_same_v<Kind, PlacedShape>) placed.outline.translate(paperMargin, y_);
                else placed.place.translate(paperMargin, y_);
            }, item);
            pages_.back().items.push_back(std::move(item));
        }
        y_ += chunk.height;
        atTop_ = false;
    }

    const PaperFonts* fonts_;
    double bottom_;
    double gaps_;
    double y_ = 0;
    bool atTop_ = true;
    std::vector<PaperPage> pages_;
};

QSizeF uprightSize(PaperSize size)
{
    const QPageSize page{size == PaperSize::a4 ? QPageSize::A4 : QPageSize::Letter};
    return page.size(QPageSize::Point) * dotsPerPoint;
}

}

std::shared_ptr<const PaperPicture> readPicture(const std::string& path)
{
    if (path.empty()) return nullptr;
    const auto name = QString::fromStdString(path);
    const QFileInfo file{name};
    if (!file.isFile() || file.size() > mostBytesOfPicture) return nullptr;
    auto picture = std::make_shared<PaperPicture>();
    if (file.suffix().compare(QStringLiteral("svg"), Qt::CaseInsensitive) == 0) {
        picture->drawing = std::make_shared<QSvgRenderer>(name);
        if (!picture->drawing->isValid()) return nullptr;
        picture->size = picture->drawing->viewBoxF().isEmpty() ? QSizeF{picture->drawing->defaultSize()} : picture->drawing->viewBoxF().size();
    } else {
        QImageReader reader{name};
        reader.setDecideFormatFromContent(true);
        reader.setAutoTransform(true);
        picture->image = reader.read();
        if (picture->image.isNull()) return nullptr;
        if (std::max(picture->image.width(), picture->image.height()) > mostDotsOfPicture)
            picture->image = picture->image.scaled(mostDotsOfPicture, mostDotsOfPicture, Qt::KeepAspectRatio, Qt::SmoothTransformation);
        picture->size = picture->image.size();
    }
    return picture->size.isEmpty() ? nullptr : picture;
}

QRectF boundsOf(const Placed& item, const PaperFonts& fonts)
{
    return std::visit([&fonts](const auto& placed) {
        using Kind = std::decay_t<decltype(placed)>;
        if constexpr (std::is_same_v<Kind, PlacedText>) {
            const QRectF upright{0, -fonts.ascent(placed.style), placed.width, fonts.ascent(placed.style) + fonts.descent(placed.style)};
            return QTransform{}.translate(placed.at.x(), placed.at.y()).rotate(placed.turn).mapRect(upright);
        } else if constexpr (std::is_same_v<Kind, PlacedLine>) {
            return QRectF{placed.line.p1(), placed.line.p2()}.normalized();
        } else if constexpr (std::is_same_v<Kind, PlacedShape>) {
            return placed.outline.boundingRect();
        } else {
            return placed.place;
        }
    }, item);
}

QString PaperPage::text() const
{
    QString all;
    for (const auto& item : items)
        if (const auto* text = std::get_if<PlacedText>(&item)) all += text->text + u'\n';
    return all;
}

bool isSideways(const PaperDocument& document, const PaperFonts& fonts)
{
    if (document.turn != PaperTurn::asNeeded) return document.turn == PaperTurn::sideways;
    const double width = uprightSize(document.size).width() - 2 * paperMargin;
    return std::any_of(document.blocks.begin(), document.blocks.end(), [&](const PaperBlock& block) {
        const auto* table = std::get_if<PaperTable>(&block);
        return table && columnWidths(*table, width, fonts).wanted > width;
    });
}

QSizeF pageSizeOf(const PaperDocument& document, const PaperFonts& fonts)
{
    const auto upright = uprightSize(document.size);
    return isSideways(document, fonts) ? upright.transposed() : upright;
}

std::vector<PaperPage> layOut(const PaperDocument& document, QSizeF page, const PaperFonts& fonts)
{
    page = page.expandedTo(QSizeF{2 * paperMargin + 2 * dotsPerInch, 2 * paperMargin + 2 * dotsPerInch});
    const double width = page.width() - 2 * paperMargin;
    const double footer = fonts.leading(PaperStyle::small) + points(14);
    const auto set = [&](Setting setting) {
        Composer composer{fonts, width, setting};
        for (const auto& block : document.blocks) std::visit(composer, block);
        Pages flow{page, footer, setting.gaps, fonts};
        flow.put(composer.chunks());
        return flow;
    };
    auto flow = set({});
    // A last page of a few lines is saved by setting the paper closer, where that is enough.
    if (flow.pages().size() > 1 && flow.lastFilled() < fewLines)
        for (const auto& closer : closerSettings)
            if (auto tried = set(closer); tried.pages().size() < flow.pages().size()) {
                flow = std::move(tried);
                break;
            }
    auto pages = std::move(flow.pages());

    const double top = page.height() - paperMargin - fonts.leading(PaperStyle::small);
    for (std::size_t i = 0; i < pages.size(); ++i) {
        const auto count = QStringLiteral("Page %1 of %2").arg(i + 1).arg(pages.size());
        const double countWidth = fonts.width(PaperStyle::small, count);
        const double y = top + fonts.baseline(PaperStyle::small);
        pages[i].items.push_back(PlacedLine{QLineF{paperMargin, top - points(3), paperMargin + width, top - points(3)}, hairline, false});
        const auto name = fonts.wrap(PaperStyle::small, settable(document.footer), width - countWidth - points(18));
        if (!name.empty() && !name.front().text.isEmpty()) {
            auto first = name.front();
            if (name.size() > 1) first.text += QChar{0x2026};
            pages[i].items.push_back(PlacedText{QPointF{paperMargin, y}, first.text, PaperStyle::small, fonts.width(PaperStyle::small, first.text), 0});
        }
        pages[i].items.push_back(PlacedText{QPointF{paperMargin + width - countWidth, y}, count, PaperStyle::small, countWidth, 0});
    }
    return pages;
}

}
