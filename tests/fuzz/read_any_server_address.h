#pragma once

#include "fuzz/promise.h"
#include "server_address.h"
#include "store.h"

#include <algorithm>

namespace strikeoff::fuzz {

namespace detail {

inline std::string escapedPart(std::string_view part)
{
    constexpr std::string_view hex = "0123456789ABCDEF";
    std::string escaped;
    for (const char c : part) {
        const auto byte = static_cast<unsigned char>(c);
        if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9')) escaped += c;
        else ((escaped += '%') += hex[byte >> 4]) += hex[byte & 15];
    }
    return escaped;
}

/// An address written from its parts.
inline std::string written(const ServerAddress& address)
{
    auto text = std::string{"postgresql://"};
    if (!address.user.empty()) text += escapedPart(address.user) + '@';
    text += '/' + escapedPart(address.database) + "?book=" + address.schema;
    if (!address.host.empty()) text += "&host=" + escapedPart(address.host);
    if (!address.port.empty()) text += "&port=" + address.port;
    for (const auto& [name, value] : address.settings) text += '&' + name + '=' + escapedPart(value);
    return text;
}

}

/// Reads any bytes as the address of a book on a server, as they are and as a password within one, which nobody may get to see.
inline void readAnyServerAddress(std::string_view bytes)
{
    const auto read = [](std::string_view text) {
        try {
            const auto address = readServerAddress(text);
            require(isServerAddress(text), "what is read as an address is known as one");
            const auto again = readServerAddress(detail::written(address));
            require(again.user == address.user && again.host == address.host && again.port == address.port && again.database == address.database && again.schema == address.schema
                        && again.settings == address.settings,
                    "an address written from its parts is read as the same one");
            return std::string{};
        } catch (const StorageError& error) {
            require(std::string_view{error.what()}.size() > 20, "a refusal says why");
            return std::string{error.what()};
        }
    };
    (void)read(bytes);
    (void)read("postgresql://" + std::string{bytes});

    // What stands where a password would is in no message, however it is written.
    constexpr std::string_view secret = "Xq7Zr9Wv";
    const auto password = std::string{bytes} + std::string{secret};
    if (password.size() > 1500) return;
    const auto hides = [&](const std::string& text) {
        require(withoutPassword(text).find(secret) == std::string::npos, "no password is shown");
        require(read(text).find(secret) == std::string::npos, "no refusal repeats a password");
    };
    hides("postgresql://owner:" + password + "@localhost/ledger");
    const auto escaped = detail::escapedPart(password);
    for (const std::string_view name : {"password", "%70assword", "pass%77ord", "PASSWORD"}) hides("postgresql://owner@localhost/ledger?" + std::string{name} + '=' + escaped);
    hides("postgresql://owner@localhost/ledger?sslmode=require&password=" + escaped + "&connect_timeout=3");
}

}
