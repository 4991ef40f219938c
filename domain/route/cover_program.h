#pragma once

#include <cstdint>
#include <vector>

namespace strikeoff {

/// A choice of columns at least total cost: each item is in exactly one chosen column or left out at its own cost, and of each class at most so many
/// columns are chosen. The linear program of it (shares of columns) gives prices of items and classes; branch and bound over it the whole choice.
class CoverProgram {
public:
    /// Costs of leaving an item out, and how many columns of each class may be chosen.
    CoverProgram(std::vector<double> leftOutCosts, const std::vector<int>& classCounts);

    struct Column {
        std::vector<int> items;
        int klass = 0;
        double cost = 0;
    };
    void add(Column column) { columns_.push_back(std::move(column)), extra_.push_back(0), share_.push_back(0); }
    const std::vector<Column>& columns() const { return columns_; }

    /// Solves the linear program by the primal simplex method with an explicit inverse, from where it stood last. Returns its value.
    double solve();
    const std::vector<double>& itemPrices() const { return itemPrices_; }
    const std::vector<double>& classPrices() const { return classPrices_; }  ///< not above zero

    struct Choice {
        bool found = false;      ///< something cheaper than asked
        std::vector<int> columns;
        std::vector<int> leftOut;
        double cost = 0;
        bool complete = true;    ///< the search ended within its nodes
        double bound = 0;        ///< no choice costs less than this, or than what was asked for if that is less
    };
    /// The whole choice that costs least among those that cost at most `below` − 1 (costs are whole numbers).
    Choice choose(double below, int mostNodes, int mostTurns);
    int turns() const { return turns_; }  ///< steps of the simplex method so far

private:
    struct Branching;
    int rows() const { return items_ + classes_; }
    double costOf(int variable) const;
    void enter(int variable, int row, const std::vector<double>& step);
    void rebuild();
    std::vector<double> stepOf(int variable) const;
    void reckonPrices();
    double reducedOf(int variable) const;
    int nextToEnter();
    std::vector<int> rowsOf(int variable) const;

    int items_;
    int classes_;
    std::vector<double> leftOutCosts_;
    std::vector<double> leftOutExtra_;
    std::vector<double> sides_;
    std::vector<double> exactSides_;
    std::vector<Column> columns_;
    std::vector<double> extra_;  ///< what a column costs more because the branch forbids it
    std::vector<double> share_;
    std::vector<int> basis_;     ///< by row: a column, or −1 − row for the item left out or the class's spare
    std::vector<double> inverse_;
    std::vector<double> values_;
    std::vector<double> itemPrices_, classPrices_, prices_;
    std::vector<int> candidates_;
    double scale_ = 1;  ///< of the tolerance, by the size of the costs
    int sinceRebuilt_ = 0;
    int turns_ = 0;
};

}
