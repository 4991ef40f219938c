#include "form/payment_split.h"

#include "form/field_editor.h"
#include "form/record_form.h"
#include "job/steps.h"
#include "labels.h"
#include "records/record_words.h"

#include <QGridLayout>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include <utility>

namespace strikeoff {

PaymentSplit::PaymentSplit(Desk& desk, RecordForm& form)
    : QWidget{&form}, desk_{desk}, form_{form}, drafts_{desk, DraftKeeper::of(desk).numbered("split of a payment"), [this] { return typedDraft(); }}
{
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, grid(2), 0, 0);
    column->setSpacing(grid(1));
    column->addWidget(makeLabel(tr("What it pays"), TextSize::small, Tone::accent, this));
    grid_ = new QGridLayout;
    grid_->setHorizontalSpacing(grid(3));
    grid_->setVerticalSpacing(grid(1));
    grid_->setColumnStretch(0, 2);
    grid_->setColumnStretch(1, 2);
    grid_->setColumnStretch(2, 2);
    const QString heads[] = {tr("Invoice"), tr("Due"), tr("Open, $"), tr("This payment, $")};
    for (int i = 0; i < 4; ++i) {
        auto* head = makeLabel(heads[i], TextSize::small, Tone::quiet, this);
        head->setWordWrap(false);
        if (i >= 2) head->setAlignment(Qt::AlignRight);
        grid_->addWidget(head, 0, i);
    }
    column->addLayout(grid_);
    sum_ = makeLabel({}, TextSize::body, Tone::plain, this);
    sum_->setObjectName(QStringLiteral("splitSum"));
    column->addWidget(sum_);
    auto* verbs = new QHBoxLayout;
    verbs->setSpacing(grid(2));
    propose_ = makeButton("splitPropose", tr("Oldest due first"), nullptr, this);
    save_ = makeButton("splitSave", tr("Save the split"), nullptr, this);
    verbs->addWidget(propose_);
    verbs->addWidget(save_);
    verbs->addStretch(1);
    column->addLayout(verbs);

    form.putUnderFields(this);
    form.setAlso([this](Edit& edit, const Row&) {
        if (edit.changes().empty() || edit.changes().front().what != ChangeType::add) return;
        addShares(edit, Id<Payment>{edit.changes().front().row.id}, lines_);
    });
    form.setHindrance([this] { return hindrance(); });
    connect(&form, &RecordForm::typed, this, [this] { showNow(false); });
    connect(&form, &RecordForm::putAway, this, &PaymentSplit::forget);
    connect(&form, &RecordForm::removed, this, [this](const RecordRef& gone) { drafts_.drop({gone.id, 0}); });
    connect(&form, &RecordForm::saved, this, [this](const RecordRef&, bool wasNew) {
        if (wasNew) drafts_.drop(form_.draftKey(0));  // saved along with it
    });
    connect(propose_, &QPushButton::clicked, this, [this] { showNow(true); });
    connect(save_, &QPushButton::clicked, this, &PaymentSplit::save);
    drafts_.dropLost(RecordKind::payment);
    showNow(false);
}

std::optional<Payment> PaymentSplit::payment() const
{
    const auto row = form_.typedRow();
    for (const auto* name : {"customer", "received_on", "amount"})
        if (!isRecorded(row.value(name))) return std::nullopt;
    return recordOf<Payment>(row);
}

void PaymentSplit::refresh()
{
    showNow(false);
}

void PaymentSplit::showNow(bool anew)
{
    const auto now = payment();
    setVisible(now.has_value());
    const auto key = form_.draftKey(form_.record().id);
    if (touched_ && (!now || key != shown_)) drafts_.keepNow();
    if (!now) {
        lines_.clear();
        shown_ = {};
        shownCustomer_ = 0;
        touched_ = false;
        return;
    }
    if (anew || key != shown_ || now->customer.value() != shownCustomer_) touched_ = false;
    const bool another = std::exchange(shown_, key) != key || shownCustomer_ == 0;
    shownCustomer_ = now->customer.value();
    if (!touched_) {
        seen_ = sharesInBook();
        auto asked = *now;
        if (anew) {  // as a payment that is new would be split, with what this one pays now open to it again
            lines_ = splitOf(desk_.book(), asked);
            auto left = asked.amount;
            for (auto& line : lines_) {
                const auto share = std::max(std::min(left, line.open), Money{});
                if (share != line.share && shown_.first != 0) touched_ = true;
                line.share = share;
                left -= share;
            }
        } else {
            lines_ = splitOf(desk_.book(), asked);
        }
        showLines();
        if (const auto draft = another && !anew ? drafts_.kept(shown_) : std::nullopt) takeUp(*draft);
    }
    if (touched_) drafts_.wasTyped();
    else drafts_.keepNow();
    showSum();
}

std::vector<DraftRow> PaymentSplit::sharesInBook() const
{
    std::vector<DraftRow> shares;
    for (const auto* share : desk_.book().referring<&PaymentShare::payment>(Id<Payment>{shown_.first})) shares.push_back({share->id.value(), share->revision});
    return shares;
}

Draft PaymentSplit::typedDraft() const
{
    Draft draft{shown_.first, shown_.second, tr("what %1 pays").arg(shown_.first == 0 ? tr("a new payment") : recordName(desk_.book(), {RecordKind::payment, shown_.first}))};
    if (!touched_) return draft;
    draft.rows = seen_;
    auto& typed = draft.rows.emplace_back(DraftRow{shownCustomer_});
    for (std::size_t i = 0; i < lines_.size(); ++i) typed.texts[lines_[i].number] = utf8(fields_[i]->text());
    return draft;
}

