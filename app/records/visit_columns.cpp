#include "records/visit_columns.h"

#include "form/field_editor.h"
#include "form/record_form.h"
#include "labels.h"
#include "quantity/words.h"

namespace strikeoff {

const VisitWindows& CurrentWindows::of(const Book& book)
{
    if (!windows_ || book_ != &book || version_ != book.version()) {
        windows_ = std::make_shared<VisitWindows>(book);
        book_ = &book;
        version_ = book.version();
    }
    return *windows_;
}

Tone toneOf(VisitState state)
{
    switch (state) {
    case VisitState::tooLate:
    case VisitState::late: return Tone::wrong;
    case VisitState::due: return Tone::attention;
    case VisitState::done: return Tone::well;
    default: return Tone::quiet;
    }
}

Cell stateCell(VisitState state)
{
    auto cell = textCell(qs(labelOf(state)), toneOf(state));
    cell.sort = Value{static_cast<std::int64_t>(state)};
    return cell;
}

Cell kindCell(const Visit& visit)
{
    auto words = qs(labelOf(visit.kind));
    if (visit.coat > 1) words += QObject::tr(", coat %1").arg(visit.coat);
    auto cell = textCell(words);
    cell.sort = Value{static_cast<std::int64_t>(visit.kind) * 10 + visit.coat};
    return cell;
}

std::vector<RecordColumn> visitColumns(const Desk& desk, bool ofOneJob)
{
    const auto windows = std::make_shared<CurrentWindows>();
    const auto state = [&desk, windows](const Book& book, const void* record) {
        return stateCell(windows->of(book).stateOn(*static_cast<const Visit*>(record), desk.today()));
    };
    const auto day = [windows](std::optional<Date> Visit::* which) {
        return [windows, which](const Book& book, const void* record) { return dateCell(windows->of(book).inDays(*static_cast<const Visit*>(record)).*which); };
    };
    std::vector<RecordColumn> columns;
    columns.push_back({.field = {}, .heading = QObject::tr("State"), .width = 9, .reckon = state});
    const auto kind = [](const Book&, const void* record) { return kindCell(*static_cast<const Visit*>(record)); };
    columns.push_back({.field = {}, .heading = QObject::tr("Visit"), .width = 12, .reckon = kind});
    if (!ofOneJob) {
        columns.push_back({.field = "job", .width = 6});
        columns.push_back({.field = "job.title", .width = 24});
    }
    columns.push_back({.field = {}, .heading = QObject::tr("Due"), .width = 13, .reckon = day(&Visit::due)});
    columns.push_back({.field = "planned_on", .width = 13});
    columns.push_back({.field = "done_on", .width = 13});
    columns.push_back({.field = {}, .heading = QObject::tr("Too late"), .width = 13, .reckon = day(&Visit::tooLate)});
    return columns;
}

WindowHints::WindowHints(Desk& desk, RecordForm& form) : QObject{&form}, desk_{desk}, form_{form}
{
    why_ = makeLabel({}, TextSize::small, Tone::quiet, &form);
    why_->setObjectName(QStringLiteral("windowWhy"));
    form.putUnderFields(why_);
    connect(&form, &RecordForm::typed, this, &WindowHints::show);
    show();
}

void WindowHints::show()
{
    const auto* visit = form_.isNew() ? nullptr : desk_.book().find(Id<Visit>{form_.record().id});
    const bool open = visit && visit->isOpen();
    const auto window = open ? windows_.of(desk_.book()).windowOf(*visit) : VisitWindow{};
    const auto inDays = open ? windows_.of(desk_.book()).inDays(*visit) : Visit{};
    const auto say = [&](const char* field, const std::optional<Date>& reckoned, const QString& meaning) {
        auto* editor = form_.editor(field);
        if (!editor) return;
        const bool blank = editor->text().isEmpty();
        editor->setHint(blank && open && reckoned ? tr("reckoned: %1").arg(qs(dayText(*reckoned, desk_.today()))) : meaning);
    };
    say("not_before", inDays.notBefore, tr("earliest day"));
    say("due", inDays.due, tr("the day to be done by"));
    say("too_late", inDays.tooLate, tr("the day from which it is too late"));
    why_->setText(window.why.empty() ? QString{} : qs(capitalized(window.why)) + u'.');
    why_->setVisible(!window.why.empty());
}

}
