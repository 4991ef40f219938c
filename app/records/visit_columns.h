#pragma once

#include <QObject>

#include "table/record_source.h"
#include "visits/windows.h"

class QLabel;

namespace strikeoff {

class RecordForm;

/// Windows of the visits of an open book as it stands, made again when it was changed.
class CurrentWindows {
public:
    const VisitWindows& of(const Book& book);

private:
    std::shared_ptr<VisitWindows> windows_;
    const Book* book_ = nullptr;
    std::uint64_t version_ = 0;
};

/// The tone of where a visit stands.
Tone toneOf(VisitState state);
Cell stateCell(VisitState state);
/// What is done: "Seal, coat 2".
Cell kindCell(const Visit& visit);

/// A list of visits with where each stands and its window, typed or reckoned; with the job's title unless the list is of one job.
std::vector<RecordColumn> visitColumns(const Desk& desk, bool ofOneJob);

/// Says on the form of a visit what its window is where no day is typed, and why.
class WindowHints : public QObject {
    Q_OBJECT
public:
    WindowHints(Desk& desk, RecordForm& form);

private:
    void show();

    Desk& desk_;
    RecordForm& form_;
    QLabel* why_;
    CurrentWindows windows_;
};

}
