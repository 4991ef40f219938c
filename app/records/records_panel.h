#pragma once

#include <QWidget>

#include "form/form_layout.h"
#include "table/record_source.h"

class QPushButton;
class QSplitter;
class QStackedWidget;

namespace strikeoff {

class HistoryView;
class RecordForm;
class RecordTable;

/// How a panel of records is set up. What is left out comes from the description.
struct PanelSetup {
    RecordKind kind{};
    std::vector<RecordColumn> columns = {};  ///< a few telling ones when empty
    FormLayout layout = {};
    RecordFilter filter = {};
    Presets presets = {};       ///< for new records
    QString name = {};          ///< of the table; the kind's plural when empty
    QString emptyText = {};
    std::string sortBy = {};    ///< field whose column sorts to begin with
    Qt::SortOrder order = Qt::AscendingOrder;
    bool besides = true;        ///< the form stands beside the table, else under it
    int formShare = 40;         ///< of the width (or height), in hundredths, until the owner moves the handle
    bool folds = false;         ///< a list of at most one row folds away, and the form takes its room
    bool adds = true;           ///< new records are begun here
};

/// The records of one kind: a table, and the form of the current one beside it (its history behind that). Works by itself on any page.
class RecordsPanel : public QWidget {
    Q_OBJECT
public:
    RecordsPanel(Desk& desk, PanelSetup setup, QWidget* parent = nullptr);

    RecordKind kind() const { return setup_.kind; }
    /// Shows other rows: for panels that follow what is chosen elsewhere on a page.
    void setFilter(RecordFilter filter, Presets presets = {});
    /// The same for rows that are somebody else's (another job's): what is half typed for the former owner is kept for it and leaves the view.
    void turnTo(RecordFilter filter, Presets presets);
    /// Rows that stay as they are, and why; empty words let go again.
    void setLocked(const QString& why, const std::vector<std::string>& open = {});
    /// Puts a widget under the table, with a handle between them.
    void putUnderTable(QWidget* widget);
    void refresh();
    bool open(std::int64_t id);
    void startNew() { startNew(setup_.presets); }
    void startNew(const Presets& presets);
    /// Puts the keyboard on the list, or on the form where there is no list.
    void takeFocus();

    RecordTable* table() const { return table_; }
    RecordForm& form() { return *form_; }
    const RecordForm& form() const { return *form_; }

signals:
    void recordShown(const strikeoff::RecordRef& record);

private:
    void showForm();
    /// Folds a list that has nothing to choose from, or unfolds it.
    void fold();

    Desk& desk_;
    PanelSetup setup_;
    RecordTable* table_ = nullptr;  ///< none for the one row of settings
    RecordForm* form_;
    HistoryView* history_;
    QStackedWidget* stack_;
    QPushButton* new_ = nullptr;
    QPushButton* another_ = nullptr;  ///< stands in for it in the form's row of buttons while the list is folded
    QSplitter* splitter_ = nullptr;
    bool enteringNew_ = false;      ///< a new record was asked for and is not put away
};

/// The columns a table of a kind shows unless told otherwise: what names it and what is asked most.
std::vector<RecordColumn> usualColumns(RecordKind kind);

}
