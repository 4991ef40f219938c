#include "pages/ticket_desk/finding_panel.h"

#include "form/reference_edit.h"
#include "labels.h"
#include "plain_words.h"
#include "pages/ticket_desk/check_blocks.h"
#include "quantity/words.h"
#include "ready_mix/claims.h"
#include "record/field_text.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QPushButton>
#include <QVBoxLayout>

namespace strikeoff {

namespace {

const Field& pairedField()
{
    const auto& kind = describe(RecordKind::statementLine);
    return kind.fields[fieldIndex(kind, "ticket")];
}

QWidget* row(QWidget* parent, std::initializer_list<QWidget*> widgets)
{
    auto* holder = new QWidget{parent};
    auto* line = new QHBoxLayout{holder};
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(grid(2));
    for (auto* widget : widgets) line->addWidget(widget, qobject_cast<QPushButton*>(widget) ? 0 : 1);
    return holder;
}

}

FindingPanel::FindingPanel(Desk& desk, QWidget* parent) : QFrame{parent}, desk_{desk}
{
    setRole(*this, "sheet");
    auto* rows = new QVBoxLayout{this};
    rows->setContentsMargins(grid(3), grid(2), grid(3), grid(3));
    rows->setSpacing(grid(2));
    head_ = makeLabel({}, TextSize::body, Tone::plain, this);
    head_->setObjectName(QStringLiteral("findingHead"));
    why_ = makeLabel({}, TextSize::small, Tone::quiet, this);
    why_->setObjectName(QStringLiteral("findingWhy"));
    candidates_ = new QWidget{this};
    candidateRows_ = new QVBoxLayout{candidates_};
    candidateRows_->setContentsMargins(0, 0, 0, 0);
    candidateRows_->setSpacing(grid(1));

    ticket_ = new ReferenceEdit{pairedField(), desk, [] { return std::nullopt; }, this};
    ticket_->setObjectName(QStringLiteral("pairWith"));
    ticket_->setPlaceholderText(tr("Ticket to pair with"));
    ticket_->setAccessibleName(tr("Ticket to pair with"));
    pair_ = makeButton("pair", tr("Pair"), nullptr, this);
    part_ = makeButton("part", tr("Part from its ticket"), nullptr, this);
    part_->setToolTip(tr("It belongs to no ticket on file"));
    forget_ = makeButton("forgetPairing", tr("Leave to the match"), nullptr, this);
    forget_->setToolTip(tr("Takes back what was paired or parted by hand"));
    pairing_ = new QWidget{this};
    auto* pairRows = new QVBoxLayout{pairing_};
    pairRows->setContentsMargins(0, 0, 0, 0);
    pairRows->setSpacing(grid(1));
    pairRows->addWidget(row(pairing_, {ticket_, pair_}));
    pairRows->addWidget(row(pairing_, {part_, forget_}));

    reason_ = new QLineEdit{this};
    reason_->setObjectName(QStringLiteral("standReason"));
    reason_->setPlaceholderText(tr("Why it is paid as billed"));
    reason_->setAccessibleName(tr("Why it is paid as billed"));
    letStand_ = makeButton("letStand", tr("Let stand"), nullptr, this);
    takeBack_ = makeButton("takeBackStand", tr("Dispute it after all"), nullptr, this);
    standing_ = row(this, {reason_, letStand_, takeBack_});

    claims_ = new QComboBox{this};
    claims_->setObjectName(QStringLiteral("creditClaims"));
    claims_->setAccessibleName(tr("Claim that the credit answers"));
    claims_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    claims_->setMinimumContentsLength(14);
    credit_ = makeButton("creditClaim", tr("Credits this claim"), nullptr, this);
    crediting_ = row(this, {claims_, credit_});

    rows->addWidget(head_);
    rows->addWidget(why_);
    rows->addWidget(candidates_);
    rows->addWidget(pairing_);
    rows->addWidget(standing_);
    rows->addWidget(crediting_);

    connect(pair_, &QPushButton::clicked, this, [this] {
        const auto read = readReference(desk_.book(), pairedField(), utf8(ticket_->text()), std::nullopt);
        const auto* id = std::get_if<std::int64_t>(&read.value);
        const auto* ticket = id ? desk_.book().find(Id<Ticket>{*id}) : nullptr;
        if (ticket) pair(*ticket);
        else desk_.say(read.ok() ? tr("Name the ticket to pair with first.") : qs(read.fault), Tone::attention);
    });
    connect(ticket_, &QLineEdit::returnPressed, pair_, &QPushButton::click);
    connect(part_, &QPushButton::clicked, this, [this] {
        if (finding_ && finding_->line) perform(partByHand(desk_.book(), linesOfLoad(desk_.book(), *finding_->line)));
    });
    connect(forget_, &QPushButton::clicked, this, [this] {
        if (finding_ && finding_->line) perform(forgetPairing(desk_.book(), linesOfLoad(desk_.book(), *finding_->line)));
    });
    const auto stand = [this](const std::string& reason) {
        if (!finding_) return;
        if (finding_->line) perform(strikeoff::letStand(desk_.book(), *finding_->line, reason));
        else perform(letTotalStand(desk_.book(), *check_->statement, reason));
    };
    connect(letStand_, &QPushButton::clicked, this, [this, stand] {
        const auto reason = utf8(reason_->text().trimmed());
        if (!reason.empty()) return stand(reason);
        desk_.say(tr("Write first why it is paid as billed."), Tone::attention);
        reason_->setFocus();
    });
    connect(reason_, &QLineEdit::returnPressed, letStand_, &QPushButton::click);
    connect(takeBack_, &QPushButton::clicked, this, [stand] { stand({}); });
    connect(credit_, &QPushButton::clicked, this, [this] {
        const auto* claim = desk_.book().find(Id<Claim>{claims_->currentData().toLongLong()});
        if (claim && finding_ && finding_->line) perform(creditClaim(desk_.book(), *claim, *finding_->line));
    });
    show(nullptr, nullptr);
}

void FindingPanel::perform(const Step& step)
{
    if (!step.possible()) return desk_.say(qs(step.obstacle), Tone::attention);
    if (desk_.commitOrSay(*step.edit)) emit done();
}

void FindingPanel::pair(const Ticket& ticket)
{
    if (finding_ && finding_->line) perform(pairByHand(desk_.book(), linesOfLoad(desk_.book(), *finding_->line), ticket));
}

void FindingPanel::showCandidates()
{
    while (auto* item = candidateRows_->takeAt(0)) {
        if (auto* gone = item->widget()) {  // it may be the very button that was pressed
            gone->setObjectName({});
            gone->hide();
            gone->deleteLater();
        }
        delete item;
    }
    const bool any = finding_ && !finding_->candidates.empty();
    candidates_->setVisible(any);
    if (!any) return;
    candidateRows_->addWidget(makeLabel(tr("Which ticket is it?"), TextSize::small, Tone::attention, candidates_));
    for (const auto& candidate : finding_->candidates) {
        const auto& ticket = *candidate.ticket;
        auto* button = makeButton("candidate", tr("%1, %2, %3 yd\u00b3").arg(withoutMnemonic(qs(ticket.number)), qs(ticket.date.shownShort()), qs(ticket.yards.shown(2))), nullptr, candidates_);
        button->setToolTip(asPlainTip(qs(candidate.fits)));
        button->setEnabled(!desk_.store().isReadOnly());
        connect(button, &QPushButton::clicked, this, [this, id = ticket.id] {
            if (const auto* chosen = desk_.book().find(id)) pair(*chosen);
        });
        candidateRows_->addWidget(button);
        candidateRows_->addWidget(makeLabel(qs(candidate.fits), TextSize::small, Tone::quiet, candidates_));
    }
}

void FindingPanel::show(const StatementCheck* check, const LineFinding* finding)
{
    check_ = check;
    finding_ = finding;
    const bool mayWrite = !desk_.store().isReadOnly();
    showCandidates();
    if (!finding) {
        head_->setText(tr("No finding is chosen."));
        why_->setText(tr("F3 steps through the open ones."));
        for (auto* part : {pairing_, standing_, crediting_}) part->hide();
        return;
    }
    const auto* line = finding->line;
    const auto shown = line ? line->id : Id<StatementLine>{};
    if (shown != shown_) {
        ticket_->clear();
        reason_->clear();
    }
    shown_ = shown;
    auto head = nameOf(*finding) + QStringLiteral(": ") + wordsOf(*finding);
    if (!finding->difference.isZero() && finding->finding != Finding::agrees) head += QStringLiteral(", ") + signedDollars(finding->difference);
    head_->setText(head);
    setTone(*head_, toneOf(*finding));
    auto why = qs(finding->why);
    if (finding->state == FindingState::letStand)
        why += u'\n' + tr("Let stand: %1").arg(qs(line ? line->standsBecause : check->statement->standsBecause));
    why_->setText(why);

    const bool approved = check->statement->approvedOn.has_value();
    const bool settledHere = finding->state == FindingState::open || finding->state == FindingState::settled;
    pairing_->setVisible(line && !approved && mayWrite && settledHere);
    part_->setEnabled(finding->ticket != nullptr);
    forget_->setEnabled(line && (line->ticket || line->leaveUnpaired));
    const bool stands = finding->state == FindingState::letStand;
    standing_->setVisible(mayWrite && !approved && (stands || (finding->state == FindingState::open && finding->finding != Finding::needsYourEye)));
    reason_->setVisible(!stands);
    letStand_->setVisible(!stands);
    takeBack_->setVisible(stands);

    claims_->clear();
    if (line && line->amount < Money{} && !finding->claim)
        for (const auto* claim : check->claimsOpen) {
            claims_->addItem(qs(claim->number + ", " + dollars(claim->amount) + ": " + claim->reason), QVariant::fromValue<qlonglong>(claim->id.value()));
            if (claim == finding->suggested) claims_->setCurrentIndex(claims_->count() - 1);
        }
    crediting_->setVisible(mayWrite && claims_->count() > 0);
}

}
