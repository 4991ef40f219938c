#include "form/reference_edit.h"

#include "labels.h"
#include "records/record_words.h"

#include "record/field_text.h"

#include <QAbstractItemView>
#include <QAbstractListModel>
#include <QCompleter>
#include <QKeyEvent>

#include <algorithm>

namespace strikeoff {

namespace {

constexpr int nameRole = Qt::UserRole;

struct Named {
    QString name;
    QString telling;
};

class NamesModel : public QAbstractListModel {
public:
    NamesModel(std::vector<Named> names, QObject* parent) : QAbstractListModel{parent}, names_{std::move(names)} {}
    int rowCount(const QModelIndex& parent) const override { return parent.isValid() ? 0 : static_cast<int>(names_.size()); }
    QVariant data(const QModelIndex& index, int role) const override
    {
        if (!index.isValid()) return {};
        const auto& named = names_[static_cast<std::size_t>(index.row())];
        if (role == nameRole) return named.name;
        if (role == Qt::DisplayRole || role == Qt::EditRole) return named.telling.isEmpty() ? named.name : QString{named.name + QStringLiteral("   ") + named.telling};
        return {};
    }

private:
    std::vector<Named> names_;
};

/// Looks in name and telling words, and fills in the name alone.
class NamesCompleter : public QCompleter {
public:
    using QCompleter::QCompleter;
    QString pathFromIndex(const QModelIndex& index) const override { return index.data(nameRole).toString(); }
    QStringList splitPath(const QString& path) const override { return {path}; }
};

}

QString referenceName(const Book& book, const Field& field, std::int64_t id, std::optional<std::int64_t> scope)
{
    auto name = qs(keyText(book, field.refersTo, id));
    if (field.scope.empty() || !scope) return name;
    const auto& target = describe(field.refersTo);
    const auto& first = target.fields[fieldIndex(target, target.key.front())];
    const auto* record = book.find(field.refersTo, id);
    if (!record || first.get(record) != Value{*scope}) return name;
    const auto owner = qs(keyText(book, first.refersTo, *scope)) + u'/';
    return name.startsWith(owner) ? name.mid(owner.size()) : name;
}

ReferenceEdit::ReferenceEdit(const Field& field, Desk& desk, std::function<std::optional<std::int64_t>()> scope, QWidget* parent)
    : QLineEdit{parent}, field_{field}, desk_{desk}, scope_{std::move(scope)}
{
}

bool ReferenceEdit::listIsOpen() const { return completer_ && completer_->popup()->isVisible(); }

void ReferenceEdit::fillList()
{
    const auto& book = desk_.book();
    const auto scope = scope_ ? scope_() : std::nullopt;
    if (completer_ && listedVersion_ == book.version() && listedScope_ == scope) return;
    listedVersion_ = book.version();
    listedScope_ = scope;
    const auto& target = describe(field_.refersTo);
    std::vector<std::int64_t> ids;
    if (scope && !field_.scope.empty()) {
        ids = book.referring(field_.refersTo, fieldIndex(target, target.key.front()), *scope);
    } else {
        const auto count = book.count(field_.refersTo);
        ids.reserve(count);
        for (std::size_t i = 0; i < count; ++i) ids.push_back(book.idAt(field_.refersTo, i));
    }
    const bool numbered = target.numberPrefix.has_value();
    if (numbered) std::reverse(ids.begin(), ids.end());  // the newest are the ones asked for
    std::vector<Named> names;
    names.reserve(ids.size());
    for (const auto id : ids) names.push_back({referenceName(book, field_, id, scope), recordTelling(book, {field_.refersTo, id})});
    if (!numbered) std::ranges::stable_sort(names, [](const auto& a, const auto& b) { return QString::localeAwareCompare(a.name, b.name) < 0; });

    if (!completer_) {
        completer_ = new NamesCompleter{this};
        completer_->setFilterMode(Qt::MatchContains);
        completer_->setCaseSensitivity(Qt::CaseInsensitive);
        completer_->setCompletionRole(Qt::DisplayRole);
        completer_->setMaxVisibleItems(12);
        setCompleter(completer_);
        connect(completer_, qOverload<const QString&>(&QCompleter::activated), this, [this](const QString& name) {
            setText(name);
            emit textEdited(name);
            emit picked();
        });
    }
    completer_->setModel(new NamesModel{std::move(names), completer_});  // which deletes the former one, a child of the completer
}

void ReferenceEdit::showAll()
{
    fillList();
    completer_->setCompletionPrefix({});
    completer_->complete();
}

void ReferenceEdit::focusInEvent(QFocusEvent* event)
{
    fillList();
    QLineEdit::focusInEvent(event);
}

void ReferenceEdit::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Down && !listIsOpen()) {
        showAll();
        return;
    }
    // Enter over an open list takes the one name there is, else what was typed, and goes on.
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && event->modifiers() == Qt::NoModifier && listIsOpen() && !completer_->popup()->currentIndex().isValid()) {
        if (!text().isEmpty() && completer_->completionCount() == 1) {
            completer_->setCurrentRow(0);
            setText(completer_->currentIndex().data(nameRole).toString());
        }
        completer_->popup()->hide();
        event->accept();
        emit picked();
        return;
    }
    QLineEdit::keyPressEvent(event);
}

void ReferenceEdit::mousePressEvent(QMouseEvent* event)
{
    QLineEdit::mousePressEvent(event);
    if (text().isEmpty() && !isReadOnly()) showAll();
}

}
