#include "form/visit_strip.h"

#include "form/reason_strip.h"
#include "labels.h"
#include "quantity/words.h"
#include "record/field_text.h"
#include "visits/load_out.h"
#include "visits/visit_words.h"

#include <QApplication>
#include <QCheckBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

namespace strikeoff {

VisitStrip::VisitStrip(Desk& desk, QWidget* parent)
    : QFrame{parent}, desk_{desk}, drafts_{desk, "how a visit went", [this] { return typedDraft(); }}  // on whatever page it is asked
{
    drafts_.dropLost(RecordKind::visit);
    setObjectName(QStringLiteral("visitStrip"));
    form_ = new QWidget{this};
    auto* sheet = new QFrame{form_};
    setRole(*sheet, "strip");
    setTone(*sheet, Tone::attention);
    auto* around = new QVBoxLayout{form_};
    around->setContentsMargins(0, 0, 0, 0);
    around->addWidget(sheet);
    auto* lines = new QVBoxLayout{sheet};
    lines->setContentsMargins(grid(3), grid(2), grid(2), grid(2));
    lines->setSpacing(grid(2));

    auto* top = new QHBoxLayout;
    top->setSpacing(grid(2));
    title_ = makeLabel({}, TextSize::body, Tone::plain, sheet);
    title_->setObjectName(QStringLiteral("visitTitle"));
    top->addWidget(title_, 1);
    auto* done = makeButton("visitSave", tr("Done"), "main", sheet);
    lead_ = makeButton("visitLead", tr("Interested: make a lead"), nullptr, sheet);
    auto* putOff = makeButton("visitPutOff", tr("Not today\u2026"), nullptr, sheet);
    auto* waive = makeButton("visitWaive", tr("Leave out\u2026"), nullptr, sheet);
    auto* close = makeButton("visitLeave", tr("Close"), nullptr, sheet);
    for (auto* button : {done, lead_, putOff, waive, close}) top->addWidget(button);
    lines->addLayout(top);

    auto* figures = new QHBoxLayout;
    figures->setSpacing(grid(3));
    dayField_ = addField(*figures, "doneOn", tr("Day"), {}, 24);
    minutes_ = addField(*figures, "minutes", tr("On site"), tr("45, 1:30"), 18);
    drive_ = addField(*figures, "drive", tr("Driving, there and back"), tr("45, 1:30"), 18);
    gallons_ = addField(*figures, "gallons", tr("Gallons"), {}, 16, &gallonsHolder_);
    material_ = new QCheckBox{tr("charge the job with them"), sheet};
    figures->addWidget(material_);
    connect(material_, &QCheckBox::toggled, this, [this] { drafts_.wasTyped(); });
    figures->addStretch(1);
    lines->addLayout(figures);

    people_ = new QHBoxLayout;
    people_->setSpacing(grid(3));
    lines->addLayout(people_);

    auto* words = new QHBoxLayout;
    words->setSpacing(grid(3));
    photos_ = addField(*words, "photos", tr("Photos"), tr("file names"), 44);
    auto* choose = makeButton("choosePhotos", tr("Choose\u2026"), nullptr, sheet);
    words->addWidget(choose);
    note_ = addField(*words, "note", tr("Note"), {}, 0);
    lines->addLayout(words);
    fault_ = makeLabel({}, TextSize::body, Tone::wrong, sheet);
    fault_->setObjectName(QStringLiteral("visitFault"));
    lines->addWidget(fault_);

    reason_ = new ReasonStrip{this};
    auto* all = new QVBoxLayout{this};
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(0);
    all->addWidget(form_);
    all->addWidget(reason_);
    form_->hide();
    hide();

    connect(done, &QPushButton::clicked, this, &VisitStrip::save);
    connect(close, &QPushButton::clicked, this, &VisitStrip::leave);
    connect(choose, &QPushButton::clicked, this, &VisitStrip::choosePhotos);
    connect(lead_, &QPushButton::clicked, this, [this] {
        if (const auto* of = visit()) perform(resealLead(desk_.book(), *of, day_));
    });
    connect(putOff, &QPushButton::clicked, this, [this] {
        if (const auto* of = visit()) askPutOff(*of, day_);
    });
    connect(waive, &QPushButton::clicked, this, [this] {
        if (const auto* of = visit()) askWaive(*of, day_);
    });
    connect(reason_, &ReasonStrip::put, this, [this] {
        if (!form_->isVisibleTo(this)) leave();
    });
}

QLineEdit* VisitStrip::addField(QHBoxLayout& line, const char* name, const QString& label, const QString& hint, int width, QWidget** holder)
{
    auto* both = new QWidget{form_};
    auto* inside = new QHBoxLayout{both};
    inside->setContentsMargins(0, 0, 0, 0);
    inside->setSpacing(grid(2));
    auto* words = makeLabel(label, TextSize::body, Tone::quiet, both);
    words->setWordWrap(false);
    auto* field = new QLineEdit{both};
    field->setObjectName(QString::fromLatin1(name));
    field->setAccessibleName(label);
    field->setPlaceholderText(hint);
    if (width > 0) field->setFixedWidth(grid(width));
    words->setBuddy(field);
    inside->addWidget(words);
    inside->addWidget(field, 1);
    line.addWidget(both, width > 0 ? 0 : 1);
    connect(field, &QLineEdit::textEdited, this, [this] { fault_->hide(); });
    connect(field, &QLineEdit::textChanged, this, [this] { drafts_.wasTyped(); });
    if (holder) *holder = both;
    return field;
}

const Visit* VisitStrip::visit() const { return desk_.book().find(visit_); }
bool VisitStrip::isAsking() const { return isVisibleTo(parentWidget()); }

bool VisitStrip::begin(const Visit& visit, Date day)
{
    if (isAsking()) drafts_.keepNow();  // what is typed about another one stays with it
    else before_ = QApplication::focusWidget();
    visit_ = visit.id;
    day_ = day;
    fault_->hide();
    if (visit.isOpen()) return true;
    drafts_.drop({visit.id.value(), 0});
    desk_.say(visit.doneOn ? tr("This visit was done on %1.").arg(qs(visit.doneOn->shown())) : tr("This visit was left out on %1.").arg(qs(visit.waivedOn->shown())), Tone::attention);
    return false;
}

void VisitStrip::fillPeople(const VisitDone& done)
{
    while (auto* item = people_->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    boxes_.clear();
    const auto people = visitPeople(desk_.book(), day_);
    if (people.empty()) return;
    people_->addWidget(makeLabel(tr("Who was there"), TextSize::body, Tone::quiet, form_));
    for (const auto* person : people) {
        auto* box = new QCheckBox{withoutMnemonic(qs(person->name)), form_};
        box->setChecked(std::ranges::find(done.people, person->id) != done.people.end());
        connect(box, &QCheckBox::toggled, this, [this] { drafts_.wasTyped(); });
        people_->addWidget(box);
        boxes_.emplace_back(person->id, box);
    }
    people_->addStretch(1);
}

void VisitStrip::ask(const Visit& visit, Date day)
{
    if (!begin(visit, day)) return leave();
    const auto done = proposedDone(desk_.book(), visit, day);
    const bool seals = visit.kind == VisitKind::seal;
    title_->setText(qs(visitTitle(desk_.book(), visit)));
    dayField_->setText(qs(day.shown()));
    minutes_->setText(done.minutes ? QString::number(done.minutes->count()) : QString{});
    drive_->clear();
    gallons_->setText(done.gallons ? qs(done.gallons->text()) : QString{});
    gallonsHolder_->setVisible(seals);
    material_->setVisible(seals);
    material_->setChecked(done.writeMaterial);
    photos_->setText(qs(done.photos));
    note_->clear();
    lead_->setVisible(visit.kind == VisitKind::resealCall);
    fillPeople(done);
    begun_ = texts();
    if (const auto draft = drafts_.kept({visit.id.value(), 0})) putTexts(draft->rows.front().texts);
    reason_->leave();
    form_->show();
    show();
    minutes_->setFocus();
    minutes_->selectAll();
}

TypedRow VisitStrip::texts() const
{
    TypedRow texts;
    for (const auto* field : {dayField_, minutes_, drive_, gallons_, photos_, note_}) texts[utf8(field->objectName())] = utf8(field->text());
    for (const auto& [id, box] : boxes_) texts["person " + std::to_string(id.value())] = box->isChecked() ? "yes" : "no";
    texts["material"] = material_->isChecked() ? "yes" : "no";
    return texts;
}

void VisitStrip::putTexts(const TypedRow& texts)
{
    for (auto* field : {dayField_, minutes_, drive_, gallons_, photos_, note_}) field->setText(qs(typedText(texts, utf8(field->objectName()))));
    for (const auto& [id, box] : boxes_)
        if (const auto ticked = typedText(texts, "person " + std::to_string(id.value())); !ticked.empty()) box->setChecked(ticked == "yes");
    material_->setChecked(typedText(texts, "material") == "yes");
}

Draft VisitStrip::typedDraft() const
{
    Draft draft{visit_.value(), 0};
    const auto* of = visit();
    if (!of || !isAsking() || form_->isHidden()) return draft;
    draft.words = tr("how it went: %1").arg(qs(visitTitle(desk_.book(), *of)));
    if (auto now = texts(); now != begun_) draft.rows.push_back({of->id.value(), of->revision, std::move(now)});
    return draft;
}

void VisitStrip::askPutOff(const Visit& visit, Date day)
{
    if (!begin(visit, day)) return leave();
    QStringList earlier;
    for (const auto& reason : visitReasons(desk_.book())) earlier << qs(reason);
    form_->hide();
    show();
    reason_->ask(tr("Why not: %1?").arg(qs(visitTitle(desk_.book(), visit))), tr("Put it off"), earlier, [this](const QString& words) {
        if (const auto* of = this->visit()) perform(putOffVisit(desk_.book(), *of, utf8(words), day_));
    });
}

void VisitStrip::askWaive(const Visit& visit, Date day)
{
    if (!begin(visit, day)) return leave();
    QStringList earlier;
    for (const auto& reason : visitReasons(desk_.book())) earlier << qs(reason);
    form_->hide();
    show();
    reason_->ask(tr("Why is this left out for good: %1?").arg(qs(visitTitle(desk_.book(), visit))), tr("Leave it out"), earlier, [this](const QString& words) {
        if (const auto* of = this->visit()) perform(waiveVisit(desk_.book(), *of, utf8(words), day_));
    });
}

void VisitStrip::leave()
{
    const bool was = isVisible();
    const bool asked = isAsking();
    form_->hide();
    hide();
    if (asked) drafts_.keepNow();
    reason_->leave();
    if (was && before_ && before_->isVisible()) before_->setFocus();
    if (was) emit put();
}

void VisitStrip::choosePhotos()
{
    const auto files = QFileDialog::getOpenFileNames(QApplication::activeWindow(), tr("Photos of the visit"), desk_.preferences().folder(),
                                                     tr("Pictures (*.jpg *.jpeg *.png *.heic);;All files (*)"));
    if (files.isEmpty()) return;
    desk_.preferences().setFolder(QFileInfo{files.first()}.absolutePath());
    QStringList names;
    if (!photos_->text().trimmed().isEmpty()) names << photos_->text().trimmed();
    for (const auto& file : files) names << QFileInfo{file}.fileName();
    photos_->setText(names.join(QStringLiteral(", ")));
}

void VisitStrip::fault(QLineEdit* field, const QString& words)
{
    fault_->setText(words);
    fault_->show();
    field->setFocus();
    field->selectAll();
}

std::optional<VisitDone> VisitStrip::read()
{
    VisitDone done;
    const auto typed = [](const QLineEdit* field) { return utf8(field->text().trimmed()); };
    const auto day = Date::read(typed(dayField_), desk_.today());
    if (!day) return fault(dayField_, tr("Day: write it like today, fri, 6/12 or 2026-06-12.")), std::nullopt;
    if (*day > desk_.today()) return fault(dayField_, tr("Day: %1 has not come yet.").arg(qs(day->shown()))), std::nullopt;
    done.day = *day;
    for (const auto& [field, to] : {std::pair{minutes_, &done.minutes}, std::pair{drive_, &done.drive}}) {
        if (typed(field).empty()) continue;
        *to = Minutes::read(typed(field));
        if (!*to) return fault(field, tr("%1: write minutes like 45, or hours like 1:30 or 1.5h.").arg(field->accessibleName())), std::nullopt;
    }
    if (!gallonsHolder_->isHidden() && !typed(gallons_).empty()) {
        const auto& kind = describe(RecordKind::visit);
        const auto reading = readTyped(kind.fields[fieldIndex(kind, "gallons")], typed(gallons_), desk_.today());
        const auto* units = std::get_if<std::int64_t>(&reading.value);
        if (!reading.ok() || !units) return fault(gallons_, tr("Gallons: %1.").arg(reading.ok() ? tr("write a number like 4.5") : qs(reading.fault))), std::nullopt;
        done.gallons = Quantity::ofUnits(*units);
    }
    for (const auto& [id, box] : boxes_)
        if (box->isChecked()) done.people.push_back(id);
    done.photos = typed(photos_);
    done.note = typed(note_);
    done.writeMaterial = material_->isChecked();
    return done;
}

void VisitStrip::save()
{
    const auto* of = visit();
    if (!of) return leave();
    if (const auto done = read()) perform(finishVisit(desk_.book(), *of, *done));
}

void VisitStrip::perform(const Step& step)
{
    if (!desk_.perform(step)) return;
    leave();
    emit settled();
}

void VisitStrip::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Escape) leave();
    else if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        if (qobject_cast<QPushButton*>(focusWidget())) QFrame::keyPressEvent(event);
        else save();
    } else QFrame::keyPressEvent(event);
}

}
