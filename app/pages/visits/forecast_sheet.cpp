#include "pages/visits/forecast_sheet.h"

#include "file.h"
#include "labels.h"
#include "load.h"
#include "pages/visits/forecast_model.h"
#include "quantity/words.h"
#include "table/grid_view.h"

#include <QApplication>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace strikeoff {

ForecastSheet::ForecastSheet(Desk& desk, QWidget* parent)
    : QWidget{parent}, desk_{desk}, drafts_{desk, DraftKeeper::of(desk).numbered("forecast of two weeks"), [this] { return Draft{0, 0, tr("the forecast"), model_->typedRows()}; }}
{
    setObjectName(QStringLiteral("forecastSheet"));
    model_ = new ForecastModel{desk, this};
    view_ = new GridView{tr("The forecast being typed"), *model_, desk, this};
    setFocusProxy(view_);
    view_->verticalHeader()->hide();
    view_->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    auto* bar = new QHBoxLayout;
    bar->setSpacing(grid(2));
    state_ = makeLabel({}, TextSize::body, Tone::plain, this);
    state_->setObjectName(QStringLiteral("forecastState"));
    leave_ = makeButton("leaveForecast", tr("Back"), nullptr, this);
    leave_->hide();
    putBack_ = makeButton("putBackForecast", tr("Put back as saved"), nullptr, this);
    load_ = makeButton("loadForecast", tr("Load a CSV file\u2026"), nullptr, this);
    save_ = makeButton("saveForecast", tr("Save the forecast"), "main", this);
    save_->setToolTip(tr("Ctrl+Enter"));
    bar->addWidget(state_, 1);
    for (auto* button : {leave_, putBack_, load_, save_}) bar->addWidget(button);
    auto* hint = makeLabel(tr("Enter or Tab goes on, Shift+Enter to the next day, Ctrl+Enter saves; Ctrl+V takes whole rows. Rain in per cent, times like 2p or 14:30. "
                              "A day left blank is unknown, never taken for fine."), TextSize::small, Tone::quiet, this);
    auto* rows = new QVBoxLayout{this};
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(grid(2));
    rows->addLayout(bar);
    rows->addWidget(view_, 1);
    rows->addWidget(hint);

    connect(view_, &GridView::saveWanted, this, &ForecastSheet::save);
    connect(save_, &QPushButton::clicked, this, &ForecastSheet::save);
    connect(putBack_, &QPushButton::clicked, this, &ForecastSheet::putBack);
    connect(load_, &QPushButton::clicked, this, &ForecastSheet::chooseFile);
    connect(leave_, &QPushButton::clicked, this, &ForecastSheet::left);
    connect(model_, &ForecastModel::wordsChanged, this, &ForecastSheet::showState);
    connect(model_, &ForecastModel::wordsChanged, this, &ForecastSheet::keepTyped);
    showState();
}

void ForecastSheet::setLeavable(bool leavable) { leave_->setVisible(leavable); }
QString ForecastSheet::answer() const { return state_->text(); }
void ForecastSheet::setAnswerShown(bool shown)
{
    state_->setMaximumHeight(shown ? QWIDGETSIZE_MAX : 0);  // its place in the line stays
}
bool ForecastSheet::hasUnsaved() const { return model_->hasChanged() || drafts_.any(); }

void ForecastSheet::keepTyped()
{
    if (!begun_) return;  // what was left here is not taken up yet
    if (model_->hasChanged()) drafts_.wasTyped();
    else drafts_.keepNow();
}

void ForecastSheet::putBack()
{
    model_->startAgain();
    takeFocus();
}

void ForecastSheet::refresh()
{
    if (const auto draft = begun_ ? std::nullopt : drafts_.kept()) model_->putTyped(draft->rows);
    else model_->refresh();
    begun_ = true;
    if (!model_->hasChanged()) drafts_.keepNow();
    showState();
}

void ForecastSheet::showState()
{
    state_->setText(qs(forecastAnswer(model_->readings(), desk_.today())));
    putBack_->setVisible(model_->hasChanged());
    save_->setEnabled(model_->hasChanged() && !desk_.store().isReadOnly());
    load_->setEnabled(!desk_.store().isReadOnly());
}

void ForecastSheet::takeFocus()
{
    const auto at = view_->currentIndex();  // a table that gets the keyboard for the first time takes its first cell, which is no place to type
    view_->setFocus();
    if (at.column() > 0) return view_->typeAt(at.row(), at.column());
    // Where the forecast ends is where typing goes on.
    const auto& days = model_->readings();
    const auto blank = std::ranges::find_if(days, [](const auto& day) { return day.blank; });
    view_->typeInRow(blank == days.end() ? 0 : static_cast<int>(blank - days.begin()));
}

bool ForecastSheet::save()
{
    view_->setFocus();  // an open cell is taken in first
    int faulty = 0;
    const auto edit = model_->edit(faulty);
    if (!edit) {
        desk_.say(tr("Nothing is saved yet. %1").arg(model_->wordsAt(faulty)), Tone::attention);
        view_->typeInRow(faulty);
        return false;
    }
    if (model_->isOvertaken()) {
        desk_.say(tr("Nothing is saved: the forecast was changed elsewhere since it was typed here. \u201cPut back as saved\u201d shows what the book says now."), Tone::attention);
        return false;
    }
    if (edit->empty()) {
        model_->startAgain();
        desk_.say(tr("The book has this forecast already."), Tone::quiet);
        return true;
    }
    if (!desk_.commitOrSay(*edit)) return false;
    model_->startAgain();
    desk_.say(tr("Saved: the forecast. Ctrl+Z takes it back."), Tone::well);
    emit left();
    return true;
}

void ForecastSheet::chooseFile()
{
    const auto path = QFileDialog::getOpenFileName(QApplication::activeWindow(), tr("Forecast"), desk_.preferences().folder(), tr("CSV files (*.csv);;All files (*)"));
    if (path.isEmpty()) return;
    desk_.preferences().setFolder(QFileInfo{path}.absolutePath());
    loadFile(path);
}

bool ForecastSheet::loadFile(const QString& path)
{
    if (model_->hasChanged()) {
        desk_.say(tr("What is typed here is not saved yet. Save it first (Ctrl+Enter), then load the file."), Tone::attention);
        return false;
    }
    bool loaded = false;
    desk_.guarded(tr("Loading the forecast"), [&] {
        std::string fault;
        const auto bytes = readWholeFile(utf8(path), fault);
        if (!bytes) return desk_.say(qs(fault), Tone::wrong);
        const auto name = QFileInfo{path}.fileName();
        const auto result = loadCsv(desk_.store(), RecordKind::forecast, utf8(name), *bytes);
        if (!result.done()) return desk_.say(tr("Nothing was loaded.\n%1").arg(qs(result.faultText(utf8(name), 5))), Tone::attention);
        model_->startAgain();
        loaded = true;
        desk_.say(tr("Loaded from %1: %2 added, %3 changed. Ctrl+Z takes them back.").arg(name, QString::number(result.added), QString::number(result.changed)), Tone::well);
    });
    return loaded;
}

}
