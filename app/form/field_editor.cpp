#include "form/field_editor.h"

#include "form/reference_edit.h"
#include "labels.h"
#include "records/record_words.h"

#include <QAbstractItemView>
#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QStyle>
#include <QVBoxLayout>
#include <QWheelEvent>

#include <algorithm>

namespace strikeoff {

namespace {

/// A combo box that is not turned by a wheel meant for the form it stands in.
class ChoiceBox : public QComboBox {
public:
    using QComboBox::QComboBox;
    void wheelEvent(QWheelEvent* event) override { event->ignore(); }
};

/// Widths of inputs in digits, by what they hold; 0 takes what room there is.
int digitsFor(const Field& field)
{
    switch (field.type) {
    case FieldType::text:
        if (field.name == "number" || field.name == "unit" || field.name == "code" || field.name == "mix" || field.name == "truck" || field.name == "plant") return 12;
        if (field.name == "phone") return 18;
        return 0;
    case FieldType::date: return 15;
    case FieldType::clockTime: return 10;
    case FieldType::monthDay: return 8;
    case FieldType::money:
    case FieldType::unitPrice:
    case FieldType::tapeLength:
    case FieldType::degrees: return 13;
    case FieldType::integer:
    case FieldType::minutes:
    case FieldType::yards:
    case FieldType::quantity:
    case FieldType::area:
    case FieldType::rate: return 10;
    default: return 0;
    }
}

}

FieldEditor::FieldEditor(const Field& field, Desk& desk, std::function<std::optional<std::int64_t>()> scope, QWidget* parent)
    : QWidget{parent}, field_{field}, desk_{desk}, scope_{std::move(scope)}, meaning_{qs(field.meaning)}
{
    makeInput();
    input_->setObjectName(qs(field.name));
    auto name = qs(field.label);
    if (!field.unit.empty()) name += QStringLiteral(", ") + qs(field.unit);
    input_->setAccessibleName(name);
    input_->setAccessibleDescription(qs(field.meaning));
    setFocusProxy(input_);

    auto* line = new QHBoxLayout;
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(grid(2));
    const int digits = digitsFor(field);
    if (digits > 0) input_->setFixedWidth(QFontMetrics{textFont(TextSize::body)}.horizontalAdvance(u'0') * digits + grid(6));
    line->addWidget(input_, digits > 0 ? 0 : 1);
    if (!field.unit.empty()) {
        auto* unit = makeLabel(qs(field.unit), TextSize::body, Tone::quiet, this);
        unit->setWordWrap(false);
        line->addWidget(unit);
    }
    if (digits > 0) line->addStretch(1);
    hint_ = makeLabel({}, TextSize::small, Tone::quiet, this);
    hint_->setMinimumHeight(QFontMetrics{textFont(TextSize::small)}.height());
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(2);
    column->addLayout(line);
    column->addWidget(hint_);
    showHint();
}

FieldEditor::~FieldEditor() { input_->disconnect(this); }  // it says that editing is over when it goes, and nobody is left to hear it

void FieldEditor::setHint(const QString& hint)
{
    meaning_ = hint;
    showHint();
}

void FieldEditor::makeInput()
{
    const auto changed = [this] {
        showHint();
        emit edited();
    };
    switch (field_.type) {
    case FieldType::note: {
        auto* box = new QPlainTextEdit{this};
        box->setTabChangesFocus(true);
        box->setFixedHeight(QFontMetrics{textFont(TextSize::body)}.lineSpacing() * 3 + grid(4));
        connect(box, &QPlainTextEdit::textChanged, this, changed);
        input_ = box;
        return;
    }
    case FieldType::boolean: {
        auto* box = new QCheckBox{withoutMnemonic(qs(field_.meaning)), this};
        connect(box, &QCheckBox::toggled, this, changed);
        input_ = box;
        return;
    }
    case FieldType::choice: {
        auto* box = new ChoiceBox{this};
        box->setFocusPolicy(Qt::StrongFocus);
        box->setSizeAdjustPolicy(QComboBox::AdjustToContents);
        if (field_.nullable || field_.required) box->addItem({});
        for (const auto& choice : field_.choices) box->addItem(qs(choice.label));
        box->setMaxVisibleItems(16);
        if (std::ranges::any_of(field_.choices, [](const auto& choice) { return choice.label.size() > 30; })) {
            box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);  // a long choice does not widen the form
            box->setMinimumContentsLength(24);
        }
        connect(box, &QComboBox::currentIndexChanged, this, changed);
        input_ = box;
        return;
    }
    case FieldType::reference: {
        auto* line = new ReferenceEdit{field_, desk_, scope_, this};
        connect(line, &QLineEdit::textChanged, this, changed);
        connect(line, &ReferenceEdit::picked, this, &FieldEditor::finished);
        connect(line, &QLineEdit::editingFinished, this, &FieldEditor::tidy);
        input_ = line;
        return;
    }
    default: {
        auto* line = new QLineEdit{this};
        if (field_.type == FieldType::text && field_.name == "number" && field_.meaning.find("given by the book") != std::string_view::npos)
            line->setPlaceholderText(tr("given"));
        connect(line, &QLineEdit::textChanged, this, changed);
        connect(line, &QLineEdit::editingFinished, this, &FieldEditor::tidy);
        input_ = line;
        return;
    }
    }
}

