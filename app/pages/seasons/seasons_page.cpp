#include "pages/seasons/seasons_page.h"

#include "chart_view.h"
#include "labels.h"
#include "pages/seasons/seasons_detail.h"
#include "season/seasons.h"
#include "season_charts.h"
#include "table/record_table.h"

#include <QComboBox>
#include <QGridLayout>
#include <QPushButton>
#include <QScrollArea>
#include <QShortcut>
#include <QTabWidget>
#include <QTableView>

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

constexpr int sideBySideWidth = 940;
/// What a choice of the range holds: so many months back below 1000, else a year; 0 is everything.
constexpr int firstYear = 1000;

QComboBox* choice(const char* name, const QString& meaning, QWidget* parent)
{
    auto* box = new QComboBox{parent};
    box->setObjectName(QString::fromLatin1(name));
    box->setAccessibleName(meaning);
    box->setMinimumWidth(grid(44));
    return box;
}


}

SeasonsPage::SeasonsPage(Desk& desk, QWidget* parent) : Page{desk, parent}
{
    range_ = choice("seasonsRange", tr("Which days"), this);
    type_ = choice("seasonsType", tr("Which job type"), this);
    carry_ = makeLabel({}, TextSize::body, Tone::plain, this);
    quotes_ = makeButton("seasonsQuotes", {}, "link", this);
    empty_ = makeLabel(tr("Nothing yet: enter tickets on the Ticket desk, and pours with hours, and prices and pace show here month by month."), TextSize::body, Tone::quiet, this);
    empty_->setAlignment(Qt::AlignCenter);
    tabs_ = new QTabWidget{this};

    pictures_ = new QWidget{this};
    months_ = new ChartView{tr("Price and pace by month"), pictures_};
    priceSeasons_ = new ChartView{tr("Price by season"), pictures_};
    paceSeasons_ = new ChartView{tr("Pace by season"), pictures_};
    priceMissing_ = makeLabel({}, TextSize::small, Tone::quiet, pictures_);
    paceMissing_ = makeLabel({}, TextSize::small, Tone::quiet, pictures_);
    temperature_ = new ChartView{tr("Pace by temperature"), tabs_};
    detail_ = new SeasonsDetail{desk, this};
    grid_ = new QGridLayout{pictures_};
    grid_->setContentsMargins(0, grid(2), 0, 0);
    grid_->setSpacing(grid(2));
    auto* scroll = new QScrollArea{tabs_};
    scroll->setWidgetResizable(true);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setWidget(pictures_);
    tabs_->addTab(scroll, tr("Price and pace"));
    tabs_->addTab(detail_->carryView(), tr("What to carry"));
    tabs_->addTab(temperature_, tr("Pace by temperature"));
    tabs_->addTab(detail_->methodView(), tr("Counts and method (F8)"));

    auto* bar = new QHBoxLayout;
    bar->setSpacing(grid(2));
    bar->addWidget(range_);
    bar->addWidget(type_);
    bar->addWidget(carry_, 1);
    bar->addWidget(quotes_);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(grid(2));
    layout->addLayout(bar);
    layout->addWidget(tabs_, 1);
    layout->addWidget(empty_, 1);

    for (auto* box : {range_, type_}) connect(box, &QComboBox::activated, this, [this] { refresh(); });
    connect(quotes_, &QPushButton::clicked, this, [this] { tabs_->setCurrentWidget(detail_->carryView()); });
    // One key there and back.
    connect(new QShortcut{QKeySequence{Qt::Key_F8}, this, nullptr, nullptr, Qt::WidgetWithChildrenShortcut}, &QShortcut::activated, this, [this] {
        tabs_->setCurrentIndex(tabs_->currentWidget() == detail_->methodView() ? 0 : tabs_->indexOf(detail_->methodView()));
        if (tabs_->currentWidget() == detail_->methodView()) detail_->monthsTable()->view().setFocus();
        else months_->setFocus();
    });
}

QString SeasonsPage::question() const { return tr("How do the seasons move price and pace?"); }

RecordTable* SeasonsPage::table() const { return tabs_->currentWidget() == detail_->carryView() ? detail_->carryTable() : detail_->monthsTable(); }

void SeasonsPage::fillChoices()
{
    const auto& book = desk().book();
    std::optional<int> first, last;
    const auto take = [&](Date day) {
        first = first ? std::min(*first, day.year()) : day.year();
        last = last ? std::max(*last, day.year()) : day.year();
    };
    for (const auto& ticket : book.all<Ticket>()) take(ticket.date);
    const auto fill = [](QComboBox* box, const std::vector<std::pair<QString, QVariant>>& choices) {
        const auto before = box->currentData();
        box->clear();
        for (const auto& [shown, value] : choices) box->addItem(shown, value);
        const int at = box->findData(before);
        box->setCurrentIndex(at >= 0 ? at : 0);
    };
    std::vector<std::pair<QString, QVariant>> ranges{
        {tr("All years"), 0}, {tr("Last 12 months"), 12}, {tr("Last 2 years"), 24}, {tr("Last 3 years"), 36}, {tr("Last 5 years"), 60}};
    if (last)
        for (int year = std::min(*last, desk().today().year()); year >= *first; --year) ranges.push_back({QString::number(year), year});
    fill(range_, ranges);
    std::vector<std::pair<QString, QVariant>> types;
    for (const auto& type : book.all<JobType>()) types.push_back({qs(type.name), QVariant::fromValue<qlonglong>(type.id.value())});
    std::ranges::sort(types, {}, [](const auto& type) { return type.first; });
    types.insert(types.begin(), {tr("All job types"), QVariant::fromValue<qlonglong>(0)});
    fill(type_, types);
}

