#pragma once

#include "page.h"

#include "form/draft_keeper.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;

namespace strikeoff {

class GridView;
class SheetModel;
class SupplierBox;

/// The price sheets of a supplier: what moved from one to another and what that costs on last season's yards; a new sheet typed in a grid, or loaded from CSV.
class SheetPage : public Page {
    Q_OBJECT
public:
    explicit SheetPage(Desk& desk, QWidget* parent = nullptr);

    QString question() const override { return tr("What did the supplier change?"); }
    QString answer() const override { return answer_; }
    void refresh() override;
    void takeFocus() override;
    void newRecord() override { startSheet(); }
    RecordTable* table() const override;
    bool hasUnsaved() const override;

    /// Begins a new sheet of the supplier with the charges of the last one.
    void startSheet();
    bool saveSheet();
    /// Loads a sheet from CSV, whole or not at all; every fault is listed. False when nothing was loaded.
    bool loadSheet(const QString& path);

    SheetModel& model() { return *model_; }
    RecordTable& moves() { return *moves_; }
    RecordTable& faults() { return *faults_; }

private:
    Id<Supplier> supplier() const;
    void fillSheets();
    void compare();
    void showTyped();
    Draft typedDraft() const;
    /// Goes on with the sheet that was being typed when the program broke off.
    void takeUp(const Draft& draft);

    QString answer_;
    DraftPlace drafts_;
    SupplierBox* suppliers_;
    QComboBox* before_;
    QComboBox* after_;
    QPushButton* type_;
    QPushButton* load_;
    QStackedWidget* stack_;
    QWidget* comparing_;
    QWidget* typing_;
    QWidget* faulty_;
    QLabel* words_;
    RecordTable* moves_;
    SheetModel* model_;
    GridView* grid_;
    QLineEdit* day_;
    QLabel* state_;
    QPushButton* save_;
    QLabel* faultWords_;
    RecordTable* faults_;
    bool filling_ = false;
};

}
