#pragma once

#include <QPushButton>

#include "job/papers.h"

namespace strikeoff {

/// One paper in the run of a folder: its name, its figure, and whether it is blank, in work or done, by mark and word.
class PaperButton : public QPushButton {
    Q_OBJECT
public:
    PaperButton(const QString& name, QWidget* parent);

    void setPaper(const FolderPaper& paper);
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    QString name_;
    QString figure_;
    PaperState state_ = PaperState::blank;
};

}
