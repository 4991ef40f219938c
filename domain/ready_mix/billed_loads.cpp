#include "ready_mix/billed_loads.h"

#include "quantity/letters.h"
#include "ready_mix/codes.h"
#include "ready_mix/expected_charge.h"

#include <array>

namespace strikeoff {

namespace {

constexpr Money none;

bool sameCharge(const StatementLine& a, const StatementLine& b)
{
    return sameCode(a.code, b.code) && a.description == b.description && (a.amount < none) == (b.amount < none);
}

/// "14" of "4000 psi, truck 14".
std::string_view truckIn(std::string_view text)
{
    constexpr std::string_view word = "ruck ";
    const auto found = text.find(word);
    if (found == std::string_view::npos || found == 0) return {};
    const auto begin = text.find_first_not_of(" #", found + word.size());
    if (begin == std::string_view::npos) return {};
    auto end = begin;
    while (end < text.size() && (isDigit(text[end]) || (lowered(text[end]) >= 'a' && lowered(text[end]) <= 'z'))) ++end;
    return text.substr(begin, end - begin);
}

class Loads {
public:
    Loads(Id<Supplier> supplier, const MixCodes& mixes, std::size_t lines) : supplier_{supplier}, mixes_{mixes}
    {
        loads_.reserve(lines);
        newest_.reserve(lines);
    }

    void add(const StatementLine& line)
    {
        const bool goesOn = !loads_.empty() && line.ticketNumber == printed_ && line.date == date_;
        printed_ = line.ticketNumber;
        date_ = line.date;
        if (!goesOn) current_ = loadOf(line);
        else if (line.ticketNumber.empty() && loads_[current_].mix.empty()) current_ = begun({}, line.date);
        if (repeats(line, goesOn)) {
            current_ = begun(loads_[current_].number, line.date);
            if (!loads_[current_].number.empty()) newest_[key(loads_[current_])] = current_;
        }
        auto& load = loads_[current_];
        load.lines.push_back(&line);
        if (line.amount >= none) load.creditOnly = false;
        if (load.truck.empty()) load.truck = truckIn(line.description);
        readMix(load, line);
    }

    std::vector<BilledLoad> taken() { return std::move(loads_); }

private:
    static std::string key(const BilledLoad& load)
    {
        auto key = load.number;
        if (load.date) {
            const auto day = static_cast<unsigned>(load.date->days());
            key += {'@', static_cast<char>(day & 0xff), static_cast<char>(day >> 8 & 0xff), static_cast<char>(day >> 16 & 0xff)};
        }
        return key;
    }

    std::size_t begun(std::string number, std::optional<Date> date)
    {
        BilledLoad load;
        load.number = std::move(number);
        load.date = date;
        loads_.push_back(std::move(load));
        return loads_.size() - 1;
    }

    std::size_t loadOf(const StatementLine& line)
    {
        if (line.ticketNumber.empty()) return begun({}, line.date);
        const auto fresh = begun(comparableNumber(line.ticketNumber), line.date);
        const auto [found, isNew] = newest_.emplace(key(loads_[fresh]), fresh);
        if (!isNew) loads_.pop_back();
        return found->second;
    }

    bool isMix(const StatementLine& line)
    {
        if (line.amount < none || line.code.empty()) return false;
        if (line.code != askedCode_) {  // lines of one code follow each other
            askedCode_ = line.code;
            askedIsMix_ = mixes_.isMix(supplier_, lowered(line.code));
        }
        return askedIsMix_;
    }

    /// Whether the load has this charge already, or a mix where this is one. Right behind it, it may be one charge on two lines.
    bool repeats(const StatementLine& line, bool goesOn)
    {
        const auto& lines = loads_[current_].lines;
        if (lines.empty() || (goesOn && sameCharge(*lines.back(), line))) return false;
        if (!loads_[current_].mix.empty() && isMix(line)) return true;
        return std::any_of(lines.begin(), lines.end(), [&](const auto* other) { return sameCharge(*other, line); });
    }

    void readMix(BilledLoad& load, const StatementLine& line)
    {
        if (line.amount < none || !line.quantity) return;
        if (isMix(line)) {
            const bool more = !load.mix.empty() && sameCode(load.mix, line.code) && load.yards;
            const auto yards = Yards::ofUnits(line.quantity->units());
            load.yards = more ? *load.yards + yards : yards;
            load.mix = line.code;
        } else if (load.mix.empty() && !load.yards && isYardUnit(line.unit) && load.lines.size() == 1) {
            load.yards = Yards::ofUnits(line.quantity->units());  // the first line in yards is the concrete
        }
    }

    Id<Supplier> supplier_;
    const MixCodes& mixes_;
    std::vector<BilledLoad> loads_;
    std::unordered_map<std::string, std::size_t> newest_;  ///< of a number and day
    std::string_view printed_;
    std::optional<Date> date_;
    std::size_t current_ = 0;
    std::string_view askedCode_;
    bool askedIsMix_ = false;
};

}

MixCodes::MixCodes(const Book& book)
{
    for (const auto& charge : book.all<SheetCharge>())
        if (charge.charge == ChargeKind::mix) codes_[charge.supplier.value()].insert(lowered(charge.code));
}

bool MixCodes::isMix(Id<Supplier> supplier, const std::string& code) const
{
    const auto found = codes_.find(supplier.value());
    return found != codes_.end() && found->second.contains(code);
}

std::vector<BilledLoad> billedLoads(const std::vector<const StatementLine*>& lines, Id<Supplier> supplier, const MixCodes& mixes)
{
    Loads loads{supplier, mixes, lines.size()};
    for (const auto* line : lines)
        if (!line->ticket && !line->leaveUnpaired) loads.add(*line);
    return loads.taken();
}

bool isYardUnit(std::string_view unit)
{
    constexpr std::array<std::string_view, 9> units{"yd", "yds", "yd3", "cy", "yard", "yards", "yd\u00b3", "cu yd", "cuyd"};
    auto plain = lowered(unit);
    while (!plain.empty() && (plain.back() == '.' || plain.back() == ' ')) plain.pop_back();
    return std::find(units.begin(), units.end(), plain) != units.end();
}

}
