#include "job/steps.h"

#include <algorithm>

namespace strikeoff {

namespace {

std::string firstLine(const std::string& text, std::size_t most)
{
    auto line = text.substr(0, text.find('\n'));
    if (line.size() <= most) return line;
    auto end = line.rfind(' ', most);
    if (end == std::string::npos || end == 0) end = most;
    while (end > 0 && (static_cast<unsigned char>(line[end]) & 0xC0U) == 0x80U) --end;  // not within a letter
    return line.substr(0, end) + "\u2026";
}

std::string titleFor(const Book& book, const Lead& lead)
{
    if (const auto* type = book.find(lead.jobType)) return lead.town.empty() ? type->name : type->name + " in " + lead.town;
    if (!lead.wish.empty()) return firstLine(lead.wish, 60);
    return "Job for " + lead.name;
}

const Customer* named(const Book& book, const std::string& name)
{
    const Value key{name};
    const auto found = book.withKey(RecordKind::customer, std::span{&key, 1});
    return found.empty() ? nullptr : book.find(Id<Customer>{found.front()});
}

/// Whether nothing that is recorded on both sides contradicts: a phone or a mail address that is the same settles it.
bool isSamePerson(const Customer& customer, const Lead& lead)
{
    if (!lead.phone.empty() && lead.phone == customer.phone) return true;
    if (!lead.email.empty() && lead.email == customer.email) return true;
    const auto agree = [](const std::string& a, const std::string& b) { return a.empty() || b.empty() || a == b; };
    return agree(lead.phone, customer.phone) && agree(lead.email, customer.email) && agree(lead.town, customer.town);
}

std::string freeName(const Book& book, const Lead& lead)
{
    auto name = lead.name;
    if (!named(book, name)) return name;
    if (!lead.town.empty()) name += ", " + lead.town;
    for (int i = 2; named(book, name); ++i) name = lead.name + " (" + std::to_string(i) + ")";
    return name;
}

}

Step takeUpLead(const Book& book, const Lead& lead, Date day)
{
    Step step;
    if (lead.lostOn) step.obstacle = "This lead was lost on " + lead.lostOn->shown() + "; clear Lost first if they came back";
    for (const auto* job : book.referring<&Job::lead>(lead.id)) step.obstacle = "Job " + job->number + " was opened for this lead already";
    if (!step.obstacle.empty()) return step;

    Edit edit{"Open a job for " + lead.name};
    auto customer = lead.customer;
    if (!customer) {
        if (const auto* known = named(book, lead.name); known && isSamePerson(*known, lead)) {
            customer = known->id;
            step.remarks.push_back(known->name + " was a customer already");
        }
    }
    if (!customer) {
        Customer added;
        added.name = freeName(book, lead);
        added.phone = lead.phone;
        added.email = lead.email;
        added.town = lead.town;
        customer = edit.add(added);
    }
    Job job;
    job.title = titleFor(book, lead);
    job.customer = *customer;
    job.lead = lead.id;
    job.jobType = lead.jobType;
    job.openedOn = std::max(day, lead.receivedOn);
    for (const auto* site : book.referring<&Site::customer>(*customer))
        if (!lead.town.empty() && site->town == lead.town) job.site = site->id;
    edit.add(job);
    if (lead.customer != customer) {
        auto changed = lead;
        changed.customer = customer;
        edit.change(changed);
    }
    step.edit = std::move(edit);
    return step;
}

}
