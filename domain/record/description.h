#pragma once

#include "record/field.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace strikeoff {

/// A record kind, described once: its name in files, its words for people, its fields, and the fields that name a row to the owner.
struct KindDescription {
    RecordKind kind{};
    std::string_view name;      ///< singular snake_case: files, command line, SQL
    std::string_view label;     ///< "Ticket"
    std::string_view plural;    ///< "Tickets"
    std::string_view meaning;   ///< one line of help
    std::span<const Field> fields;
    /// The fields that together name a row and that no two rows share; empty for the one row of settings.
    std::span<const std::string_view> key;
    /// The prefix of the numbers given out for the key's number field ("Q" for Q1001); none where nothing is numbered by the book.
    std::optional<std::string_view> numberPrefix;
};

/// All kinds in loading order.
std::span<const KindDescription> allKinds();
const KindDescription& describe(RecordKind kind);
/// By its name in files; nothing for an unknown one.
const KindDescription* findKind(std::string_view name);

/// Place of a field in its kind; DomainError for a name the kind has not.
std::size_t fieldIndex(const KindDescription& kind, std::string_view name);
/// Places of the kind's key fields, in the key's order.
std::span<const std::size_t> keyFields(const KindDescription& kind);
/// Places of the kind's references.
std::span<const std::size_t> referenceFields(const KindDescription& kind);
const Field* findField(const KindDescription& kind, std::string_view name);
/// The field that holds the number given out by the book, if the kind has one (always "number").
std::optional<std::size_t> numberField(const KindDescription& kind);

}
