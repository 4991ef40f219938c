#include "billing/billing.h"
#include "cost/job_cost.h"
#include "cost/ticket_billing.h"
#include "job/stage.h"
#include "quantity/words.h"
#include "takeoff/takeoff.h"

#include <algorithm>

namespace strikeoff {

namespace {

double areaOf(const Book& book, Id<Job> job)
{
    const auto measured = takeoffOf(book, job).areaSqft;
    if (measured > 0) return measured;
    Area poured;
    for (const auto* pour : book.referring<&Pour::job>(job)) poured += pour->area.value_or(Area{});
    return poured.toDouble();
}

}

std::vector<JobFolder> jobFolders(const Book& book)
{
    CostReckoner reckoner{book};
    return jobFolders(reckoner);
}

std::vector<JobFolder> jobFolders(CostReckoner& reckoner)
{
    const auto& book = reckoner.book();
    std::vector<JobFolder> folders;
    folders.reserve(book.all<Job>().size());
    for (const auto& job : book.all<Job>()) {
        JobFolder folder;
        folder.job = &job;
        folder.number = job.number;
        folder.title = job.title;
        const auto* customer = book.find(job.customer);
        if (customer) folder.customer = customer->name;
        if (const auto* site = book.find(job.site); site && !site->town.empty()) folder.town = site->town;
        else if (customer) folder.town = customer->town;
        if (const auto* type = book.find(job.jobType)) folder.type = type->name;
        const auto cost = reckoner.of(job);
        folder.stage = cost.stage;
        folder.areaSqft = areaOf(book, job.id);
        folder.bid = cost.bidPrice;
        if (!cost.actualCost.isZero()) folder.result = cost.grossProfit;
        folder.nextThing = nextThing(book, job, cost.stage);
        folders.push_back(std::move(folder));
    }
    return folders;
}

namespace {

bool wasPlaced(const Book& book, const JobFolder& folder)
{
    const auto pours = book.referring<&Pour::job>(folder.job->id);
    return std::any_of(pours.begin(), pours.end(), [](const Pour* pour) { return pour->pouredOn.has_value(); });
}

bool hasPourDay(const Book& book, const JobFolder& folder)
{
    const auto pours = book.referring<&Pour::job>(folder.job->id);
    return std::any_of(pours.begin(), pours.end(), [](const Pour* pour) { return pour->plannedOn || pour->pouredOn; });
}

const std::array filters{
    FolderFilter{"open", [](const Book&, const JobFolder& folder) { return isOpenStage(folder.stage); }},
    FolderFilter{
        "asked, not quoted yet",
        [](const Book&, const JobFolder& folder) { return folder.stage == Stage::measuring || folder.stage == Stage::drafted; }},
    FolderFilter{"quoted, no answer", [](const Book&, const JobFolder& folder) { return folder.stage == Stage::quoted; }},
    FolderFilter{"won, no pour date",
                 [](const Book& book, const JobFolder& folder) {
                     return (folder.stage == Stage::awarded || folder.stage == Stage::inWork) && !hasPourDay(book, folder);
                 }},
    FolderFilter{"pour planned", [](const Book&, const JobFolder& folder) { return folder.stage == Stage::planned; }},
    FolderFilter{"in work", [](const Book&, const JobFolder& folder) { return folder.stage == Stage::inWork; }},
    FolderFilter{"return visits open", [](const Book&, const JobFolder& folder) { return folder.stage == Stage::returning; }},
    FolderFilter{"poured, not billed",
                 [](const Book& book, const JobFolder& folder) {
                     return (folder.stage == Stage::poured || folder.stage == Stage::returning) &&
                            !billingOf(book, folder.job->id).inFull;
                 }},
    FolderFilter{"poured, no tickets",
                 [](const Book& book, const JobFolder& folder) {
                     return wasPlaced(book, folder) && ticketsOf(book, folder.job->id).empty();
                 }},
    FolderFilter{"billed, not paid",
                 [](const Book& book, const JobFolder& folder) {
                     return folder.stage != Stage::declined && folder.stage != Stage::dropped &&
                            billingOf(book, folder.job->id).balance > Money{};
                 }},
    FolderFilter{"losing money", [](const Book&, const JobFolder& folder) { return folder.result && *folder.result < Money{}; }},
    FolderFilter{"paid or closed",
                 [](const Book&, const JobFolder& folder) { return folder.stage == Stage::paid || folder.stage == Stage::closed; }},
    FolderFilter{
        "declined or dropped",
        [](const Book&, const JobFolder& folder) { return folder.stage == Stage::declined || folder.stage == Stage::dropped; }},
};
}

std::span<const FolderFilter> folderFilters() { return filters; }

std::string jobFoldersAnswer(const Book& book)
{
    if (book.all<Job>().empty()) return "No job folder yet: open one for the next call that comes in.";
    int open = 0;
    std::array<int, stageChoices.size()> count{};
    for (const auto& job : book.all<Job>()) {
        const auto stage = stageOf(book, job);
        ++count[static_cast<std::size_t>(stage)];
        if (isOpenStage(stage)) ++open;
    }
    const auto of = [&](Stage stage) { return count[static_cast<std::size_t>(stage)]; };
    if (open == 0)
        return "No job is open; " + counted(static_cast<std::int64_t>(book.all<Job>().size()), "job is", "jobs are") +
               " done or lost.";
    std::vector<std::string> parts;
    const auto say = [&](int number, const char* what) {
        if (number > 0) parts.push_back(inWords(number) + ' ' + what);
    };
    say(of(Stage::measuring) + of(Stage::drafted), "not quoted yet");
    say(of(Stage::quoted), "without an answer");
    say(of(Stage::awarded), "won without a pour date");
    say(of(Stage::planned), "with a pour planned");
    say(of(Stage::inWork), "in work");
    say(of(Stage::poured), "poured and not billed");
    say(of(Stage::returning), "with return visits open");
    say(of(Stage::billed), "billed and not paid");
    return capitalized(counted(open, "job is", "jobs are")) + " open: " + listed(parts) + ".";
}

}
