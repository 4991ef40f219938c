#include "page.h"

#include "table/record_table.h"

namespace strikeoff {

void Page::print(QPrinter& printer) const
{
    if (const auto* rows = table()) rows->print(printer, rows->name());
}

}
