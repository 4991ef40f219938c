#pragma once

#include <QWidget>

#include "desk.h"

class QLabel;

namespace strikeoff {

class RecordTable;
struct PaceSeasons;
struct PriceSeasons;

/// The figures behind the pictures of the seasons: what to carry and what open quotes carry, the months, the effects with their intervals, pace by phase, type,
/// crew and temperature, suppliers on the same loads, and in words how it is reckoned.
class SeasonsDetail : public QObject {
    Q_OBJECT
public:
    explicit SeasonsDetail(Desk& desk, QWidget* parent);

    QWidget* carryView() const { return carryView_; }
    QWidget* methodView() const { return methodView_; }
    RecordTable* carryTable() const { return carry_; }
    RecordTable* monthsTable() const { return months_; }

    void show(const PriceSeasons& prices, const PaceSeasons& pace);

private:
    void showCarry(const PriceSeasons& prices);
    void showMonths(const PriceSeasons& prices, const PaceSeasons& pace);
    void showEffects(const PriceSeasons& prices, const PaceSeasons& pace);
    void showPace(const PaceSeasons& pace);

    Desk& desk_;
    QWidget* carryView_;
    QWidget* methodView_;
    QLabel* carryWords_;
    QLabel* method_;
    RecordTable* carry_;
    RecordTable* quotes_;
    RecordTable* suppliers_;
    RecordTable* months_;
    RecordTable* effects_;
    RecordTable* pace_;
};

}
