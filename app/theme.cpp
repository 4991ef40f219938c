#include "theme.h"

#include <QApplication>
#include <QFontDatabase>
#include <QFontMetricsF>
#include <QPalette>
#include <QStyleFactory>

// Outside of any namespace, as the macro wants it: the marks lie in a static library.
static void initMarks() { Q_INIT_RESOURCE(marks); }

namespace strikeoff {

namespace {

const Palette* worn = nullptr;

QFont systemFont()
{
    static const QFont font = QApplication::font();
    return font;
}

bool systemIsDark()
{
    static const bool dark = [] {
        const auto system = QApplication::palette();
        return system.color(QPalette::Window).lightnessF() < system.color(QPalette::WindowText).lightnessF();
    }();
    return dark;
}

/// The ground of what is selected: the sheet with a fifth of the accent in it, on which ink stays well legible.
QColor selectedGround(const Palette& from)
{
    const auto mixed = [](int ground, int over) { return (4 * ground + over) / 5; };
    return QColor{mixed(from.sheet.red(), from.accent.red()), mixed(from.sheet.green(), from.accent.green()), mixed(from.sheet.blue(), from.accent.blue())};
}

QPalette paletteOf(const Palette& from)
{
    QPalette palette;
    const auto selected = selectedGround(from);
    palette.setColor(QPalette::Window, from.page);
    palette.setColor(QPalette::WindowText, from.ink);
    palette.setColor(QPalette::Base, from.sheet);
    palette.setColor(QPalette::AlternateBase, from.page);
    palette.setColor(QPalette::Text, from.ink);
    palette.setColor(QPalette::Button, from.sheet);
    palette.setColor(QPalette::ButtonText, from.ink);
    palette.setColor(QPalette::BrightText, from.wrong);
    palette.setColor(QPalette::ToolTipBase, from.sheet);
    palette.setColor(QPalette::ToolTipText, from.ink);
    palette.setColor(QPalette::PlaceholderText, from.quiet);
    palette.setColor(QPalette::Link, from.accent);
    palette.setColor(QPalette::LinkVisited, from.accent);
    palette.setColor(QPalette::Highlight, selected);
    palette.setColor(QPalette::HighlightedText, from.ink);
    palette.setColor(QPalette::Light, from.sheet);
    palette.setColor(QPalette::Midlight, from.line);
    palette.setColor(QPalette::Mid, from.line);
    palette.setColor(QPalette::Dark, from.quiet);
    palette.setColor(QPalette::Shadow, from.line);
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) palette.setColor(QPalette::Disabled, role, from.quiet);
    return palette;
}

}

