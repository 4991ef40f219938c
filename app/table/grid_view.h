#pragma once

#include <QTableView>

#include "desk.h"

namespace strikeoff {

class GridModel;

/// A grid that is typed through without a mouse: every cell opens as it is come to, Enter and Tab go on, Shift+Enter to the next row, Ctrl+Enter saves. What is to
/// be said about a row stands under it, whatever columns are in view.
class GridView : public QTableView {
    Q_OBJECT
public:
    GridView(const QString& name, GridModel& model, Desk& desk, QWidget* parent = nullptr);

    /// Opens a cell for typing.
    void typeAt(int row, int column);
    /// Opens where typing goes on: what is at fault or missing in the row, else its first field.
    void typeInRow(int row);
    /// Puts several cells of the clipboard into the grid, if it takes them; one alone is for the open cell.
    bool pasteCells();

signals:
    void saveWanted();
    /// The row typed into is another.
    void rowChanged();

protected:
    QModelIndex moveCursor(CursorAction action, Qt::KeyboardModifiers modifiers) override;
    void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void layOutRows();
    QRect wordsRect(int row) const;

    GridModel& model_;
};

}
