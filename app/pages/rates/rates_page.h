#pragma once

#include "records/records_page.h"

namespace strikeoff {

/// "What do my hours and yards cost me?": hours, crew and pay, price sheets, products, job types, overhead and settings, each with its form.
class RatesPage : public RecordsPage {
    Q_OBJECT
public:
    explicit RatesPage(Desk& desk, QWidget* parent = nullptr);
    QString answer() const override;
};

}