void PaymentSplit::takeUp(const Draft& draft)
{
    const auto& typed = draft.rows.back();
    if (typed.id != shownCustomer_) return;
    for (std::size_t i = 0; i < lines_.size(); ++i) fields_[i]->setText(qs(typedText(typed.texts, lines_[i].number)));
    seen_.assign(draft.rows.begin(), std::prev(draft.rows.end()));
    touched_ = true;
}

void PaymentSplit::forget()
{
    touched_ = false;
    drafts_.drop(shown_);
}

void PaymentSplit::showLines()
{
    while (fields_.size() < lines_.size()) {
        const auto row = static_cast<int>(fields_.size()) + 1;
        std::array<QLabel*, 3> words{};
        for (int i = 0; i < 3; ++i) {
            words[static_cast<std::size_t>(i)] = makeLabel({}, TextSize::body, Tone::plain, this);
            words[static_cast<std::size_t>(i)]->setWordWrap(false);
            grid_->addWidget(words[static_cast<std::size_t>(i)], row, i);
        }
        words[2]->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
        words[2]->setFont(figureFont());
        auto* field = new QLineEdit{this};
        field->setObjectName(QStringLiteral("splitShare"));
        field->setAlignment(Qt::AlignRight);
        field->setMaximumWidth(grid(30));
        grid_->addWidget(field, row, 3);
        connect(field, &QLineEdit::textEdited, this, [this] {
            touched_ = true;
            drafts_.wasTyped();
            showSum();
        });
        connect(field, &QLineEdit::returnPressed, this, [field] { field->nextInFocusChain()->setFocus(Qt::TabFocusReason); });
        // Behind the fields of the form, before its buttons.
        auto* before = fields_.empty() ? static_cast<QWidget*>(&form_.editor("note")->input()) : fields_.back();
        setTabOrder(before, field);
        labels_.push_back(words);
        fields_.push_back(field);
    }
    if (!fields_.empty()) {
        setTabOrder(fields_.back(), propose_);
        setTabOrder(propose_, save_);
    }
    for (std::size_t i = 0; i < fields_.size(); ++i) {
        const bool used = i < lines_.size();
        for (auto* label : labels_[i]) label->setVisible(used);
        fields_[i]->setVisible(used);
        if (!used) continue;
        const auto& line = lines_[i];
        const bool late = line.due < desk_.today();
        labels_[i][0]->setText(qs(line.number));
        labels_[i][1]->setText(late ? tr("%1, late").arg(qs(line.due.shown())) : qs(line.due.shown()));
        setTone(*labels_[i][1], late ? Tone::wrong : Tone::plain);
        labels_[i][2]->setText(qs(line.open.shown()));
        fields_[i]->setAccessibleName(tr("Share of invoice %1").arg(qs(line.number)));
        fields_[i]->setText(line.share.isZero() ? QString{} : qs(line.share.shown()));
    }
}

QString PaymentSplit::takeShares()
{
    QString fault;
    for (std::size_t i = 0; i < lines_.size(); ++i) {
        auto text = fields_[i]->text().trimmed();
        text.remove(u',').remove(u'$');
        const auto share = text.isEmpty() ? std::optional{Money{}} : Money::parse(utf8(text));
        const bool readable = share && *share >= Money{};
        if (fields_[i]->property("fault").toBool() == readable) {
            fields_[i]->setProperty("fault", !readable);
            setRole(*fields_[i], "");
        }
        if (!readable && fault.isEmpty()) fault = tr("The share of invoice %1 is no amount; write it like 412.50, or leave it blank.").arg(qs(lines_[i].number));
        lines_[i].share = share && readable ? *share : Money{};
    }
    return fault;
}

void PaymentSplit::showSum()
{
    const auto now = payment();
    if (!now) return;
    const auto fault = takeShares();
    const auto sum = addUp(now->amount, lines_);
    sum_->setText(fault.isEmpty() ? qs(sum.sentence) : fault);
    setTone(*sum_, !fault.isEmpty() || !sum.addsUp ? Tone::wrong : sum.left.isZero() ? Tone::well : Tone::attention);
    const bool readOnly = desk_.store().isReadOnly();
    for (auto* field : fields_) field->setReadOnly(readOnly);
    propose_->setVisible(!lines_.empty());
    propose_->setEnabled(!readOnly);
    save_->setVisible(shown_.first != 0 && !lines_.empty());
    save_->setEnabled(!readOnly && touched_ && fault.isEmpty() && sum.addsUp);
}

QString PaymentSplit::hindrance()
{
    const auto now = payment();
    if (!now || now->id.value() != 0) return {};
    if (const auto fault = takeShares(); !fault.isEmpty()) return fault;
    const auto sum = addUp(now->amount, lines_);
    return sum.addsUp ? QString{} : qs(sum.sentence);
}

void PaymentSplit::save()
{
    const auto* kept = desk_.book().find(Id<Payment>{shown_.first});
    if (!kept || !takeShares().isEmpty()) return;
    if (seen_ != sharesInBook()) {
        QStringList typed;
        for (const auto& line : lines_)
            if (!line.share.isZero()) typed << tr("%1 for %2").arg(qs(line.share.shown()), qs(line.number));
        forget();
        showNow(false);
        return desk_.say(tr("Not saved: the split was changed elsewhere since and is shown as it is now. You had typed %1.").arg(typed.join(QStringLiteral(", "))), Tone::attention);
    }
    const auto step = changeSplit(desk_.book(), *kept, lines_);
    if (!step.possible()) return desk_.say(qs(step.obstacle), Tone::attention);
    if (!desk_.commitOrSay(*step.edit)) return;
    forget();
    showNow(false);
}

}
