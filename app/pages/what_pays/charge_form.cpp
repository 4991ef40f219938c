#include "pages/what_pays/charge_form.h"

#include "labels.h"
#include "table/record_table.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QLocale>
#include <QSignalBlocker>
#include <QVBoxLayout>

#include <cmath>

namespace strikeoff {

namespace {

Money moneyOf(double dollars) { return Money::ofCents(std::llround(dollars * 100)); }

/// What stands in a field: nothing typed, a figure, or something that is none.
struct Typed {
    std::optional<double> figure;
    bool wrong = false;
};
Typed typedIn(const QLineEdit& field)
{
    const auto text = field.text().trimmed();
    if (text.isEmpty()) return {};
    const auto units = readDecimal(utf8(text), 2);
    if (!units || *units < 0) return {std::nullopt, true};
    return {static_cast<double>(*units) / 100, false};
}

}

QLineEdit* ChargeForm::field(const char* name, const QString& label, const QString& hint, QHBoxLayout& row)
{
    auto* column = new QVBoxLayout;
    column->setSpacing(grid(1));
    auto* words = makeLabel(label, TextSize::small, Tone::quiet, this);
    auto* edit = new QLineEdit{this};
    edit->setObjectName(QString::fromLatin1(name));
    edit->setAccessibleName(label);
    edit->setPlaceholderText(hint);
    edit->setMaximumWidth(grid(34));
    words->setBuddy(edit);
    words->setWordWrap(false);
    column->addWidget(words);
    column->addWidget(edit);
    row.addLayout(column);
    connect(edit, &QLineEdit::textChanged, this, &ChargeForm::reckon);
    return edit;
}

ChargeForm::ChargeForm(Desk& desk, QWidget* parent) : QWidget{parent}, desk_{desk}
{
    auto* row = new QHBoxLayout;
    row->setSpacing(grid(3));
    const auto box = [&](const char* name, const QString& label) {
        auto* column = new QVBoxLayout;
        column->setSpacing(grid(1));
        auto* words = makeLabel(label, TextSize::small, Tone::quiet, this);
        words->setWordWrap(false);
        auto* combo = new QComboBox{this};
        combo->setObjectName(QString::fromLatin1(name));
        combo->setAccessibleName(label);
        combo->setSizeAdjustPolicy(QComboBox::AdjustToContents);
        column->addWidget(words);
        column->addWidget(combo);
        row->addLayout(column);
        return combo;
    };
    type_ = box("chargeType", tr("Job type"));
    area_ = field("chargeArea", tr("Area, ft\u00b2"), tr("450"), *row);
    thickness_ = field("chargeThickness", tr("Thickness, in"), tr("4"), *row);
    month_ = box("chargeMonth", tr("Poured in"));
    for (int month = 1; month <= 12; ++month) month_->addItem(QLocale{QLocale::English}.standaloneMonthName(month), month);
    month_->setCurrentIndex(desk.today().month() - 1);
    perHour_ = field("chargePerHour", tr("Profit per crew-hour, $"), tr("as usual"), *row);
    price_ = field("chargePrice", tr("Price to judge, $"), tr("none"), *row);
    row->addStretch(1);
    connect(type_, &QComboBox::currentIndexChanged, this, &ChargeForm::reckon);
    connect(month_, &QComboBox::currentIndexChanged, this, &ChargeForm::reckon);

    answer_ = makeLabel({}, TextSize::body, Tone::plain, this);
    answer_->setObjectName(QStringLiteral("chargeAnswer"));
    winning_ = makeLabel({}, TextSize::small, Tone::quiet, this);
    winning_->setObjectName(QStringLiteral("chargeWinning"));
    parts_ = new RecordTable{tr("What it costs"),
                             {{.heading = tr("What it costs"), .width = 16},
                              {.heading = tr("Amount, $"), .align = Align::right, .width = 13},
                              {.heading = tr("80 % from, $"), .align = Align::right, .width = 13},
                              {.heading = tr("to, $"), .align = Align::right, .width = 13},
                              {.heading = tr("Jobs it rests on"), .align = Align::right, .width = 14},
                              {.heading = tr("How"), .width = 50, .stretches = true}},
                             desk, this};
    parts_->setEmptyText(tr("Say what is to be poured: job type, area, thickness and month."));
    parts_->setFilterVisible(false);
    auto* caution = makeLabel(tr("A range of past jobs, not a promise: what is special about this one, its access, its ground and its weather, is yours to judge."), TextSize::small, Tone::quiet, this);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, grid(2), 0, 0);
    layout->setSpacing(grid(3));
    layout->addLayout(row);
    layout->addWidget(answer_);
    layout->addWidget(parts_, 1);
    layout->addWidget(winning_);
    layout->addWidget(caution);
}

