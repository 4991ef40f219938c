#include "records/record_words.h"

#include "labels.h"
#include "person_account.h"
#include "store_state.h"

#include "record/field_text.h"
#include "visits/visit_words.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QTimeZone>

#include <array>

namespace strikeoff {

namespace {

std::vector<std::string_view> tellingFields(RecordKind kind)
{
    switch (kind) {
    case RecordKind::customer: return {"town", "phone"};
    case RecordKind::site: return {"customer", "town"};
    case RecordKind::lead: return {"name", "town", "received_on"};
    case RecordKind::job: return {"title", "customer"};
    case RecordKind::takeoffSection: return {"name", "shape"};
    case RecordKind::quote: return {"job", "drafted_on", "scope"};
    case RecordKind::quoteLine: return {"description"};
    case RecordKind::changeOrder: return {"description"};
    case RecordKind::pour: return {"planned_on", "mix"};
    case RecordKind::supplier: return {"phone"};
    case RecordKind::priceSheet: return {"meaning", "amount"};
    case RecordKind::ticket: return {"yards", "mix", "job"};
    case RecordKind::statement: return {"date", "total"};
    case RecordKind::statementLine: return {"ticket_number", "description", "amount"};
    case RecordKind::claim: return {"supplier", "reason", "amount"};
    case RecordKind::crewMember: return {"role"};
    case RecordKind::payRate: return {"hourly_rate"};
    case RecordKind::bonus: return {"amount", "note"};
    case RecordKind::burdenRate: return {"rate", "wage_base"};
    case RecordKind::hours: return {"minutes", "note"};
    case RecordKind::receipt: return {"vendor", "description", "amount"};
    case RecordKind::overhead: return {"amount"};
    case RecordKind::visit: return {"due", "done_on"};
    case RecordKind::forecast: return {"low_f", "high_f"};
    case RecordKind::townDrive: return {"minutes"};
    case RecordKind::invoice: return {"job", "heading", "issued_on"};
    case RecordKind::invoiceLine: return {"description"};
    case RecordKind::payment: return {"customer", "received_on", "amount"};
    case RecordKind::paymentShare: return {"amount"};
    case RecordKind::credit: return {"invoice", "amount", "reason"};
    case RecordKind::jobType:
    case RecordKind::finishingProduct:
    case RecordKind::settings: return {};
    }
    return {};
}

QString tr(const char* text) { return QCoreApplication::translate("RecordWords", text); }

QString lowerFirst(QString text)
{
    if (text.size() > 1 && text[1].isLower()) text[0] = text[0].toLower();
    return text;
}

}

QString recordKey(const Book& book, RecordRef record)
{
    const auto* row = book.find(record.kind, record.id);
    if (!row) return {};
    const auto& kind = describe(record.kind);
    const auto shown = [&](std::string_view name) {
        const auto& field = kind.fields[fieldIndex(kind, name)];
        const auto value = field.get(row);
        const auto* id = std::get_if<std::int64_t>(&value);
        if (field.type == FieldType::reference) return id ? recordKey(book, {field.refersTo, *id}) : QString{};
        return qs(shownValue(field, value));
    };
    if (record.kind == RecordKind::ticket) return shown("number");
    if (record.kind == RecordKind::statement) return tr("%1 of %2").arg(shown("number"), shown("supplier"));
    if (record.kind == RecordKind::visit) {
        const auto& visit = *static_cast<const Visit*>(row);
        const auto* job = book.find(visit.job);
        return qs(visitTitle(book, visit)) + (job ? QStringLiteral(" (%1)").arg(qs(job->number)) : QString{});
    }
    if (record.kind == RecordKind::quote) {
        const auto& quote = *static_cast<const Quote*>(row);
        return quote.revision > 1 ? tr("%1, revision %2").arg(shown("number")).arg(quote.revision) : shown("number");
    }
    if (record.kind == RecordKind::pour) return tr("%1 of job %2").arg(shown("sequence"), shown("job"));
    QStringList parts;
    for (const auto name : kind.key)
        if (const auto text = shown(name); !text.isEmpty()) parts << text;
    return parts.join(QStringLiteral(", "));
}

QString recordName(const Book& book, RecordRef record)
{
    const auto label = qs(describe(record.kind).label);
    const auto key = recordKey(book, record);
    if (record.kind == RecordKind::visit && !key.isEmpty()) return key;  // its title says what it is
    return key.isEmpty() ? label : label + u' ' + key;
}

QString recordTelling(const Book& book, RecordRef record)
{
    const auto* row = book.find(record.kind, record.id);
    if (!row) return {};
    const auto& kind = describe(record.kind);
    QStringList parts;
    for (const auto name : tellingFields(record.kind)) {
        const auto& field = kind.fields[fieldIndex(kind, name)];
        auto text = qs(shownText(book, kind, field, row));
        if (text.isEmpty()) continue;
        if (field.type == FieldType::reference && field.refersTo == RecordKind::job) {
            const auto target = field.get(row);
            if (const auto* id = std::get_if<std::int64_t>(&target))
                if (const auto* job = book.find(Id<Job>{*id})) text += u' ' + qs(job->title);
        } else if (field.type == FieldType::money) {
            text.prepend(u'$');
        } else if (!field.unit.empty() && field.unit != "$") {
            text += u' ' + qs(field.unit);
        }
        parts << text.section(u'\n', 0, 0).left(80);
    }
    return parts.join(QStringLiteral(", "));
}

QString localTime(const std::string& text)
{
    auto time = QDateTime::fromString(qs(text), Qt::ISODate);
    return time.isValid() ? time.toLocalTime().toString(QStringLiteral("MMM d, yyyy h:mm ap")) : qs(text);
}

QString entryWords(const TrailEntry& entry)
{
    if (const auto person = blottedPerson(entry)) return tr("%1 blotted out for good: %2").arg(qs(describe(person->kind).label), qs(blottedName(person->id)));
    if (entry.how == "restore") return qs(replacementWords(entry));
    const auto title = qs(entry.title);
    return entry.how == "undo" ? tr("Undo %1").arg(title) : entry.how == "redo" ? tr("Redo %1").arg(title) : title;
}

namespace {

/// A removed record's name as its last values give it.
QString nameOfRemoved(const Desk& desk, RecordRef record)
{
    const auto trail = desk.store().trailOf(record.kind, record.id);
    for (auto change = trail.rbegin(); change != trail.rend(); ++change) {
        if (!change->before) continue;
        const auto& kind = describe(record.kind);
        QStringList parts;
        for (const auto i : keyFields(kind)) {
            const auto text = kind.fields[i].type == FieldType::reference ? valueWords(desk, kind.fields[i], change->before->values[i]) : qs(shownValue(kind.fields[i], change->before->values[i]));
            if (!text.isEmpty()) parts << text;
        }
        return tr("%1 (removed since)").arg(parts.join(QStringLiteral(", ")));
    }
    return tr("one that is gone");
}

}

QString valueWords(const Desk& desk, const Field& field, const Value& value)
{
    const auto* id = std::get_if<std::int64_t>(&value);
    if (field.type != FieldType::reference || !id) return qs(shownWithUnit(field, value));
    return desk.book().find(field.refersTo, *id) ? recordKey(desk.book(), {field.refersTo, *id}) : nameOfRemoved(desk, {field.refersTo, *id});
}

std::string editTitle(ChangeType what, const KindDescription& kind, const Row& row)
{
    static constexpr std::array verbs{"Enter ", "Change ", "Remove "};
    std::string title = verbs[static_cast<std::size_t>(what)];
    title += utf8(lowerFirst(qs(kind.label)));
    for (const auto name : kind.key) {
        const auto index = fieldIndex(kind, name);
        const auto& field = kind.fields[index];
        if (field.type == FieldType::reference || !isRecorded(row.values[index])) continue;
        auto text = qs(shownValue(field, row.values[index]));
        if (text.size() > 40) text = text.left(39) + QStringLiteral("\u2026");
        return title + " " + utf8(text);
    }
    for (const auto name : tellingFields(kind.kind)) {
        const auto index = fieldIndex(kind, name);
        if (const auto* text = std::get_if<std::string>(&row.values[index])) return title + " " + utf8(qs(*text).section(u'\n', 0, 0).left(40));
    }
    return title;
}

}
