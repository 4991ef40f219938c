#include "visits/address_card.h"

#include "visits/content_line.h"

#include <algorithm>
#include <cctype>
#include <set>

namespace strikeoff {

namespace {

/// Seven components; post box, extension, region, code and country are not recorded apart (RFC 6350 section 6.3.1).
std::string addressValue(const std::string& street, const std::string& town)
{
    if (street.empty() && town.empty()) return {};
    return ";;" + escapedText(street) + ';' + escapedText(town) + ";;;";
}

/// A phone as a URI holds it: what is neither digit nor plus is for the eye only. As text when it has letters ("ext. 3").
void addPhone(ContentLines& lines, const std::string& phone)
{
    if (phone.empty()) return;
    std::string digits;
    for (const char c : phone)
        if (std::isdigit(static_cast<unsigned char>(c)) || (c == '+' && digits.empty())) digits += c;
    const bool spoken = std::any_of(phone.begin(), phone.end(), [](unsigned char c) { return std::isalpha(c) || c >= 0x80; });
    // A number without its country is only good with a context (RFC 3966 section 5.1.4), which nobody recorded; text says what was written.
    if (!spoken && digits.starts_with('+')) lines.raw("TEL;VALUE=uri", "tel:" + digits);
    else lines.text("TEL;VALUE=text", phone);
}

void begin(ContentLines& lines, const char* kind, const std::string& uid, const std::string& name)
{
    lines.raw("BEGIN", "VCARD").raw("VERSION", "4.0").raw("KIND", kind).raw("UID;VALUE=text", uid).text("FN", name.empty() ? "No name" : name);
}

}

std::string addressCard(const Customer& customer)
{
    ContentLines lines;
    begin(lines, "individual", "customer-" + std::to_string(customer.id.value()) + "@strikeoff.example", customer.name);
    addPhone(lines, customer.phone);
    lines.text("EMAIL", customer.email).raw("ADR", addressValue(customer.address, customer.town)).text("NOTE", customer.note).raw("END", "VCARD");
    return lines.written();
}

std::string addressCard(const Book& book, const Site& site)
{
    ContentLines lines;
    const auto* customer = book.find(site.customer);
    begin(lines, "location", "site-" + std::to_string(site.id.value()) + "@strikeoff.example", site.name);
    if (customer) addPhone(lines, customer->phone);
    lines.raw("ADR", addressValue(site.address, site.town));
    if (site.latitude && site.longitude) lines.raw("GEO", "geo:" + site.latitude->text() + ',' + site.longitude->text());
    auto note = site.note;
    if (customer) note = "Customer: " + customer->name + (note.empty() ? "" : "\n" + note);
    lines.text("NOTE", note).raw("END", "VCARD");
    return lines.written();
}

std::string addressCards(const Book& book, std::span<const Id<Job>> jobs)
{
    std::string cards;
    std::set<std::pair<bool, std::int64_t>> written;
    for (const auto id : jobs) {
        const auto* job = book.find(id);
        if (!job) continue;
        if (const auto* site = book.find(job->site)) {
            if (written.insert({true, site->id.value()}).second) cards += addressCard(book, *site);
        } else if (const auto* customer = book.find(job->customer)) {
            if (written.insert({false, customer->id.value()}).second) cards += addressCard(*customer);
        }
    }
    return cards;
}

}
