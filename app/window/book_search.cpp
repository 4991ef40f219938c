#include "window/book_search.h"

#include "labels.h"
#include "plain_words.h"

#include "quantity/letters.h"
#include "record/field_text.h"

#include <algorithm>

namespace strikeoff {

namespace {

/// Figures and days, which are found by their plain text.
bool decimalsOrDay(FieldType type)
{
    switch (type) {
    case FieldType::money:
    case FieldType::unitPrice:
    case FieldType::yards:
    case FieldType::date: return true;
    default: return false;
    }
}

/// What is looked at first when something is sought: people and jobs, then papers, then the small print.
constexpr RecordKind order[] = {RecordKind::customer, RecordKind::job, RecordKind::lead, RecordKind::site, RecordKind::quote, RecordKind::invoice, RecordKind::ticket,
    RecordKind::statement, RecordKind::payment, RecordKind::supplier, RecordKind::crewMember, RecordKind::pour, RecordKind::visit, RecordKind::receipt, RecordKind::changeOrder,
    RecordKind::claim, RecordKind::credit, RecordKind::takeoffSection, RecordKind::quoteLine, RecordKind::invoiceLine, RecordKind::statementLine, RecordKind::priceSheet,
    RecordKind::jobType, RecordKind::finishingProduct, RecordKind::overhead, RecordKind::hours, RecordKind::payRate, RecordKind::bonus, RecordKind::burdenRate, RecordKind::paymentShare, RecordKind::forecast, RecordKind::townDrive, RecordKind::settings};

}

std::vector<Found> searchBook(const Book& book, std::string_view words, std::size_t most)
{
    std::vector<std::string> wanted;
    for (const auto& word : qs(words).toLower().split(u' ', Qt::SkipEmptyParts)) wanted.push_back(utf8(word));
    std::vector<Found> found;
    if (wanted.empty()) return found;
    const bool figures = std::ranges::any_of(wanted, [](const auto& word) { return std::ranges::any_of(word, isDigit); });
    const std::size_t mostOfKind = std::max<std::size_t>(most / 4, 1);
    std::vector<bool> hit(wanted.size());
    for (const auto kindId : order) {
        const auto& kind = describe(kindId);
        std::size_t ofKind = 0;
        for (std::size_t i = book.count(kindId); i-- > 0 && ofKind < mostOfKind && found.size() < most;) {
            const auto* record = book.at(kindId, i);
            std::fill(hit.begin(), hit.end(), false);
            const Field* where = nullptr;
            std::string what;
            for (const auto& field : kind.fields) {
                const bool figure = decimalsOrDay(field.type);
                if (!field.isText() && !(figures && figure) && field.type != FieldType::reference) continue;
                auto text = field.type == FieldType::reference || figure ? fileText(book, kind, field, record) : std::string{};
                if (field.isText()) {
                    auto value = field.get(record);
                    if (auto* kept = std::get_if<std::string>(&value)) text = std::move(*kept);
                }
                if (text.empty()) continue;
                const auto low = inSmallLetters(text);
                for (std::size_t w = 0; w < wanted.size(); ++w) {
                    if (low.find(wanted[w]) == std::string::npos) continue;
                    hit[w] = true;
                    if (!where) {
                        where = &field;
                        what = text;
                    }
                }
            }
            if (!where || !std::ranges::all_of(hit, [](bool one) { return one; })) continue;
            found.push_back({{kindId, book.idAt(kindId, i)}, std::string{where->label}, std::move(what)});
            ++ofKind;
        }
    }
    return found;
}

}
