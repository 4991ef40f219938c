#pragma once

#include <QWidget>

#include "desk.h"
#include "form/draft_keeper.h"

class QLabel;
class QPushButton;

namespace strikeoff {

class ForecastModel;
class GridView;

/// Two weeks of weather on one grid, typed by keyboard, pasted or loaded from a CSV file, and saved as one edit. A day left blank stays unknown.
class ForecastSheet : public QWidget {
    Q_OBJECT
public:
    explicit ForecastSheet(Desk& desk, QWidget* parent = nullptr);

    void refresh();
    void takeFocus();
    bool hasUnsaved() const;
    /// False, with words and the keyboard in what is at fault, when a day is not right.
    bool save();
    /// Shows the days as the book has them; what was typed is gone.
    void putBack();
    /// Adds and changes days from a CSV file with the columns of the forecast; nothing when any line of it has a fault.
    bool loadFile(const QString& path);
    /// Shows a button that leaves the sheet, for where it stands in place of something else.
    void setLeavable(bool leavable);

    /// Where the typing stands, in a sentence; shown over the grid unless a page shows it.
    QString answer() const;
    void setAnswerShown(bool shown);

    ForecastModel& model() { return *model_; }
    GridView& view() { return *view_; }

signals:
    void left();

private:
    void showState();
    void keepTyped();
    void chooseFile();

    Desk& desk_;
    DraftPlace drafts_;
    bool begun_ = false;
    ForecastModel* model_;
    GridView* view_;
    QLabel* state_;
    QPushButton *save_, *putBack_, *load_, *leave_;
};

}