QString styleSheetFor(const Palette& from)
{
    const auto selected = selectedGround(from);
    auto sheet = QStringLiteral(R"(
* { outline: none; }
QMainWindow, QDialog { background: @page; }
QToolTip { background: @sheet; color: @ink; border: 1px solid @line; padding: 4px 8px; }
QMenuBar { background: @page; border-bottom: 1px solid @line; }
QMenuBar::item { padding: 4px 8px; background: transparent; }
QMenuBar::item:selected { background: @selected; color: @ink; }
QMenu { background: @sheet; border: 1px solid @line; padding: 4px 0; }
QMenu::item { padding: 6px 24px; color: @ink; }
QMenu::item:selected { background: @selected; color: @ink; }
QMenu::item:disabled { color: @quiet; }
QMenu::separator { height: 1px; background: @line; margin: 4px 0; }
QLineEdit, QPlainTextEdit, QComboBox, QAbstractSpinBox {
    background: @sheet; border: 1px solid @line; border-radius: 4px; selection-background-color: @selected; selection-color: @ink; }
QLineEdit, QComboBox, QAbstractSpinBox { min-height: 26px; padding: 0 8px; }
QPlainTextEdit { padding: 2px 4px; }
QLineEdit:focus, QPlainTextEdit:focus, QComboBox:focus, QAbstractSpinBox:focus { border: 1px solid @accent; }
QLineEdit[fault="true"], QPlainTextEdit[fault="true"], QComboBox[fault="true"] { border: 1px solid @wrong; }
QLineEdit:disabled, QPlainTextEdit:disabled, QComboBox:disabled, QLineEdit:read-only { background: @page; color: @quiet; }
QComboBox::drop-down { border: none; width: 24px; }
QComboBox::down-arrow { image: url(:/marks/down_@mode.svg); width: 12px; height: 12px; }
QComboBox QAbstractItemView { background: @sheet; color: @ink; border: 1px solid @line; selection-background-color: @selected; selection-color: @ink; }
QPushButton, QToolButton { background: @sheet; color: @ink; border: 1px solid @line; border-radius: 4px; min-height: 26px; padding: 0 12px; }
QToolButton { padding: 0 8px; }
QToolButton::menu-indicator { image: none; }
QPushButton:hover, QToolButton:hover { border-color: @quiet; }
QPushButton:focus, QToolButton:focus, QPushButton:default { border-color: @accent; }
QPushButton:pressed, QToolButton:pressed, QPushButton:checked, QToolButton:checked { background: @selected; border-color: @accent; }
QPushButton:disabled, QToolButton:disabled { color: @quiet; background: @page; }
QPushButton[role="main"] { background: @accent; color: @onaccent; border-color: @accent; }
QPushButton[role="main"]:disabled { background: @page; color: @quiet; border-color: @line; }
QPushButton[role="main"]:focus { border: 2px solid @ink; }
QPushButton[role="paper"] { min-height: 44px; padding: 0 8px; }
QPushButton[role="link"] { background: transparent; border: 1px solid transparent; color: @accent; text-align: left; padding: 0 4px; }
QPushButton[role="link"]:focus { border-color: @accent; }
QCheckBox, QRadioButton { min-height: 28px; spacing: 8px; }
QCheckBox:focus, QRadioButton:focus { color: @accent; }
QCheckBox::indicator, QTableView::indicator { width: 14px; height: 14px; border: 1px solid @quiet; border-radius: 2px; background: @sheet; }
QCheckBox::indicator:checked, QTableView::indicator:checked { image: url(:/marks/check_@mode.svg); }
QCheckBox::indicator:focus { border-color: @accent; border-width: 2px; }
QTableView, QListView, QTreeView {
    background: @sheet; color: @ink; border: 1px solid @line; border-radius: 4px; gridline-color: @line;
    selection-background-color: @selected; selection-color: @ink; alternate-background-color: @page; }
QTableView:focus, QListView:focus, QTreeView:focus { border-color: @accent; }
QHeaderView { background: @sheet; border: none; }
QHeaderView::section { background: @sheet; color: @quiet; border: none; border-bottom: 1px solid @line; padding: 6px 8px; }
QTableCornerButton::section { background: @sheet; border: none; }
QTabWidget::pane { border: none; }
QTabBar::tab { background: transparent; color: @quiet; border: none; border-bottom: 2px solid transparent; padding: 6px 12px; min-height: 20px; }
QTabBar::tab:selected { color: @ink; border-bottom-color: @accent; }
QTabBar::tab:hover { color: @ink; }
QTabBar::tab:focus { color: @accent; }
QTabBar#tabGroups::tab { border: 1px solid transparent; border-radius: 4px; padding: 4px 12px; margin-right: 4px; }
QTabBar#tabGroups::tab:selected { background: @sheet; border-color: @line; }
QTabBar QToolButton { min-height: 20px; padding: 0 4px; }
QScrollArea { border: none; background: transparent; }
QScrollArea > QWidget > QWidget { background: transparent; }
QAbstractScrollArea::corner { background: transparent; border: none; }
QSplitter::handle { background: @page; }
QScrollBar:vertical { background: transparent; width: 12px; margin: 0; }
QScrollBar:horizontal { background: transparent; height: 12px; margin: 0; }
QScrollBar::handle { background: @line; border-radius: 4px; margin: 2px; }
QScrollBar::handle:vertical { min-height: 28px; }
QScrollBar::handle:horizontal { min-width: 28px; }
QScrollBar::handle:hover { background: @quiet; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QProgressBar { background: @sheet; border: 1px solid @line; border-radius: 4px; min-height: 20px; text-align: center; }
QProgressBar::chunk { background: @selected; border-radius: 4px; }
QGroupBox { border: 1px solid @line; border-radius: 4px; margin-top: 12px; padding: 8px; }
QGroupBox::title { subcontrol-origin: margin; left: 8px; padding: 0 4px; color: @quiet; }
QFrame[role="sheet"] { background: @sheet; border: 1px solid @line; border-radius: 4px; }
QFrame[role="line"] { background: @line; border: none; max-height: 1px; min-height: 1px; }
QFrame[role="foot"] { background: @page; border: none; border-top: 1px solid @line; }
QFrame[role="side"] { background: @page; border: none; border-right: 1px solid @line; }
QFrame[role="side"] QListView { background: transparent; border: 1px solid transparent; }
QFrame[role="strip"] { background: @sheet; border: 1px solid @line; border-radius: 4px; }
QFrame[tone="attention"] { border: 1px solid @attention; }
QFrame[tone="wrong"] { border: 1px solid @wrong; }
QFrame[tone="well"] { border: 1px solid @well; }
QLabel, QLabel[tone="attention"], QLabel[tone="wrong"], QLabel[tone="well"] { background: transparent; border: none; }
QLabel[tone="quiet"] { color: @quiet; }
QLabel[tone="accent"] { color: @accent; }
QLabel[tone="attention"] { color: @attention; }
QLabel[tone="wrong"] { color: @wrong; }
QLabel[tone="well"] { color: @well; }
)");
    sheet.replace(QStringLiteral("@mode"), from.dark ? QStringLiteral("dark") : QStringLiteral("light"));
    // Longer names first, so that none is taken for the beginning of another.
    const std::pair<const char*, QColor> colors[] = {{"@attention", from.attention}, {"@selected", selected}, {"@onaccent", from.dark ? from.page : from.sheet},
        {"@accent", from.accent}, {"@sheet", from.sheet}, {"@quiet", from.quiet}, {"@wrong", from.wrong}, {"@page", from.page}, {"@line", from.line},
        {"@well", from.well}, {"@ink", from.ink}};
    for (const auto& [name, color] : colors) sheet.replace(QLatin1String{name}, color.name());
    return sheet;
}

void applyLook(Look look)
{
    initMarks();
    const auto base = systemFont();  // both are asked for before anything is changed
    const bool dark = look == Look::dark || (look == Look::system && systemIsDark());
    worn = dark ? &darkPalette() : &lightPalette();
    if (auto* style = QStyleFactory::create(QStringLiteral("Fusion"))) QApplication::setStyle(style);
    QApplication::setFont(base);
    QApplication::setPalette(paletteOf(*worn));
    qApp->setStyleSheet(styleSheetFor(*worn));
}

const Palette& windowPalette() { return worn ? *worn : lightPalette(); }

QFont textFont(TextSize size)
{
    auto font = systemFont();
    const double factor = size == TextSize::question ? 1.5 : size == TextSize::small ? 0.9 : 1.0;
    if (font.pointSizeF() > 0) font.setPointSizeF(font.pointSizeF() * factor);
    else font.setPixelSize(qRound(font.pixelSize() * factor));
    return font;
}

QFont figureFont()
{
    static const QFont figures = [] {
        const auto body = textFont(TextSize::body);
        const QFontMetricsF metrics{body};
        const auto width = metrics.horizontalAdvance(u'0');
        for (char16_t digit = u'1'; digit <= u'9'; ++digit) {
            if (qAbs(metrics.horizontalAdvance(QChar{digit}) - width) < 0.01) continue;
            auto fixed = QFontDatabase::systemFont(QFontDatabase::FixedFont);
            fixed.setPointSizeF(body.pointSizeF());
            return fixed;
        }
        return body;
    }();
    return figures;
}

QColor toneColor(Tone tone)
{
    const auto& palette = windowPalette();
    switch (tone) {
    case Tone::quiet: return palette.quiet;
    case Tone::accent: return palette.accent;
    case Tone::attention: return palette.attention;
    case Tone::wrong: return palette.wrong;
    case Tone::well: return palette.well;
    case Tone::plain: break;
    }
    return palette.ink;
}

}
