#include "server_address.h"

#include "quantity/letters.h"
#include "store.h"

#include "quantity/letters.h"

#include <algorithm>
#include <array>
#include <optional>

namespace strikeoff {

namespace {

constexpr std::array<std::string_view, 2> schemes{"postgresql://", "postgres://"};

/// The scheme that a text begins with, in letters of any case: RFC 3986, section 3.1.
auto schemeOf(std::string_view text)
{
    return std::find_if(schemes.begin(), schemes.end(), [&](auto scheme) { return sameLetters(text.substr(0, scheme.size()), scheme); });
}

/// What of a connection the owner may set in the address. Names are the server library's own (PostgreSQL documentation, section 34.1.2).
constexpr std::array<std::string_view, 17> knownSettings{"sslmode", "sslrootcert", "sslcert", "sslkey", "sslcrl", "sslcrldir", "sslsni",
                                                         "ssl_min_protocol_version", "ssl_max_protocol_version", "channel_binding", "gssencmode", "krbsrvname", "connect_timeout",
                                                         "keepalives_idle", "tcp_user_timeout", "target_session_attrs", "passfile"};

int hexDigit(char c)
{
    if (isDigit(c)) return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
}

std::optional<std::string> decoded(std::string_view part)
{
    std::string plain;
    for (std::size_t i = 0; i < part.size(); ++i) {
        if (part[i] != '%') {
            plain += part[i];
            continue;
        }
        if (i + 2 >= part.size()) return std::nullopt;
        const int high = hexDigit(part[i + 1]), low = hexDigit(part[i + 2]);
        if (high < 0 || low < 0) return std::nullopt;
        plain += static_cast<char>(high * 16 + low);
        i += 2;
    }
    const bool hasControl = std::any_of(plain.begin(), plain.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; });
    if (hasControl) return std::nullopt;
    return plain;
}

/// A text that is no address, without anything that could be a password in it, however it is written: rather too much is left out than too little.
std::string stripped(std::string_view text)
{
    std::string shown{text};
    const auto begin = shown.find("://");
    const auto authority = begin == std::string::npos ? 0 : begin + 3;
    // A password may hold every mark that would end it in an address, at signs too, so all up to the last one goes.
    if (const auto colon = shown.find(':', authority), at = shown.rfind('@'); colon != std::string::npos && at != std::string::npos && colon < at) shown.erase(colon, at - colon);
    auto setting = shown.find('?', authority);
    while (setting != std::string::npos) {
        const auto equals = shown.find('=', ++setting), end = shown.find('&', setting);
        if (equals != std::string::npos && (end == std::string::npos || equals < end)) {
            auto name = decoded(std::string_view{shown}.substr(setting, equals - setting)).value_or("pass");
            name = lowered(name);
            if (name.find("pass") != std::string::npos && name != "passfile") {
                shown.replace(equals + 1, std::string::npos, "\u2026");
                break;
            }
        }
        setting = end;
    }
    std::replace_if(shown.begin(), shown.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; }, '?');
    return shown;
}

[[noreturn]] void refuse(std::string_view text, const std::string& why) { throw StorageError{stripped(text) + " is no address of a book: " + why}; }

bool isPort(std::string_view port)
{
    if (port.empty() || port.size() > 5 || !std::all_of(port.begin(), port.end(), isDigit)) return false;
    const int number = std::stoi(std::string{port});
    return number >= 1 && number <= 65535;
}

bool isSchemaName(std::string_view name)
{
    if (name.empty() || name.size() > 48 || name.starts_with("pg_") || !(name.front() >= 'a' && name.front() <= 'z')) return false;
    return std::all_of(name.begin(), name.end(), [](char c) { return (c >= 'a' && c <= 'z') || isDigit(c) || c == '_'; });
}

}

bool isServerAddress(std::string_view text) { return schemeOf(text) != schemes.end(); }

std::string withoutPassword(std::string_view text)
{
    if (text.find("://") == std::string_view::npos) return std::string{text};
    try {
        (void)readServerAddress(text);
        return std::string{text};  // an address that holds a password is refused
    } catch (const StorageError&) {
        return stripped(text);
    }
}

