#include "sealed_file.h"

#include "store.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <fstream>
#include <sodium.h>

namespace strikeoff {

namespace {

constexpr std::string_view mark = "STRIKEOFF SEALED 1\n";
constexpr std::size_t saltSize = crypto_pwhash_SALTBYTES, streamHead = crypto_secretstream_xchacha20poly1305_HEADERBYTES, extra = crypto_secretstream_xchacha20poly1305_ABYTES;
constexpr std::size_t partSize = std::size_t{1} << 16;
constexpr std::size_t headSize = mark.size() + saltSize + 16;
// A file that asks for more than this was not written here.
constexpr std::uint64_t mostPasses = 16, mostMemory = std::uint64_t{1} << 30;

void ready()
{
    if (sodium_init() < 0) throw StorageError{"the library that seals copies (libsodium) does not start"};
}

std::string eightBytes(std::uint64_t number)
{
    std::string bytes;
    for (int i = 0; i < 8; ++i) bytes += static_cast<char>(number >> (8 * i) & 0xFF);
    return bytes;
}

std::uint64_t fromEightBytes(std::string_view bytes)
{
    std::uint64_t number = 0;
    for (int i = 7; i >= 0; --i) number = number << 8 | static_cast<unsigned char>(bytes[static_cast<std::size_t>(i)]);
    return number;
}

const unsigned char* bytesOf(std::string_view text) { return reinterpret_cast<const unsigned char*>(text.data()); }
unsigned char* bytesOf(std::string& text) { return reinterpret_cast<unsigned char*>(text.data()); }

/// A key that does not stay in memory.
class Key {
public:
    Key(const std::string& passPhrase, std::string_view salt, KeyCost cost)
    {
        if (crypto_pwhash(bytes_.data(), bytes_.size(), passPhrase.data(), passPhrase.size(), bytesOf(salt), cost.passes, static_cast<std::size_t>(cost.memory), crypto_pwhash_ALG_ARGON2ID13) != 0)
            throw StorageError{"there is not enough memory to make the key of a sealed copy; close other programs and try again"};
    }
    ~Key() { sodium_memzero(bytes_.data(), bytes_.size()); }
    Key(const Key&) = delete;
    Key& operator=(const Key&) = delete;
    const unsigned char* data() const { return bytes_.data(); }

private:
    std::array<unsigned char, crypto_secretstream_xchacha20poly1305_KEYBYTES> bytes_{};
};

}

KeyCost KeyCost::usual() { return {crypto_pwhash_OPSLIMIT_MODERATE, crypto_pwhash_MEMLIMIT_MODERATE}; }
KeyCost KeyCost::least() { return {crypto_pwhash_OPSLIMIT_MIN, crypto_pwhash_MEMLIMIT_MIN}; }

bool isSealed(std::string_view bytes) { return bytes.starts_with(mark); }

bool isSealedFile(const std::filesystem::path& file)
{
    std::array<char, mark.size()> head{};
    std::ifstream stream{file, std::ios::binary};
    stream.read(head.data(), head.size());
    return isSealed({head.data(), static_cast<std::size_t>(stream.gcount())});
}

std::string sealed(std::string_view bytes, const std::string& passPhrase, KeyCost cost)
{
    if (passPhrase.size() < leastPassPhrase) throw StorageError{"the pass phrase has at least " + std::to_string(leastPassPhrase) + " characters; four words of your own are a good one"};
    ready();
    std::string salt(saltSize, '\0');
    randombytes_buf(salt.data(), salt.size());
    const auto head = std::string{mark} + salt + eightBytes(cost.passes) + eightBytes(cost.memory);
    const Key key{passPhrase, salt, cost};
    crypto_secretstream_xchacha20poly1305_state state;
    std::string streamStart(streamHead, '\0');
    crypto_secretstream_xchacha20poly1305_init_push(&state, bytesOf(streamStart), key.data());
    std::string out = head + streamStart;
    out.reserve(out.size() + bytes.size() + (bytes.size() / partSize + 1) * extra);
    std::string part(partSize + extra, '\0');
    for (std::size_t at = 0;;) {
        const auto size = std::min(partSize, bytes.size() - at);
        const bool isLast = at + size == bytes.size();
        unsigned long long length = 0;
        // What stands before the parts is vouched for with each of them.
        crypto_secretstream_xchacha20poly1305_push(&state, bytesOf(part), &length, bytesOf(bytes) + at, size, bytesOf(std::string_view{head}), head.size(),
                                                   isLast ? static_cast<unsigned char>(crypto_secretstream_xchacha20poly1305_TAG_FINAL) : static_cast<unsigned char>(0));
        out.append(part, 0, static_cast<std::size_t>(length));
        at += size;
        if (isLast) break;
    }
    sodium_memzero(&state, sizeof state);
    return out;
}

std::string unsealed(std::string_view bytes, const std::string& passPhrase, const std::string& what)
{
    const auto refuse = [&](const std::string& why) -> std::string { throw StorageError{what + " cannot be opened: " + why}; };
    if (!isSealed(bytes)) return refuse("it is no sealed copy");
    if (bytes.size() < headSize + streamHead + extra) return refuse("it is cut short; take another copy");
    ready();
    const auto head = bytes.substr(0, headSize);
    const auto salt = head.substr(mark.size(), saltSize);
    const KeyCost cost{fromEightBytes(head.substr(mark.size() + saltSize, 8)), fromEightBytes(head.substr(mark.size() + saltSize + 8, 8))}, least = KeyCost::least();
    if (cost.passes < least.passes || cost.passes > mostPasses || cost.memory < least.memory || cost.memory > mostMemory) return refuse("its head is damaged; take another copy");
    const Key key{passPhrase, salt, cost};
    crypto_secretstream_xchacha20poly1305_state state;
    if (crypto_secretstream_xchacha20poly1305_init_pull(&state, bytesOf(bytes.substr(headSize)), key.data()) != 0) return refuse("its head is damaged; take another copy");
    std::string out;
    out.reserve(bytes.size());
    std::string part(partSize, '\0');
    for (auto rest = bytes.substr(headSize + streamHead);;) {
        const auto size = std::min(partSize + extra, rest.size());
        unsigned long long length = 0;
        unsigned char tag = 0;
        if (size < extra || crypto_secretstream_xchacha20poly1305_pull(&state, bytesOf(part), &length, &tag, bytesOf(rest), size, bytesOf(head), head.size()) != 0)
            return refuse("the pass phrase does not fit, or the file is damaged");
        out.append(part, 0, static_cast<std::size_t>(length));
        rest = rest.substr(size);
        const bool isLast = tag == crypto_secretstream_xchacha20poly1305_TAG_FINAL;
        if (isLast != rest.empty()) return refuse("it is cut short or something was put behind it; take another copy");
        if (isLast) break;
    }
    sodium_memzero(&state, sizeof state);
    return out;
}

}
