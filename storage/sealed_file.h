#pragma once

#include <string>
#include <string_view>

namespace strikeoff {

/// A pass phrase shorter than this is refused: it would be guessed.
inline constexpr std::size_t leastPassPhrase = 10;

/// Whether bytes are those of a sealed file.
bool isSealed(std::string_view bytes);

/// Bytes sealed with a pass phrase: the key by Argon2id from phrase and a salt of its own, the bytes by libsodium's secretstream (XChaCha20-Poly1305) in
/// parts that can neither be changed, reordered nor left out. Throws StorageError for a phrase that is too short or a machine with too little memory.
std::string sealed(std::string_view bytes, const std::string& passPhrase);
/// The bytes again. Throws StorageError when the phrase does not fit or anything was changed, naming `what` they are.
std::string unsealed(std::string_view bytes, const std::string& passPhrase, const std::string& what);

}