ServerAddress readServerAddress(std::string_view text)
{
    const auto scheme = schemeOf(text);
    if (scheme == schemes.end()) refuse(text, "it begins with postgresql://");
    if (text.size() > 2000) throw StorageError{"an address of a book is at most 2,000 characters long"};
    auto rest = text.substr(scheme->size());
    if (rest.find('#') != std::string_view::npos) refuse(text, "a # has no place in it; write %23 if a name holds one");
    std::string_view query;
    if (const auto mark = rest.find('?'); mark != std::string_view::npos) {
        query = rest.substr(mark + 1);
        rest = rest.substr(0, mark);
    }
    ServerAddress address;
    const auto part = [&](std::string_view what, std::string_view written) {
        auto plain = decoded(written);
        if (!plain) refuse(text, std::string{what} + " holds a % without two hexadecimal digits behind it, or a control character");
        return *plain;
    };

    const auto slash = rest.find('/');
    auto authority = rest.substr(0, slash);
    if (slash == std::string_view::npos || slash + 1 == rest.size())
        refuse(text, "the database is missing; write postgresql://user@host/database");
    // "owner:12/ab?passfile=c@host/ledger" could be a port, or a password with marks in it; only one of them may be shown and kept.
    if (authority.find('@') == std::string_view::npos && authority.find(':') != std::string_view::npos && text.rfind('@') != std::string_view::npos)
        refuse(text, "an @ behind the host is written %40, so that it is not taken for the end of a password");
    const auto database = rest.substr(slash + 1);
    if (database.find('/') != std::string_view::npos) refuse(text, "there is a / too many behind the host; the book within a database is named by ?book=NAME");
    address.database = part("the database", database);

    if (const auto at = authority.rfind('@'); at != std::string_view::npos) {
        const auto user = authority.substr(0, at);
        if (user.find(':') != std::string_view::npos)
            refuse(text, "it holds a password, which would be seen by others; leave it out and type it when asked, or use PGPASSWORD or the password file ~/.pgpass");
        if (user.empty()) refuse(text, "the user before the @ is missing");
        address.user = part("the user", user);
        authority = authority.substr(at + 1);
    }
    if (authority.find(',') != std::string_view::npos) refuse(text, "it names several hosts; name one");
    if (authority.starts_with('[')) {
        const auto close = authority.find(']');
        if (close == std::string_view::npos) refuse(text, "the ] behind the host's number is missing");
        address.host = std::string{authority.substr(1, close - 1)};
        authority = authority.substr(close + 1);
        if (!authority.empty() && authority.front() != ':') refuse(text, "between the host's ] and the port stands a :");
    } else {
        const auto colon = authority.find(':');
        address.host = part("the host", authority.substr(0, colon));
        authority = colon == std::string_view::npos ? std::string_view{} : authority.substr(colon);
    }
    if (!authority.empty()) {
        address.port = std::string{authority.substr(1)};
        if (!isPort(address.port)) refuse(text, "the port behind the host is a number from 1 to 65535");
    }

    while (!query.empty()) {
        const auto end = query.find('&');
        const auto setting = query.substr(0, end);
        query = end == std::string_view::npos ? std::string_view{} : query.substr(end + 1);
        const auto equals = setting.find('=');
        if (equals == std::string_view::npos) refuse(text, "a setting behind the ? is written name=value");
        const auto name = part("a setting", setting.substr(0, equals));
        const auto value = part("the setting " + name, setting.substr(equals + 1));
        if (name == "password") refuse(text, "it holds a password, which would be seen by others; leave it out and type it when asked, or use PGPASSWORD or the password file ~/.pgpass");
        if (value.empty() || value.find(';') != std::string::npos) refuse(text, "the setting " + name + " is blank or holds a semicolon");
        if (name == "book") {
            if (!isSchemaName(value)) refuse(text, "book= is up to 48 small letters, digits and underscores, a letter first, and does not begin with pg_");
            address.schema = value;
        } else if (name == "host") {
            if (!address.host.empty()) refuse(text, "the host stands twice in it; leave one out");
            address.host = value;
        } else if (name == "port") {
            if (!isPort(value) || !address.port.empty()) refuse(text, "the port is given once, as a number from 1 to 65535");
            address.port = value;
        } else if (std::find(knownSettings.begin(), knownSettings.end(), name) != knownSettings.end()) {
            const auto twice = std::any_of(address.settings.begin(), address.settings.end(), [&](const auto& s) { return s.first == name; });
            if (twice) refuse(text, "the setting " + name + " stands twice in it; leave one out");
            address.settings.emplace_back(name, value);
        } else {
            std::string list;
            for (const auto known : knownSettings) list += (list.empty() ? "" : ", ") + std::string{known};
            refuse(text, "there is no setting " + name + "; the settings are book, host, port, " + list);
        }
    }
    return address;
}

}
