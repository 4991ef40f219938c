#pragma once

#include <QListWidget>

#include <vector>

namespace strikeoff {

/// The list of pages at the left, each with the count of what waits on it.
class PageList : public QListWidget {
    Q_OBJECT
public:
    explicit PageList(QWidget* parent = nullptr);
    void setPages(const QStringList& names);
    void setWaiting(int page, int count);
    QSize sizeHint() const override;
};

}
