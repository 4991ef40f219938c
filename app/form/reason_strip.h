#pragma once

#include <QFrame>
#include <QPointer>
#include <QStringList>

#include <functional>

class QLabel;
class QLineEdit;
class QPushButton;

namespace strikeoff {

/// Asks in place for the reason of a step that needs one. Enter gives it, Esc leaves the step undone; without a word it says so and stays.
class ReasonStrip : public QFrame {
    Q_OBJECT
public:
    explicit ReasonStrip(QWidget* parent = nullptr);

    /// Shows the question; `given` gets the words. Earlier reasons are offered while typing.
    void ask(const QString& question, const QString& verb, const QStringList& earlier, std::function<void(const QString&)> given);
    void leave();

signals:
    void put();  ///< the strip was put away, whatever came of it

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    void give();

    QLabel* question_;
    QLineEdit* reason_;
    QLabel* fault_;
    QPushButton* give_;
    std::function<void(const QString&)> given_;
    QPointer<QWidget> before_;  ///< had the focus
};

}
