#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

namespace strikeoff {

/// A pass phrase shorter than this is refused: it would be guessed.
inline constexpr std::size_t leastPassPhrase = 10;

/// What it costs to make a key of a pass phrase, and so each guess of one: passes over so many bytes of memory. It stands in the head of a sealed file.
struct KeyCost {
    std::uint64_t passes = 0;
    std::uint64_t memory = 0;

    static KeyCost usual();  ///< about a second and 256 MiB (libsodium's "moderate")
    static KeyCost least();  ///< the least there is; for trying out, as it protects nothing
};

/// Whether bytes are those of a sealed file.
bool isSealed(std::string_view bytes);
/// The same of a file's bytes; false of one that cannot be read. Not for the file of an open book, which only its engine may open.
bool isSealedFile(const std::filesystem::path& file);

/// Bytes sealed with a pass phrase: the key by Argon2id from phrase and a salt of its own, the bytes by libsodium's secretstream (XChaCha20-Poly1305) in
/// parts that can neither be changed, reordered nor left out. Throws StorageError for a phrase that is too short or a machine with too little memory.
std::string sealed(std::string_view bytes, const std::string& passPhrase, KeyCost cost = KeyCost::usual());
/// The bytes again. Throws StorageError when the phrase does not fit or anything was changed, naming `what` they are.
std::string unsealed(std::string_view bytes, const std::string& passPhrase, const std::string& what);

}
