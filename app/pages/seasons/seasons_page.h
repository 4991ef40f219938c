#pragma once

#include "page.h"

#include "season/scope.h"

class QComboBox;
class QGridLayout;
class QLabel;
class QPushButton;
class QTabWidget;

namespace strikeoff {

class ChartView;
class SeasonsDetail;
struct Seasons;

/// "How do the seasons move price and pace?": the price of a delivered yard above and the crew's pace below on the same months, right of each what a season
/// does to it; then what to carry in a bid, pace by temperature, and the counts and the method behind it all (F8). Days and job type narrow all of it.
class SeasonsPage : public Page {
    Q_OBJECT
public:
    explicit SeasonsPage(Desk& desk, QWidget* parent = nullptr);
    QString question() const override;
    QString answer() const override { return answer_; }
    void refresh() override;
    void takeFocus() override;
    RecordTable* table() const override;

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    SeasonScope scope() const;
    void fillChoices();
    void showCharts(const Seasons& seasons);
    void arrange();

    QString answer_;
    QComboBox* range_;
    QComboBox* type_;
    QLabel* carry_;
    QPushButton* quotes_;
    QLabel* empty_;
    QTabWidget* tabs_;
    QWidget* pictures_;
    QGridLayout* grid_;
    ChartView* months_;
    ChartView* priceSeasons_;
    ChartView* paceSeasons_;
    QLabel* priceMissing_;
    QLabel* paceMissing_;
    ChartView* temperature_;
    SeasonsDetail* detail_;
    int arranged_ = 0;  ///< 1 side by side, 2 one under another
};

}
