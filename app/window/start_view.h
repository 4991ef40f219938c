#pragma once

#include <QWidget>

class QVBoxLayout;

namespace strikeoff {

/// What the window shows while no book is open.
class StartView : public QWidget {
    Q_OBJECT
public:
    explicit StartView(QWidget* parent = nullptr);
    void setRecent(const QStringList& paths);

signals:
    void newWanted();
    void openWanted();
    void demonstrationWanted();
    void bookWanted(const QString& path);

private:
    QVBoxLayout* recent_;
};

}