QString FieldEditor::text() const
{
    if (const auto* line = qobject_cast<const QLineEdit*>(input_)) return line->text();
    if (const auto* note = qobject_cast<const QPlainTextEdit*>(input_)) return note->toPlainText();
    if (const auto* choice = qobject_cast<const QComboBox*>(input_)) return choice->currentText();
    if (const auto* check = qobject_cast<const QCheckBox*>(input_)) return check->isChecked() ? QStringLiteral("yes") : QStringLiteral("no");
    return {};
}

void FieldEditor::setText(const QString& text)
{
    if (auto* line = qobject_cast<QLineEdit*>(input_)) {
        line->setText(text);
        line->setCursorPosition(0);
    } else if (auto* note = qobject_cast<QPlainTextEdit*>(input_)) {
        if (note->toPlainText() != text) note->setPlainText(text);
    } else if (auto* choice = qobject_cast<QComboBox*>(input_)) {
        choice->setCurrentIndex(std::max(choice->findText(text, Qt::MatchFixedString), choice->findText(text)));
        if (choice->currentIndex() < 0) choice->setCurrentIndex(0);
    } else if (auto* check = qobject_cast<QCheckBox*>(input_)) {
        check->setChecked(text == u"yes");
    }
}

QString FieldEditor::textOf(const Value& value) const
{
    if (!isRecorded(value)) return field_.type == FieldType::boolean ? QStringLiteral("no") : QString{};
    if (field_.type == FieldType::reference) {
        const auto* id = std::get_if<std::int64_t>(&value);
        return id ? referenceName(desk_.book(), field_, *id, scope_ ? scope_() : std::nullopt) : QString{};
    }
    auto text = qs(shownValue(field_, value));
    if (field_.type == FieldType::minutes) text.remove(u',');
    return text;
}

void FieldEditor::show(const Value& value) { setText(textOf(value)); }

Reading FieldEditor::read() const
{
    const auto typed = utf8(text());
    if (field_.type == FieldType::reference) return readReference(desk_.book(), field_, typed, scope_ ? scope_() : std::nullopt);
    if (field_.type == FieldType::choice && typed.empty()) return {};
    return readTyped(field_, typed, desk_.today());
}

void FieldEditor::setFault(const QString& fault)
{
    const bool changed = fault_.isEmpty() != fault.isEmpty();
    fault_ = fault;
    if (changed) {
        input_->setProperty("fault", !fault.isEmpty());
        input_->style()->unpolish(input_);
        input_->style()->polish(input_);
    }
    showHint();
}

void FieldEditor::showHint()
{
    if (!fault_.isEmpty()) {
        hint_->setText(fault_);
        setTone(*hint_, Tone::wrong);
        return;
    }
    setTone(*hint_, Tone::quiet);
    auto hint = field_.type == FieldType::boolean ? QString{} : meaning_;
    // What is typed short is read back long, and a name is told apart.
    if (field_.type == FieldType::date || field_.type == FieldType::clockTime || field_.type == FieldType::minutes || field_.type == FieldType::reference) {
        const auto reading = text().isEmpty() ? Reading{} : read();
        if (const auto* number = std::get_if<std::int64_t>(&reading.value)) {
            if (field_.type == FieldType::date) hint = qs(Date::ofDays(*number).shownShort());
            else if (field_.type == FieldType::minutes) hint = tr("%1 h").arg(qs(Minutes::of(*number).shown()));
            else if (field_.type == FieldType::clockTime) {
                if (const auto full = qs(shownValue(field_, reading.value)); full != text()) hint = full;
            }
            else if (const auto telling = recordTelling(desk_.book(), {field_.refersTo, *number}); !telling.isEmpty()) hint = telling;
        }
    }
    hint_->setText(hint);
}

void FieldEditor::setReadOnly(bool readOnly)
{
    if (auto* line = qobject_cast<QLineEdit*>(input_)) line->setReadOnly(readOnly);
    else if (auto* note = qobject_cast<QPlainTextEdit*>(input_)) note->setReadOnly(readOnly);
    else input_->setEnabled(!readOnly);
}

void FieldEditor::tidy()
{
    auto* line = qobject_cast<QLineEdit*>(input_);
    if (!line || line->text().isEmpty()) return;
    const auto reading = read();
    if (!reading.ok()) return;
    if (const auto full = textOf(reading.value); full != line->text()) line->setText(full);
}

bool FieldEditor::keepsEnter() const
{
    if (qobject_cast<const QPlainTextEdit*>(input_)) return true;
    if (const auto* choice = qobject_cast<const QComboBox*>(input_)) return choice->view()->isVisible();
    if (const auto* reference = qobject_cast<const ReferenceEdit*>(input_)) return reference->listIsOpen();
    return false;
}

}