void ChargeForm::setJobs(const FinishedJobs& jobs, CostReckoner& reckoner)
{
    jobs_ = &jobs;
    prices_ = pricesToCharge(reckoner, desk_.today());
    {
        const QSignalBlocker quiet{type_};
        const auto chosen = type_->currentData();
        type_->clear();
        for (const auto& type : desk_.book().all<JobType>()) type_->addItem(qs(type.name), static_cast<qlonglong>(type.id.value()));
        type_->setCurrentIndex(std::max(0, type_->findData(chosen)));
    }
    reckon();
}

void ChargeForm::reckon()
{
    if (!jobs_) return;
    const auto* type = desk_.book().find(Id<JobType>{type_->currentData().toLongLong()});
    const auto area = typedIn(*area_), thickness = typedIn(*thickness_), perHour = typedIn(*perHour_), price = typedIn(*price_);
    const auto wrong = [&]() -> QString {
        if (!type) return tr("No job type yet: add one on Rates.");
        if (area.wrong) return tr("The area is no figure; write square feet, as 450.");
        if (thickness.wrong) return tr("The thickness is no figure; write inches, as 4 or 4.5.");
        if (perHour.wrong) return tr("The profit per crew-hour is no sum; write dollars, as 55.");
        if (price.wrong) return tr("The price is no sum; write dollars, as 4,250.");
        return {};
    }();
    setTone(*answer_, wrong.isEmpty() ? Tone::plain : Tone::wrong);
    winning_->setText({});
    answer_->setVisible(!wrong.isEmpty() || area.figure);
    if (!wrong.isEmpty() || !area.figure) {
        answer_->setText(wrong);
        parts_->setRows({});
        return;
    }
    ChargeQuestion question;
    question.type = type->id;
    question.areaSqft = *area.figure;
    question.thicknessIn = thickness.figure.value_or(type->thickness.inches());
    question.month = month_->currentData().toInt();
    if (perHour.figure) question.profitPerCrewHour = moneyOf(*perHour.figure);
    if (price.figure) question.price = moneyOf(*price.figure);
    const auto charge = chargeFor(*jobs_, question, prices_, desk_.book().settings().southernHalf, desk_.today());
    answer_->setText(qs(charge.answer));
    winning_->setText(qs(charge.winning));
    std::vector<TableRow> rows;
    if (charge.missing.empty()) {
        for (const auto& part : charge.parts)
            rows.push_back({{}, {textCell(qs(part.name)), moneyCell(moneyOf(part.amount)), textCell({}), textCell({}), numberCell(part.jobs), textCell(qs(part.detail))}, {}, false});
        rows.push_back({{}, {textCell(tr("Together")), moneyCell(moneyOf(charge.cost.value)), moneyCell(moneyOf(charge.cost.low)), moneyCell(moneyOf(charge.cost.high)), numberCell(charge.jobsOfType),
                             textCell(tr("jobs of the type; the range is that of one job"))}, {}, false});
    }
    parts_->setRows(std::move(rows));
}

}
