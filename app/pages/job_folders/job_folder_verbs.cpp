#include "billing/billing.h"
#include "form/lines_editor.h"
#include "form/reason_strip.h"
#include "form/record_form.h"
#include "form/visit_strip.h"
#include "job/pour_day.h"
#include "job/steps.h"
#include "labels.h"
#include "pages/job_folders/job_folder_view.h"
#include "records/records_panel.h"
#include "visits/needed_visits.h"
#include "visits/visit_words.h"
#include "visits/windows.h"

#include <QHBoxLayout>
#include <QPushButton>

#include <algorithm>

namespace strikeoff {

namespace {

/// Whether none of these days is recorded.
std::function<bool(const Book&, const Row&)> without(std::vector<std::string> days)
{
    return [days = std::move(days)](const Book&, const Row& row) { return row.id != 0 && std::ranges::none_of(days, [&](const auto& day) { return isRecorded(row.value(day)); }); };
}

}

void JobFolderView::addVerbs()
{
    const auto today = [this] { return desk_.today(); };
    const auto onJob = [this](auto step) { return [this, step] { perform(step(desk_.book(), desk_.book().get(job_), desk_.today())); }; };
    const auto onQuote = [this, today](auto step) {
        return [this, today, step] {
            if (const auto* quote = chosen<Quote>()) perform(step(desk_.book(), *quote, today()));
        };
    };
    const auto isOut = [](const Book&, const Row& row) { return row.id != 0 && isRecorded(row.value("sent_on")) && !isRecorded(row.value("accepted_on")) && !isRecorded(row.value("declined_on")); };

    addVerb("jobClose", tr("Close the job"), RecordKind::job, onJob(closeJob), without({"closed_on", "dropped_on"}));
    addVerb("jobDrop", tr("Drop the job\u2026"), RecordKind::job, [this] {
        askReason(tr("Why is the job dropped?"), tr("Drop it"), [this](const std::string& reason) { return dropJob(desk_.book(), desk_.book().get(job_), reason, desk_.today()); });
    }, without({"closed_on", "dropped_on"}));

    addVerb("quoteDraft", tr("Draft from takeoff"), RecordKind::quote, onJob(draftQuote),
            [](const Book& book, const Row& row) { return row.id == 0 || !acceptedQuote(book, book.get(Id<Quote>{row.id}).job); });
    addVerb("quoteStart", tr("Write by hand"), RecordKind::quote, onJob(startQuote), [](const Book&, const Row& row) { return row.id == 0; });
    addVerb("quoteSend", tr("Send quote"), RecordKind::quote, onQuote(sendQuote), without({"sent_on"}));
    addVerb("quoteAccept", tr("Accepted"), RecordKind::quote, onQuote(acceptQuote), isOut);
    addVerb("quoteDecline", tr("Declined\u2026"), RecordKind::quote, [this] {
        const auto* quote = chosen<Quote>();
        if (!quote) return;
        askReason(tr("Why did they decline quote %1?").arg(qs(quoteName(*quote))), tr("Declined"), [this, id = quote->id](const std::string& reason) {
            return declineQuote(desk_.book(), desk_.book().get(id), reason, desk_.today());
        });
    }, isOut);
    addVerb("quoteRevise", tr("New revision"), RecordKind::quote, onQuote(reviseQuote),
            [](const Book&, const Row& row) { return row.id != 0 && isRecorded(row.value("sent_on")) && !isRecorded(row.value("accepted_on")); });

    addVerb("changeAccept", tr("Accepted"), RecordKind::changeOrder, [this, today] {
        if (const auto* order = chosen<ChangeOrder>()) perform(acceptChange(desk_.book(), *order, today()));
    }, without({"accepted_on", "declined_on"}));
    addVerb("changeDecline", tr("Declined"), RecordKind::changeOrder, [this, today] {
        if (const auto* order = chosen<ChangeOrder>()) perform(declineChange(desk_.book(), *order, today()));
    }, without({"accepted_on", "declined_on"}));

    addVerb("pourDone", tr("Poured today"), RecordKind::pour, [this, today] {
        if (const auto* pour = chosen<Pour>()) perform(finishPour(desk_.book(), *pour, today()));
    }, without({"poured_on"}));
    const auto askVisit = [this, today](void (VisitStrip::*ask)(const Visit&, Date)) {
        return [this, today, ask] {
            if (const auto* visit = chosen<Visit>()) (visit_->*ask)(*visit, today());
        };
    };
    addVerb("visitDone", tr("Done\u2026"), RecordKind::visit, askVisit(&VisitStrip::ask), without({"done_on", "waived_on"}));
    addVerb("visitLater", tr("Not today\u2026"), RecordKind::visit, askVisit(&VisitStrip::askPutOff), without({"done_on", "waived_on"}));
    addVerb("visitOut", tr("Leave out\u2026"), RecordKind::visit, askVisit(&VisitStrip::askWaive), without({"done_on", "waived_on"}));
    addVerb("visitsMissing", tr("Put what is needed on the list"), RecordKind::visit, [this] {
        if (const auto edit = addMissingVisits(desk_.book(), desk_.book().get(job_))) desk_.commitOrSay(*edit);
        showVerbs();
    }, [this](const Book& book, const Row&) {
        const auto* job = book.find(job_);
        return job && !missingVisits(book, *job).empty();
    });
    addVerb("visitReminder", tr("Copy reminder"), RecordKind::visit, [this] {
        const auto* visit = chosen<Visit>();
        if (!visit) return;
        const auto day = visit->plannedOn ? visit->plannedOn : VisitWindows{desk_.book()}.inDays(*visit).due;
        if (!day) return desk_.say(tr("Plan the visit for a day first; the reminder names it."), Tone::attention);
        desk_.copyText(qs(customerReminder(desk_.book(), *visit, *day, visit->plannedOn ? visit->plannedAt : std::nullopt)));
        desk_.say(tr("Copied: the reminder for the customer, ready to paste."), Tone::well);
    }, without({"done_on", "waived_on"}));

    const auto invoiceOf = [onJob](InvoiceKind kind) { return onJob([kind](const Book& book, const Job& job, Date day) { return writeInvoice(book, job, kind, day); }); };
    addVerb("invoiceDeposit", tr("Draft deposit"), RecordKind::invoice, invoiceOf(InvoiceKind::deposit));
    addVerb("invoiceProgress", tr("Draft progress"), RecordKind::invoice, invoiceOf(InvoiceKind::progress));
    addVerb("invoiceFinal", tr("Draft final"), RecordKind::invoice, invoiceOf(InvoiceKind::final));
    addVerb("invoiceIssue", tr("Issue"), RecordKind::invoice, [this, today] {
        if (const auto* invoice = chosen<Invoice>()) perform(issueInvoice(desk_.book(), *invoice, today()));
    }, without({"issued_on"}));
    addVerb("invoicePaid", tr("Paid in full today"), RecordKind::invoice, [this] { receivePayment(); }, [](const Book& book, const Row& row) {
        const auto* invoice = book.find(Id<Invoice>{row.id});
        return invoice && invoice->issuedOn && totalOf(book, *invoice).balance > Money{};
    });
    verbs_->addStretch(1);
}

void JobFolderView::addVerb(const char* name, const QString& words, RecordKind on, std::function<void()> act, std::function<bool(const Book&, const Row&)> when)
{
    auto* button = makeButton(name, words, nullptr, verbLine_);
    connect(button, &QPushButton::clicked, this, [this, act = std::move(act)] {
        if (saveTyped()) act();
    });
    button->hide();
    verbs_->addWidget(button);
    verbList_.push_back({button, on, std::move(when)});
}

void JobFolderView::showVerbs()
{
    const auto& kinds = sheet().kinds;
    bool any = false;
    const auto* focus = focusWidget();
    QPushButton* lost = nullptr;
    for (const auto& verb : verbList_) {
        bool wanted = std::ranges::find(kinds, verb.on) != kinds.end();
        if (wanted && verb.when) {
            const auto row = desk_.book().row(verb.on, panel(verb.on)->form().record().id);
            wanted = verb.when(desk_.book(), row ? *row : blankRow(verb.on));
        }
        if (!wanted && verb.button == focus) lost = verb.button;
        verb.button->setVisible(wanted);
        any = any || wanted;
    }
    verbLine_->setVisible(any);
    showNote();
    if (!lost) return;
    // The verb just done is gone: the keyboard stays among those that are left, else on the paper.
    for (const auto& verb : verbList_)
        if (verb.button->isVisibleTo(this)) return verb.button->setFocus();
    takeFocus();
}

void JobFolderView::showNote()
{
    const auto& book = desk_.book();
    std::string note;
    if (chosen_ == PaperKind::pours) {
        if (const auto* pour = chosen<Pour>()) note = broomNote(book, *pour);
    } else if (chosen_ == PaperKind::quote && sheet().lines) {
        if (const auto* quote = chosen<Quote>(); quote && !quote->declinedOn) note = pourDayNote(book, *quote, desk_.today());
    } else if (chosen_ == PaperKind::visits) {
        if (const auto* job = book.find(job_)) note = missingText(missingVisits(book, *job));
    }
    note_->setText(qs(note));
    setTone(*note_, chosen_ == PaperKind::visits ? Tone::attention : Tone::quiet);
    note_->setVisible(!note.empty());
}

void JobFolderView::askReason(const QString& question, const QString& verb, std::function<Step(const std::string&)> step)
{
    QStringList earlier;
    for (const auto& reason : reasonsGiven(desk_.book())) earlier << qs(reason);
    reason_->ask(question, verb, earlier, [this, step = std::move(step)](const QString& words) { perform(step(utf8(words))); });
}

bool JobFolderView::saveTyped()
{
    const auto say = [this] {
        desk_.say(tr("What is typed here could not be saved, so nothing else was done; put right what is marked."), Tone::attention);
        return false;
    };
    if (sheet().lines && !sheet().lines->save()) return say();
    for (const auto kind : sheet().kinds)
        if (auto* its = kind == RecordKind::quoteLine || kind == RecordKind::invoiceLine ? nullptr : panel(kind); its && its->form().isDirty() && !its->form().save()) return say();
    return true;
}

void JobFolderView::perform(const Step& step)
{
    const auto quotes = desk_.book().lastId(RecordKind::quote);
    const auto invoices = desk_.book().lastId(RecordKind::invoice);
    if (!desk_.perform(step)) return;
    // A paper that a step began is the one to go on with.
    if (const auto last = desk_.book().lastId(RecordKind::quote); last != quotes) panel(RecordKind::quote)->open(last);
    if (const auto last = desk_.book().lastId(RecordKind::invoice); last != invoices) panel(RecordKind::invoice)->open(last);
    showLines();
    showVerbs();
}

void JobFolderView::receivePayment()
{
    const auto* invoice = chosen<Invoice>();
    if (!invoice) return;
    const auto balance = totalOf(desk_.book(), *invoice).balance;
    Payment payment;
    payment.customer = desk_.book().get(job_).customer;
    payment.receivedOn = desk_.today();
    payment.amount = balance;
    Edit edit{"Payment for invoice " + invoice->number};
    PaymentShare share;
    share.payment = edit.add(payment);
    share.invoice = invoice->id;
    share.amount = balance;
    edit.add(share);
    desk_.commitOrSay(edit);
}

}
