#include "visits/visit_words.h"

#include "quantity/words.h"

#include <vector>

namespace strikeoff {

namespace {

std::string joined(const std::string& address, const std::string& town)
{
    return address.empty() || town.empty() ? address + town : address + ", " + town;
}

std::string wishFor(VisitKind kind)
{
    switch (kind) {
    case VisitKind::strip: return "to take the forms off";
    case VisitKind::cut: return "to cut the joints. The saw is loud for a while, and water runs off it";
    case VisitKind::seal: return "to seal the concrete";
    case VisitKind::walkThrough: return "to walk over the work with you";
    case VisitKind::resealCall: return "about sealing the concrete again";
    }
    return "to look at the concrete";
}

std::string askedFor(VisitKind kind)
{
    switch (kind) {
    case VisitKind::strip: return "Please leave us a way in, and keep cars and pets off the slab.";
    case VisitKind::cut: return "Please leave us a way in and an outside tap, and keep cars, pets and people away from the saw.";
    case VisitKind::seal:
        return "Please leave us a way in, turn the sprinklers off the evening before, and keep cars, pets and people off the slab until we say it is "
               "ready.";
    case VisitKind::walkThrough: return "It takes about half an hour; have ready whatever you want looked at.";
    case VisitKind::resealCall: return "";
    }
    return "";
}

}

std::string_view doing(VisitKind kind)
{
    switch (kind) {
    case VisitKind::strip: return "Strip";
    case VisitKind::cut: return "Cut";
    case VisitKind::seal: return "Seal";
    case VisitKind::walkThrough: return "Walk through";
    case VisitKind::resealCall: return "Call about resealing";
    }
    return "Go back to";
}

std::string workPlace(const Book& book, Id<Job> job, const std::optional<Id<Pour>>& pour)
{
    const auto* found = book.find(job);
    std::string text = found ? found->title : "a job that is not in the book";
    if (const auto* at = book.find(pour)) text += ", pour " + std::to_string(at->sequence);
    return text;
}

std::string visitTitle(const Book& book, const Visit& visit)
{
    auto text = std::string{doing(visit.kind)} + ' ' + workPlace(book, visit.job, visit.pour);
    if (visit.kind == VisitKind::seal && visit.coat > 1) text += ", coat " + std::to_string(visit.coat);
    return text;
}

std::string addressOf(const Book& book, Id<Job> job)
{
    const auto* found = book.find(job);
    if (!found) return {};
    if (const auto* site = book.find(found->site)) {
        if (auto text = joined(site->address, site->town); !text.empty()) return text;
    }
    const auto* customer = book.find(found->customer);
    return customer ? joined(customer->address, customer->town) : std::string{};
}

std::string contactOf(const Book& book, Id<Job> job)
{
    const auto* found = book.find(job);
    const auto* customer = found ? book.find(found->customer) : nullptr;
    if (!customer) return {};
    return customer->phone.empty() ? customer->name : customer->name + ", " + customer->phone;
}

std::string siteNotes(const Book& book, Id<Job> job)
{
    const auto* found = book.find(job);
    const auto* site = found ? book.find(found->site) : nullptr;
    return site ? site->note : std::string{};
}

std::string windowText(const Visit& visit, Date seenFrom)
{
    std::string text;
    const auto also = [&](const char* words, const std::optional<Date>& day) {
        if (!day) return;
        if (!text.empty()) text += "; ";
        text += words + dayText(*day, seenFrom);
    };
    also("not before ", visit.notBefore);
    also("due ", visit.due);
    also("too late from ", visit.tooLate);
    return capitalized(text);
}

std::string customerReminder(const Book& book, const Visit& visit, Date day, const std::optional<ClockTime>& at)
{
    const auto* job = book.find(visit.job);
    const auto* customer = job ? book.find(job->customer) : nullptr;
    const auto& settings = book.settings();
    auto text = customer ? "Hello " + customer->name + ", " : std::string{"Hello, "};
    text += "we come on " + day.shownShort() + (at ? " at about " + at->shown() : std::string{}) + ' ' + wishFor(visit.kind);
    if (job) text += " (" + job->title + ')';
    text += '.';
    if (const auto asked = askedFor(visit.kind); !asked.empty()) text += ' ' + asked;
    if (visit.kind == VisitKind::seal || visit.kind == VisitKind::cut) text += " If the weather turns we will let you know and come on another day.";
    if (!settings.outfitPhone.empty()) text += " If the day does not suit you, please call " + settings.outfitPhone + '.';
    if (!settings.outfitName.empty()) text += '\n' + settings.outfitName;
    return text;
}

}
