#pragma once

#include "records/records_page.h"

namespace strikeoff {

class HourCostPage;
class HoursSheetPage;

/// "What do my hours and yards cost me?": what an hour costs, the sheet of a day's hours, hours, crew and pay, bonuses and burden, price sheets, products, job types, overhead and settings, each with its form.
class RatesPage : public RecordsPage {
    Q_OBJECT
public:
    explicit RatesPage(Desk& desk, QWidget* parent = nullptr);
    QString answer() const override;
    /// Shows the sheet of a day for typing hours.
    void enterHours(Date day);

private:
    HourCostPage* hourCost_;
    HoursSheetPage* sheet_;
};

}
