#pragma once

#include <array>
#include <cstdint>
#include <vector>

namespace strikeoff {

/// A choice of columns at least total cost: each item is in exactly one chosen column or left out at its own cost, and of each class at most so many
/// columns are chosen. The linear program of it (shares of columns) gives prices of items and classes; branch and cut over it the whole choice.
class CoverProgram {
public:
    /// Costs of leaving an item out, and how many columns of each class may be chosen.
    CoverProgram(std::vector<double> leftOutCosts, const std::vector<int>& classCounts);

    struct Column {
        std::vector<int> items;  ///< sorted
        int klass = 0;
        double cost = 0;
    };
    void add(Column column);
    const std::vector<Column>& columns() const { return columns_; }

    /// Solves the linear program by the primal simplex method with an explicit inverse, from where it stood last. Returns its value.
    double solve();
    const std::vector<double>& itemPrices() const { return itemPrices_; }
    const std::vector<double>& classPrices() const { return classPrices_; }  ///< not above zero
    double leftOutNumber() const;  ///< of items, in shares
    /// Lets every left out item cost so much more, or less, in the next solve().
    void setLeftOutExtra(double extra) { leftOutExtra_ = extra; }
    double reducedCost(int column) const { return reducedOf(column); }  ///< what it costs beyond the prices of the last solution
    /// What the last solution rests on, by row (items, then classes): a column, or below zero the row's own item left out or spare of a class.
    const std::vector<int>& basis() const { return basis_; }
    /// Lets the next solve() begin there.
    void startAt(std::vector<int> basis);

    struct Choice {
        bool found = false;      ///< something cheaper than asked
        std::vector<int> columns;
        std::vector<int> leftOut;
        double cost = 0;
        bool complete = true;    ///< the search ended within its nodes
        double bound = 0;        ///< no choice costs less than this, or than what was asked for if that is less
        std::vector<int> likely; ///< columns apart from each other that the linear program likes, whatever else they leave out
    };
    /// The whole choice that costs least among those that cost at most `below` − 1 (costs are whole numbers): branch and bound by the dual simplex
    /// method, with cuts over three items, of which at most one column can hold two (Jepsen and others, Operations Research 56, 2008). The program
    /// is of no use for anything else afterwards.
    Choice choose(double below, int mostNodes, int mostTurns);
    int turns() const { return turns_; }  ///< steps of the simplex method so far

private:
    struct Branching;
    struct Stand {
        std::vector<int> basis;
        std::vector<double> inverse, values, sides, signs;
    };
    static constexpr double tolerance = 1e-7;
    static std::size_t at(int index) { return static_cast<std::size_t>(index); }

    int rows() const { return static_cast<int>(exactSides_.size()); }
    double costOf(int variable) const;
    bool isForbidden(int variable) const;
    double sumOver(const std::vector<double>& byRow, int variable) const;
    void enter(int variable, int row, const std::vector<double>& step);
    void rebuild();
    std::vector<double> stepOf(int variable) const;
    void reckonPrices();
    double reducedOf(int variable) const;
    int nextToEnter();
    void readShares();

    void useExactSides();
    double again(double enough, int lastTurn);
    int turnsOfSize() const;
    int entering(int row, bool isAbove);
    bool holdsTwo(int column, const std::array<int, 3>& cut) const;
    void addCut(const std::array<int, 3>& cut);
    void addSpareRow();
    std::vector<std::array<int, 3>> violated() const;
    Stand stand() const { return {basis_, inverse_, values_, sides_, signs_}; }
    void reckonValues();
    void atMost(int row, double side);
    void atLeast(int row, double side);
    void turnSpare(int row, double side);
    void restore(const Stand& stand);

    int items_;
    int classes_;
    std::vector<double> leftOutCosts_;
    double leftOutExtra_ = 0;
    std::vector<double> sides_;
    std::vector<double> exactSides_;
    std::vector<Column> columns_;
    std::vector<std::vector<int>> rowsOf_;  ///< by column: its items, its class, the cuts it is in
    std::vector<std::array<int, 3>> cuts_;
    std::vector<char> forbidden_;           ///< by column: not allowed in this branch
    std::vector<char> spareForbidden_;      ///< by row of items and classes: the item may not be left out, the class has none to spare
    std::vector<double> signs_;             ///< by row: 1, or −1 where a class has more than its side instead of less
    std::vector<double> share_;
    std::vector<int> basis_;     ///< by row: a column, or −1 − row for the item left out or the spare of a class or cut
    std::vector<double> inverse_;
    std::vector<double> values_;
    std::vector<double> itemPrices_, classPrices_, prices_;
    std::vector<double> reduced_, along_;  ///< by column, for the dual method
    std::vector<int> active_;              ///< columns not forbidden, for the dual method
    std::vector<int> candidates_;
    double scale_ = 1;  ///< of the tolerance, by the size of the costs
    int sinceRebuilt_ = 0;
    int turns_ = 0;
};

}
