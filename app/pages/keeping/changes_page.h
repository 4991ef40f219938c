#pragma once

#include "page.h"

namespace strikeoff {

/// The trail of the whole book: what was done, when and by which desk, the newest first. What became of one record stands in its form's history.
class ChangesPage : public Page {
    Q_OBJECT
public:
    explicit ChangesPage(Desk& desk, QWidget* parent = nullptr);

    QString question() const override { return tr("Who changed what, and when?"); }
    QString answer() const override { return answer_; }
    void refresh() override;
    void takeFocus() override;
    RecordTable* table() const override { return table_; }

private:
    RecordTable* table_;
    QString answer_;
};

}
