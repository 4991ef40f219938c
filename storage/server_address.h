#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace strikeoff {

/// Where a book on a PostgreSQL server stands: "postgresql://user@host:port/database?book=NAME&sslmode=verify-full". The book lies in a schema of its
/// own, "strikeoff" unless book= names another, so that a database can hold several. It never holds a password.
struct ServerAddress {
    std::string user;      ///< blank: the server library's own choice (PGUSER, else the system's user)
    std::string host;      ///< blank: the server library's own choice (PGHOST, else the local socket)
    std::string port;      ///< blank: 5432, or PGPORT
    std::string database;
    std::string schema = "strikeoff";
    std::vector<std::pair<std::string, std::string>> settings;  ///< of the connection, such as sslmode and sslrootcert
};

/// Whether a book's name is meant as an address on a server rather than as a file.
bool isServerAddress(std::string_view text);
/// Reads an address. Throws StorageError naming the part that is wrong and the remedy; its text never repeats a password.
ServerAddress readServerAddress(std::string_view text);

/// What may be said and kept of an address somebody typed: the text without anything that could be a password.
std::string withoutPassword(std::string_view text);

}
