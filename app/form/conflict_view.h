#pragma once

#include <QFrame>

#include "desk.h"

#include <vector>

class QGridLayout;
class QLabel;
class QRadioButton;

namespace strikeoff {

/// Shows a row that was changed elsewhere field by field, mine beside theirs, to choose from.
class ConflictView : public QFrame {
    Q_OBJECT
public:
    explicit ConflictView(Desk& desk, QWidget* parent = nullptr);

    void show(const Conflict& conflict);
    /// The row with what was chosen, at the revision it is chosen over.
    Row chosen() const;
    /// Whether the row is gone from the book, so that the choice is between entering it anew and leaving it.
    bool isRemoved() const { return !conflict_.theirs; }

signals:
    void decided();
    void putAway();

private:
    struct Choice {
        std::size_t field;
        QRadioButton* mine;
        QRadioButton* theirs;
    };
    Desk& desk_;
    Conflict conflict_;
    QLabel* heading_;
    QWidget* body_ = nullptr;
    std::vector<Choice> choices_;
};

}
