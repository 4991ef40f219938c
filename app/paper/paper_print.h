#pragma once

#include "paper/paper_document.h"

#include <QString>

class QPagedPaintDevice;
class QWidget;

namespace strikeoff {

/// Gives a printer or a file the document's paper size and turn. Before painting, or the first page keeps the old ones.
void setUpPage(QPagedPaintDevice& device, const PaperDocument& document);

/// Prints a paper on the pages the device has, whatever their size, with our own margins of 0.75 in. The one painter behind files, printers and previews.
void print(QPagedPaintDevice& device, const PaperDocument& document);

/// Writes a paper as PDF that only its owner may read (mode 0600), whole or not at all. On failure false, and in fault a line that names the path and the reason.
bool writePdf(const QString& path, const PaperDocument& document, QString& fault);

/// Shows the paper as it will be printed; from there it goes to a printer or a file. Returns when the preview is put away.
void showPrintPreview(QWidget* parent, const PaperDocument& document);

}
