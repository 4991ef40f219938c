#include "page.h"

#include "paper/paper_print.h"
#include "table/record_table.h"

#include <QPrinter>

namespace strikeoff {

std::optional<PaperDocument> Page::paper() const
{
    const auto* rows = table();
    return rows ? std::optional{rows->paper(rows->name())} : std::nullopt;
}

void Page::print(QPrinter& printer) const
{
    if (const auto what = paper()) strikeoff::print(printer, *what);
}

}
