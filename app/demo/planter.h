#pragma once

#include "demo/statement_draft.h"

namespace strikeoff::demo {

enum class Plant {
    oldPrice, dearPrice, optionPrice, moreYards, notOnSheet, shortOnFull, waiting, optionNotSent, heatNotOrdered, saturday,
    arrivedCold, twice, twiceLater, noTicket, leftOut, lineSum, total, tax, swapped, missingDigit, lateDischarge, slump
};

/// Spoils statements. Each kind of fault is a function that looks at one load, spoils it and says so, or leaves it alone when it
/// does not fit.
class Planter {
public:
    Planter(World& world, std::vector<DraftStatement>& drafts) : world_{world}, drafts_{drafts} {}

    std::vector<FaultEvent> all();

private:
    bool plant(Plant what, std::size_t index);
    bool spoil(Plant what, std::size_t index, std::size_t place);

    // What they share.
    static DraftLine* lineOf(DraftLoad& load, ChargeKind kind);
    int open(std::size_t statement, const DraftLoad& load, std::string reason);
    void mark(DraftLine& line, const DraftLoad& load, int event, const char* finding, Money overSheet, Money comesBack,
        std::string what, bool follows = false);
    /// The tax of a load follows what was billed.
    void retax(DraftLoad& load, int event);
    std::string opening(const DraftLoad& load) const;
    void wholeFault(DraftStatement& draft, const char* finding, Money off, std::string what);
    const SheetCharge* onSheet(std::size_t supplier, Date date, ChargeKind kind, std::string_view code = {}) const;

    // One line of a load.
    bool price(std::size_t index, DraftLoad& load, bool old);
    bool optionPrice(std::size_t index, DraftLoad& load);
    bool moreYards(std::size_t index, DraftLoad& load);
    /// Adds a line before the tax of a load.
    DraftLine& insert(DraftLoad& load, DraftLine line);
    DraftLine charge(ChargeKind kind, std::string code, std::string words, Quantity quantity, const char* unit, UnitPrice price,
        bool taxable) const;
    bool addFault(std::size_t index, DraftLoad& load, DraftLine line, const char* finding, const std::string& what);
    bool notOnSheet(std::size_t index, DraftLoad& load);
    bool shortOnFull(std::size_t index, DraftLoad& load);
    bool waiting(std::size_t index, DraftLoad& load);
    bool optionNotSent(std::size_t index, DraftLoad& load);
    bool heatNotOrdered(std::size_t index, DraftLoad& load);
    bool saturday(std::size_t index, DraftLoad& load);
    bool arrivedCold(std::size_t index, DraftLoad& load);
    bool lineSum(std::size_t index, DraftLoad& load);
    bool taxRate(std::size_t index, DraftLoad& load);
    bool lateDischarge(std::size_t index, DraftLoad& load);
    bool slump(std::size_t index, DraftLoad& load);
    bool remark(std::size_t index, DraftLoad& load, const std::string& what);

    // Whole loads and their numbers.
    void repeat(std::size_t statement, std::size_t into, std::size_t at, DraftLoad copy, const std::string& what);
    bool twice(std::size_t index, std::size_t place);
    bool twiceLater(std::size_t index, DraftLoad& load);
    bool leftOut(std::size_t index, std::size_t place);
    /// Whether a number is at least two edits away from every ticket of the supplier but one.
    bool isFarFromOthers(std::size_t supplier, const std::string& number, const Ticket* own) const;
    bool mistype(std::size_t index, DraftLoad& load, bool swap);
    /// Two equal loads of one day, printed with a digit missing that makes one number of two: not checked yet, so that the owner still has to look.
    void cutOff();
    /// Another outfit's load, on a day without one of ours.
    bool noTicket(std::size_t index);

    World& world_;
    std::vector<DraftStatement>& drafts_;
    Random random_{12};
    std::vector<FaultEvent> events_;
    int fee_ = 0;
};

inline std::string shownYards(Yards yards) { return yards.text() + " yd\u00b3"; }
inline std::string dollars(Money money) { return "$" + money.shown(); }
inline std::string dollars(UnitPrice price) { return "$" + price.shown(); }

}
