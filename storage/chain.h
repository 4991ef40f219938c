#pragma once

#include "trail.h"

#include <QCryptographicHash>

#include <memory>

namespace strikeoff {

/// SHA-256 over parts whose ends cannot be mistaken: each is led by its length.
class Digest {
public:
    void add(std::string_view part);
    void add(std::int64_t number);
    void addNothing();
    std::string digits() const;  ///< 64 hexadecimal digits

private:
    QCryptographicHash hash_{QCryptographicHash::Sha256};
};

/// What the rows of a run held when they were added: by id, and every value that is not the kind's default, so that a field which a later version adds
/// with its default changes nothing. Rows are added in the order of their ids. BLAKE2b to 32 bytes, as a load digests every row it brings.
class RunDigest {
public:
    explicit RunDigest(RecordKind kind);
    ~RunDigest();
    void add(const Row& row);
    std::string digits() const;  ///< 64 hexadecimal digits

private:
    struct Hash;
    std::vector<std::size_t> order_;  ///< of the fields, by name
    Row blank_;
    std::string text_;                ///< of a row; kept for its room
    std::unique_ptr<Hash> hash_;
};

/// One link of the trail's chain: over the link before and all that the entry says. Changes and runs are added in the order of their places.
class ChainLink {
public:
    ChainLink(std::string_view previous, const TrailHeading& heading);
    void addChange(std::int64_t place, RecordKind kind, std::int64_t row, std::int64_t revision, const std::optional<std::string>& before, const std::optional<std::string>& after);
    void addRun(std::int64_t place, RecordKind kind, std::int64_t first, std::int64_t last, const std::string& rows);
    std::string digits() const { return digest_.digits(); }

private:
    Digest digest_;
};

}
