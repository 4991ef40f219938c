#include <QCoreApplication>

namespace {

// Qt finds its database drivers through an application object; one for the whole test program.
int argumentCount = 1;
char programName[] = "storage_tests";
char* arguments[] = {programName, nullptr};
const QCoreApplication application{argumentCount, arguments};

}
