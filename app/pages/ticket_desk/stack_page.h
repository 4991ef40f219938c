#pragma once

#include "page.h"

#include "form/draft_keeper.h"

class QLabel;
class QPushButton;

namespace strikeoff {

class ExpectedView;
class StackModel;
class GridView;

/// Entry of a stack of wet paper: a grid of tickets, and under it what the current one should cost. Nothing is written until the stack is saved, as one edit.
class TicketStackPage : public Page {
    Q_OBJECT
public:
    explicit TicketStackPage(Desk& desk, QWidget* parent = nullptr);

    QString question() const override { return tr("Which loads came?"); }
    void refresh() override;
    void takeFocus() override;
    void newRecord() override { takeFocus(); }
    bool hasUnsaved() const override;
    bool canPrint() const override { return false; }

    /// Saves every ticket begun as one edit; false, with the row's words and the keyboard in it, when one is not ready.
    bool save();

    StackModel& model() { return *model_; }
    GridView& view() { return *view_; }

private:
    void showCurrent();
    void showState();
    Draft typedDraft() const;

    DraftPlace drafts_;
    StackModel* model_;
    GridView* view_;
    QPushButton* save_;
    QPushButton* takeOut_;
    QLabel* state_;
    ExpectedView* expected_;
    bool begun_ = false;
};

}
