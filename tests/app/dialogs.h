#pragma once

#include "app/application.h"

#include <QApplication>
#include <QDialog>
#include <QPushButton>
#include <QTimer>
#include <QWidget>

#include <functional>

namespace strikeoff::test {

/// Saves a picture of a widget where STRIKEOFF_PICTURES names a folder, to look at what a test went through.
inline void keepPicture(QWidget& widget, const char* name)
{
    const auto folder = qEnvironmentVariable("STRIKEOFF_PICTURES");
    if (!folder.isEmpty()) widget.grab().save(folder + u'/' + QLatin1String{name} + QStringLiteral(".png"));
}

/// Does something with the next dialog that opens; the dialog is closed afterwards if it is still there, so that no test waits for ever. `met` tells whether
/// one came.
class NextDialog {
public:
    explicit NextDialog(std::function<void(QDialog&)> act) : act_{std::move(act)}
    {
        timer_.setInterval(20);
        QObject::connect(&timer_, &QTimer::timeout, [this] {
            auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
            if (!dialog || !dialog->isVisible()) return;
            timer_.stop();
            met_ = true;
            act_(*dialog);
            if (dialog->isVisible()) dialog->reject();
        });
        timer_.start();
    }
    bool met() const { return met_; }

private:
    std::function<void(QDialog&)> act_;
    QTimer timer_;
    bool met_ = false;
};

}
