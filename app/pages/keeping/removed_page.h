#pragma once

#include "page.h"

#include "removed_rows.h"

#include <memory>

class QFrame;
class QGridLayout;
class QLabel;
class QPushButton;

namespace strikeoff {

/// The records that were removed, what each held, and the way back for them.
class RemovedPage : public Page {
    Q_OBJECT
public:
    explicit RemovedPage(Desk& desk, QWidget* parent = nullptr);

    QString question() const override { return tr("What was removed, and can it come back?"); }
    QString answer() const override;
    void refresh() override;
    void takeFocus() override;
    RecordTable* table() const override { return table_; }

private:
    void showCurrent();
    void bringBack(const std::vector<std::size_t>& places);

    RecordTable* table_;
    QFrame* sheet_;
    QLabel* name_;
    QLabel* when_;
    QWidget* body_ = nullptr;
    QWidget* bodyHolder_;
    QLabel* needs_;
    QPushButton* back_;
    QPushButton* step_;
    std::unique_ptr<RemovedRows> removed_;
    std::optional<std::size_t> current_;
};

}
