#pragma once

#include "page.h"

#include "form/draft_keeper.h"

class QLabel;
class QLineEdit;
class QPushButton;

namespace strikeoff {

class GridView;
class HoursModel;
class RecordTable;

/// A day's sheet for the whole crew, typed through without a mouse and saved as one edit; under it the week with straight time, overtime and what it cost.
class HoursSheetPage : public Page {
    Q_OBJECT
public:
    explicit HoursSheetPage(Desk& desk, QWidget* parent = nullptr);

    QString question() const override { return tr("Who worked where, and how long?"); }
    QString answer() const override { return answer_; }
    void refresh() override;
    void takeFocus() override;
    bool hasUnsaved() const override;
    RecordTable* table() const override { return week_; }
    /// The week for whoever runs payroll.
    std::optional<PaperDocument> paper() const override;

    /// Shows the sheet of a day; refused, with words, while another day's is typed and not saved.
    bool showDay(Date day);
    /// Saves the sheet as one edit; false, with the keyboard where typing has to go on, when something cannot be read.
    bool save();
    /// Shows the day as the book has it; what was typed is gone.
    void putBack();

    HoursModel& model() { return *model_; }
    GridView& view() { return *view_; }

private:
    void turnTo(Date day);
    void fill(bool exceptHere);
    void showWeek();
    void showState();
    Draft typedDraft() const;
    /// The day typing begins with: the one behind the last that has hours, Sundays left out, but none to come.
    Date dayToType() const;

    HoursModel* model_;
    GridView* view_;
    QLineEdit* day_;
    QPushButton* putBack_;
    QPushButton* save_;
    QLabel* weekWords_;
    QLabel* cautions_;
    RecordTable* week_;
    QString answer_;
    DraftPlace drafts_;
    bool begun_ = false;
};

}
