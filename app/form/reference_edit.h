#pragma once

#include <QLineEdit>

#include "desk.h"

#include <functional>

class QCompleter;

namespace strikeoff {

/// A line in which a record is named: what is typed is looked for anywhere in keys and in what tells records apart, and the arrow down (or a click on the
/// empty field) shows all there are.
class ReferenceEdit : public QLineEdit {
    Q_OBJECT
public:
    /// `scope` gives the id that narrows the choice (the job whose pours are meant), if any.
    ReferenceEdit(const Field& field, Desk& desk, std::function<std::optional<std::int64_t>()> scope, QWidget* parent = nullptr);

    bool listIsOpen() const;

signals:
    /// A record was picked from the list.
    void picked();

protected:
    void focusInEvent(QFocusEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;

private:
    void fillList();
    void showAll();

    const Field& field_;
    Desk& desk_;
    std::function<std::optional<std::int64_t>()> scope_;
    QCompleter* completer_ = nullptr;
    std::uint64_t listedVersion_ = 0;
    std::optional<std::int64_t> listedScope_;
};

/// The text by which a reference field names a row: its key, without what the scope already says.
QString referenceName(const Book& book, const Field& field, std::int64_t id, std::optional<std::int64_t> scope);

}
