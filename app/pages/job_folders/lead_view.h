#pragma once

#include <QWidget>

#include "desk.h"

namespace strikeoff {

class RecordsPanel;

/// The first paper of a folder: the lead it began with at the left, the folder itself (customer, site, its end) at the right. A job that came without a
/// lead can be given one.
class LeadView : public QWidget {
    Q_OBJECT
public:
    explicit LeadView(Desk& desk, QWidget* parent = nullptr);

    void setJob(Id<Job> job);
    void refresh();
    RecordsPanel* lead() const { return lead_; }
    RecordsPanel* job() const { return job_; }

private:
    Desk& desk_;
    Id<Job> shown_;
    RecordsPanel* lead_;
    RecordsPanel* job_;
};

}
