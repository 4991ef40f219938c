#pragma once

#include <QFrame>
#include <QPointer>

#include "desk.h"
#include "form/draft_keeper.h"

#include "visits/visit_steps.h"

class QCheckBox;
class QHBoxLayout;
class QLabel;
class QLineEdit;
class QPushButton;

namespace strikeoff {

class ReasonStrip;

/// Asks in place how a return visit went: done with its time, people, gallons, photos and note, or not today and why, or left out and why. Enter saves, Esc
/// leaves the visit as it is; what cannot be read is marked with words and nothing is written.
class VisitStrip : public QFrame {
    Q_OBJECT
public:
    explicit VisitStrip(Desk& desk, QWidget* parent = nullptr);

    /// Shows the form for a visit done on a day. One that is done or waived already says so instead.
    void ask(const Visit& visit, Date day);
    void askPutOff(const Visit& visit, Date day);
    void askWaive(const Visit& visit, Date day);
    /// Puts the strip away without doing anything.
    void leave();
    bool isAsking() const;

signals:
    /// Something was written about the visit.
    void settled();
    void put();  ///< the strip was put away, whatever came of it

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    QLineEdit* addField(QHBoxLayout& line, const char* name, const QString& label, const QString& hint, int width, QWidget** holder = nullptr);
    void choosePhotos();
    std::optional<VisitDone> read();
    void fault(QLineEdit* field, const QString& words);
    void save();
    void perform(const Step& step);
    const Visit* visit() const;
    bool begin(const Visit& visit, Date day);
    void fillPeople(const VisitDone& done);
    TypedRow texts() const;
    void putTexts(const TypedRow& texts);
    Draft typedDraft() const;

    Desk& desk_;
    DraftPlace drafts_;
    TypedRow begun_;  ///< texts as they were proposed
    Id<Visit> visit_;
    Date day_;
    QWidget* form_;
    QLabel* title_;
    QLabel* fault_;
    QLineEdit *dayField_, *minutes_, *drive_, *gallons_, *photos_, *note_;
    QWidget* gallonsHolder_ = nullptr;
    QCheckBox* material_;
    QHBoxLayout* people_;
    std::vector<std::pair<Id<CrewMember>, QCheckBox*>> boxes_;
    QPushButton* lead_;
    ReasonStrip* reason_;
    QPointer<QWidget> before_;  ///< had the focus
};

}
