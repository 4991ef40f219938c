#include "cost_bridge.h"

#include "cost/causes.h"
#include "labels.h"

#include <QCoreApplication>

namespace strikeoff {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("CostBridge", text); }

QString signedDollars(Money amount) { return (amount < Money{} ? QStringLiteral("\u2212") : QStringLiteral("+")) + qs((amount < Money{} ? -amount : amount).shown(0)); }

/// Whole dollars with their mark, as charts have them.
QString wholeDollars(Money amount) { return QStringLiteral("$") + qs(amount.shown(0)); }

}

Waterfall bridgeOf(const JobExplanation& explained)
{
    Waterfall bridge;
    bridge.from = tr("Bid");
    bridge.start = explained.bid.toDouble();
    bridge.startFigure = wholeDollars(explained.bid);
    for (const auto& cause : causesOf(explained)) {
        WaterfallGroup group{qs(labelOf(cause.cause)), signedDollars(cause.amount), {}};
        for (const auto& part : cause.parts)
            group.steps.push_back({qs(labelOf(part.costClass)) + QStringLiteral(", ") + qs(part.reason.name), part.reason.amount.toDouble(), signedDollars(part.reason.amount)});
        bridge.groups.push_back(std::move(group));
    }
    bridge.to = explained.open ? tr("Spent so far") : tr("Result");
    bridge.endFigure = wholeDollars(explained.actual);
    bridge.axis = tr("cost of the job, $ (to the right: cost more)");
    return bridge;
}

}
