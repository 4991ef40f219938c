#pragma once

#include <QFrame>

#include "theme.h"

class QLabel;
class QTimer;

namespace strikeoff {

/// Where the window says what came of something, without getting in the way. Good news goes by itself; the rest stays until put away.
class MessageStrip : public QFrame {
    Q_OBJECT
public:
    explicit MessageStrip(QWidget* parent = nullptr);
    void say(const QString& message, Tone tone);
    /// Says something good that stays until it is put away, led by a word of its own.
    void tell(const QString& word, const QString& message);
    QString message() const;

private:
    QLabel* word_;
    QLabel* text_;
    QTimer* timer_;
};

}
