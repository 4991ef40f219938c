#pragma once

#include <QWidget>

#include "desk.h"

#include "record/field_text.h"

#include <functional>

class QLabel;

namespace strikeoff {

/// One field of a form: the input, its unit behind it, and under it a quiet hint that gives way to the fault in words.
class FieldEditor : public QWidget {
    Q_OBJECT
public:
    /// `scope` gives the id a scoped reference is named within.
    FieldEditor(const Field& field, Desk& desk, std::function<std::optional<std::int64_t>()> scope, QWidget* parent = nullptr);

    ~FieldEditor() override;

    const Field& field() const { return field_; }
    QWidget& input() { return *input_; }

    /// What stands in the input, as typed: a choice's words, "yes" or "no" for a check mark.
    QString text() const;
    void setText(const QString& text);
    /// Shows a value.
    void show(const Value& value);
    /// The value of what was typed, or why it cannot be read.
    Reading read() const;
    /// The text a value is shown as here.
    QString textOf(const Value& value) const;

    /// Words under the field; the hint comes back with an empty text.
    void setFault(const QString& fault);
    QString fault() const { return fault_; }
    /// Says what the field holds here, in place of what its description says.
    void setHint(const QString& hint);
    void setReadOnly(bool readOnly);
    /// Writes what was read in its full form ("tomorrow" becomes the date).
    void tidy();
    /// Whether Enter belongs to the input itself now (lines of a note, an open list).
    bool keepsEnter() const;

signals:
    void edited();
    /// The input is done with: on to the next field.
    void finished();

private:
    void makeInput();
    void showHint();

    const Field& field_;
    Desk& desk_;
    std::function<std::optional<std::int64_t>()> scope_;
    QWidget* input_ = nullptr;
    QLabel* hint_ = nullptr;
    QString fault_;
    QString meaning_;
};

}