SeasonScope SeasonsPage::scope() const
{
    SeasonScope scope;
    scope.today = desk().today();
    const int range = range_->currentData().toInt();
    if (range >= firstYear) {
        scope.from = Date::of(range, 1, 1);
        scope.to = Date::of(range, 12, 31);
    } else if (range > 0) {
        scope.from = monthsOn(firstOfMonth(scope.today), 1 - range);
    }
    if (const auto type = type_->currentData().toLongLong(); type != 0) scope.jobType = Id<JobType>{type};
    return scope;
}

void SeasonsPage::refresh()
{
    fillChoices();
    const auto& book = desk().book();
    const auto asked = scope();
    const auto seasons = seasonsOf(book, asked);
    const auto& prices = seasons.price;
    const auto& pace = seasons.pace;
    answer_ = qs(seasons.answer);
    const bool any = !prices.tickets.empty() || !pace.pours.empty() || range_->currentIndex() > 0 || type_->currentIndex() > 0;
    tabs_->setVisible(any);
    empty_->setVisible(!any);
    for (auto* box : {range_, type_}) box->setVisible(any);
    showCharts(seasons);
    detail_->show(prices, pace);
    emit answerChanged();
}

void SeasonsPage::showCharts(const Seasons& seasons)
{
    const auto& book = desk().book();
    const auto& [prices, pace, answer] = seasons;
    months_->show(priceAndPaceChart(book, seasons), &desk());
    priceSeasons_->show(priceSeasonsChart(prices), &desk());
    paceSeasons_->show(paceSeasonsChart(pace), &desk());
    temperature_->show(paceByTemperatureChart(book, pace), &desk());
    priceSeasons_->setVisible(!prices.seasons.empty());
    paceSeasons_->setVisible(!pace.seasons.empty());
    const auto say = [](QLabel* label, const std::string& missing, bool seen, bool shows) {
        label->setText(seen ? shows ? QString{} : tr("Differences this large come up by chance: take them as no season.") : qs(missing));
        label->setVisible(!label->text().isEmpty());
    };
    say(priceMissing_, prices.missing, !prices.seasons.empty(), prices.seasonsShow);
    say(paceMissing_, pace.missing, !pace.seasons.empty(), pace.seasonsShow);

    carry_->setText(prices.carry.empty() ? QString{}
                                         : tr("Carry $%1 a yard for %2 (%3 to %4)")
                                               .arg(qs(Money::ofCents(std::llround(prices.carry.front().delivered.value * 100)).shown()), qs(shownMonth(prices.carry.front().month)),
                                                    qs(Money::ofCents(std::llround(prices.carry.front().delivered.low * 100)).shown()),
                                                    qs(Money::ofCents(std::llround(prices.carry.front().delivered.high * 100)).shown())));
    const auto low = std::ranges::count_if(prices.openQuotes, &QuoteCarry::tooLow);
    quotes_->setText(low == 1 ? tr("1 open quote carries less") : tr("%1 open quotes carry less").arg(low));
    quotes_->setVisible(low > 0);
    arranged_ = 0;
    arrange();
}

void SeasonsPage::arrange()
{
    const int how = width() >= sideBySideWidth ? 1 : 2;
    if (how == arranged_) return;
    arranged_ = how;
    while (auto* item = grid_->takeAt(0)) delete item;
    for (int i = 0; i < 6; ++i) {
        grid_->setRowStretch(i, 0);
        grid_->setColumnStretch(i, 0);
    }
    const bool beside = how == 1;
    months_->setMinimumHeight(grid(beside ? 100 : 110));
    for (auto* chart : {priceSeasons_, paceSeasons_}) {
        const int needed = chart->heightFor(beside ? width() / 3 : width() / 2);
        chart->setMinimumHeight(std::max(needed, grid(40)));
        chart->setMaximumHeight(std::max(needed, grid(40)));
    }
    if (beside) {
        grid_->addWidget(months_, 0, 0, 4, 1);
        grid_->addWidget(priceSeasons_, 0, 1);
        grid_->addWidget(priceMissing_, 1, 1, Qt::AlignTop);
        grid_->addWidget(paceSeasons_, 2, 1);
        grid_->addWidget(paceMissing_, 3, 1, Qt::AlignTop);
        grid_->setColumnStretch(0, 13);
        grid_->setColumnStretch(1, 6);
        grid_->setRowStretch(1, 1);
        grid_->setRowStretch(3, 1);
    } else {
        grid_->addWidget(months_, 0, 0, 1, 2);
        grid_->addWidget(priceSeasons_, 1, 0, Qt::AlignTop);
        grid_->addWidget(paceSeasons_, 1, 1, Qt::AlignTop);
        grid_->addWidget(priceMissing_, 2, 0, Qt::AlignTop);
        grid_->addWidget(paceMissing_, 2, 1, Qt::AlignTop);
        grid_->setColumnStretch(0, 1);
        grid_->setColumnStretch(1, 1);
        grid_->setRowStretch(0, 1);
    }
}

void SeasonsPage::resizeEvent(QResizeEvent* event)
{
    Page::resizeEvent(event);
    arrange();
}

void SeasonsPage::takeFocus() { months_->setFocus(); }

}
