#pragma once

#include <QAbstractScrollArea>

#include "pages/ticket_desk/check_blocks.h"

namespace strikeoff {

/// The two papers of a check facing each other, ticket at the left, statement line at the right, the difference in the gutter between them.
class CheckSheet : public QAbstractScrollArea {
    Q_OBJECT
public:
    explicit CheckSheet(QWidget* parent = nullptr);

    void show(std::vector<CheckBlock> blocks, double largest);
    /// Words where there is nothing to show.
    void setEmptyText(const QString& text);
    /// Marks a finding and brings it into view.
    void setCurrent(std::optional<std::size_t> finding);
    std::optional<std::size_t> current() const { return current_; }
    std::size_t blockCount() const { return blocks_.size(); }

signals:
    /// Another finding was chosen here.
    void chosen(std::size_t finding);

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    struct Place {
        std::size_t block = 0;
        std::size_t row = 0;
    };
    void layOut();
    std::optional<Place> placeOf(std::size_t finding) const;
    void choose(std::size_t finding);
    void step(int rows);

    std::vector<CheckBlock> blocks_;
    std::vector<FacingLayout> layouts_;
    std::vector<double> tops_;
    double largest_ = 0;
    QString emptyText_;
    std::optional<std::size_t> current_;
};

}
