#pragma once

#include "page.h"

#include "day/day_sheet.h"
#include "form/form_layout.h"

#include <set>

class QLabel;
class QLineEdit;
class QPushButton;
class QScrollArea;
class QStackedWidget;
class QVBoxLayout;

namespace strikeoff {

class ForecastSheet;
class PaymentSplit;
class RecordForm;
class VisitStrip;

/// "What needs me today?": at the left the day from top to bottom with one verb a line and tomorrow dimmed below, at the right paper and money, or the form
/// of what is entered. Arrow keys go from line to line; after a verb the next line of its section is at hand.
class DaySheetPage : public Page {
    Q_OBJECT
public:
    explicit DaySheetPage(Desk& desk, QWidget* parent = nullptr);
    QString question() const override;
    QString answer() const override { return answer_; }
    void refresh() override;
    int waiting() const override;
    void takeFocus() override;
    bool canPrint() const override { return true; }
    std::optional<PaperDocument> paper() const override;
    bool hasUnsaved() const override;

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    /// Where a line stands, to be found again when the lines are others.
    struct Place {
        DaySection section{};
        int index = 0;  ///< within its section
        RecordKind kind{};
        std::int64_t id = 0;
    };
    struct Line {
        Place place;
        QPushButton* button;
        QWidget* holder;
        bool right = false;
        bool ahead = false;  ///< of the day after
    };
    void buildBar(QVBoxLayout& into);
    void buildForms();
    void showWeather();
    void fillDay();
    void addChecklist(QVBoxLayout& into);
    void enterForecast();
    void leaveForecast();
    void showRunSheet();
    void fillPapers();
    void addItems(QVBoxLayout& into, const std::vector<DayItem>& items, bool right, bool ahead);
    void addLine(QVBoxLayout& into, const DayItem& item, Place place, bool timed, bool right, bool ahead);
    void act(const DayItem& item);
    void enter(RecordKind kind, const Presets& presets = {});
    void leaveForm();
    void turnTo(Date day);
    const Line* focused() const;
    void focusNear(const Place& place);
    void focusLine(const Line& line);
    bool step(Qt::Key key);

    QString answer_;
    std::optional<Date> day_;  ///< another day than today
    QLineEdit* dayField_;
    QPushButton* backToToday_;
    QVBoxLayout* weather_;
    QScrollArea* left_;
    QScrollArea* right_;
    QStackedWidget* side_;
    std::vector<RecordForm*> forms_;
    PaymentSplit* split_ = nullptr;
    VisitStrip* visit_;
    QStackedWidget* middle_;  ///< the day's lines, or the forecast being typed
    ForecastSheet* forecast_;
    std::set<std::string> loaded_;  ///< what is ticked off of the load-out; gone with the window, as the truck is loaded once
    std::optional<Date> loadedFor_;
    std::vector<Line> lines_;
    std::optional<Place> last_;  ///< the line the keyboard was on last
    DaySheet sheet_;
    std::uint64_t version_ = 0;  ///< of the book the sheet was made from
};

}
