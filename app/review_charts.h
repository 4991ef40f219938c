#pragma once

#include "chart.h"

#include "review/leads_to_paid.h"
#include "review/what_pays.h"
#include "review/year_bridge.h"

namespace strikeoff {

/// What each group of jobs pays per crew-hour, with overhead as a line: before overhead.
Chart whatPaysChart(const WhatPays& pays);
/// What finished jobs cost against what they were bid to cost, by job type.
Chart bidsChart(const FinishedJobs& jobs, const ReviewFilter& filter = {});
/// What moved the profit from one year to another.
Chart yearBridgeChart(const YearBridge& bridge);
/// How many leads come how far, and how long each step takes.
Chart leadsToPaidChart(const LeadsToPaid& leads);

/// All of the above for a book on a day: job types, bids, the last two years beside each other, leads of all days.
std::vector<Chart> reviewCharts(const Book& book, Date today);

}
