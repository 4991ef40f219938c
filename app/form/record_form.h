#pragma once

#include <QWidget>

#include "desk.h"
#include "form/draft_keeper.h"
#include "form/form_layout.h"

#include <functional>
#include <map>
#include <optional>

class QBoxLayout;
class QHBoxLayout;
class QLabel;
class QPushButton;
class QScrollArea;
class QVBoxLayout;

namespace strikeoff {

class ConflictView;
class FieldEditor;
class PlaceFields;

/// The form of one record kind, for a new record or one of the book. Enter goes on, Ctrl+Enter saves and goes on to the next, Esc leaves and asks only if
/// something would be lost. What is half typed stays with its record when another one is shown.
class RecordForm : public QWidget {
    Q_OBJECT
public:
    RecordForm(Desk& desk, RecordKind kind, FormLayout layout, QWidget* parent = nullptr);
    ~RecordForm() override;

    RecordKind kind() const { return kind_; }
    /// Begins a new record (or goes on with the one half typed). Required days begin as today unless preset; a row that is counted within its owner (a
    /// line on its quote, a pour of its job) begins with the next place.
    void startNew(const Presets& presets = {});
    /// Shows a record of the book; false when it is not there.
    bool edit(std::int64_t id);
    /// Takes in what the book says now; what was typed stays.
    void refresh();

    bool isNew() const { return base_.id == 0; }
    RecordRef record() const { return {kind_, base_.id}; }
    /// Whether something typed here is not saved.
    bool isDirty() const;
    /// The same, counting what is half typed for other records of this form.
    bool hasDrafts() const;
    void forgetDrafts();
    /// Under what a draft is kept: a new record half typed for one job does not turn up in another one's folder.
    DraftKeeper::Key draftKey(std::int64_t id) const;

    /// Saves as one edit; false when something stands in the way, which then is said beside its field.
    bool save();
    void saveAndNext();
    void remove();

    /// Shows records that stay as they are: fields are read only and there is nothing to save; the words say why. Empty words let go again.
    /// `open` are fields that may still be written.
    void setLocked(const QString& why, const std::vector<std::string>& open = {});
    /// A field that says nothing here is put away; its value stays.
    void setFieldVisible(std::string_view field, bool visible);

    FieldEditor* editor(std::string_view field) const;
    /// The row as typed so far; a field that cannot be read keeps its former value.
    Row typedRow() const;
    void focusFirst();
    /// Where pages put buttons of their own, left of Save.
    QHBoxLayout& buttons() { return *buttons_; }
    /// Called with the edit before it is committed, so that a page can put more rows into the same step. The row is the form's.
    void setAlso(std::function<void(Edit& edit, const Row& row)> also) { also_ = std::move(also); }
    /// Asked before saving: words say why it cannot be saved yet, none that it can.
    void setHindrance(std::function<QString()> hindrance) { hindrance_ = std::move(hindrance); }
    /// Puts a widget of a page's own under the fields.
    void putUnderFields(QWidget* widget);

signals:
    void saved(const strikeoff::RecordRef& record, bool wasNew);
    void removed(const strikeoff::RecordRef& record);
    /// Ctrl+Enter on a record of the book: the next one is wanted.
    void nextWanted();
    /// What was typed for the record in view is put away.
    void putAway();
    /// Esc, with nothing left to lose.
    void left();
    void historyWanted();
    void dirtyChanged();
    /// What stands in the fields is other now: typed, or another record.
    void typed();

protected:
    void resizeEvent(QResizeEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void build(const FormLayout& layout);
    void addLine(QVBoxLayout& into, const std::vector<std::string>& fields, const std::vector<int>& labelWidths);
    void load(Row base);
    Draft typedDraft() const;
    /// Keeps what is typed before another record is shown.
    void stash();
    /// Goes on with what was typed for the record before.
    void takeUp(std::int64_t id);
    void dropTyped();
    void wasEdited(FieldEditor& editor);
    void checkEditor(FieldEditor& editor);
    void showProblems(const std::vector<Problem>& problems);
    bool commit(Row row, bool anew);
    /// Takes a place that stands in the field into both fields of its pair; false when none stands there.
    bool takePlace(FieldEditor& from);
    void goOn(FieldEditor& from);
    void leave();
    void showHead();

    Desk& desk_;
    RecordKind kind_;
    FormLayout layout_;
    Row base_;                                     ///< the row as it was seen; id 0 for a new one
    std::map<std::string, QString> begun_;         ///< texts as they were before anything was typed
    DraftPlace drafts_;
    Presets presets_;
    std::vector<FieldEditor*> editors_;            ///< in the order of the layout
    std::map<std::string, FieldEditor*, std::less<>> byName_;
    std::vector<PlaceFields*> places_;
    std::map<const FieldEditor*, QLabel*> labels_;
    std::vector<std::string> open_;                ///< of a record that stays as it is, what may still be written
    std::function<void(Edit&, const Row&)> also_;
    std::function<QString()> hindrance_;
    QVBoxLayout* lines_;
    QScrollArea* scroll_;
    QLabel* title_;
    QLabel* problem_;
    QWidget* askLeave_;
    ConflictView* conflict_;
    QHBoxLayout* buttons_;
    QBoxLayout* columns_;  ///< the groups in two columns, side by side where there is room
    QLabel* locked_;
    QPushButton* save_;
    QPushButton* remove_;
    QPushButton* history_;
    bool loading_ = false;
    bool triedToSave_ = false;
    bool wasDirty_ = false;
};

}
