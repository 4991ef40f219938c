#pragma once

#include "quantity/date.h"
#include "quantity/decimal.h"

#include <string>
#include <string_view>
#include <vector>

namespace strikeoff {

/// Writes JSON (RFC 8259) in the order it is given, two spaces a level. Money goes out as a decimal string in dollars, days in
/// ISO form, and what is not recorded as null. Inside an object each value is led by key().
class JsonWriter {
public:
    JsonWriter& beginObject() { return begin('{', '}'); }
    JsonWriter& beginArray() { return begin('[', ']'); }
    JsonWriter& end();
    JsonWriter& key(std::string_view name);

    JsonWriter& text(std::string_view value);
    /// Blank text is not recorded.
    JsonWriter& textOrNull(std::string_view value) { return value.empty() ? null() : text(value); }
    JsonWriter& whole(std::int64_t value) { return bare(std::to_string(value)); }
    /// A plain number with so many decimals; null when it is not recorded.
    JsonWriter& decimal(const std::optional<double>& value, int decimals);
    JsonWriter& boolean(bool value) { return bare(value ? "true" : "false"); }
    JsonWriter& null() { return bare("null"); }
    JsonWriter& money(Money value) { return text(value.text()); }
    JsonWriter& money(const std::optional<Money>& value) { return value ? money(*value) : null(); }
    JsonWriter& date(Date value) { return text(value.text()); }
    JsonWriter& date(const std::optional<Date>& value) { return value ? date(*value) : null(); }

    // The same with their key.
    JsonWriter& text(std::string_view name, std::string_view value) { return key(name).text(value); }
    JsonWriter& textOrNull(std::string_view name, std::string_view value) { return key(name).textOrNull(value); }
    JsonWriter& whole(std::string_view name, std::int64_t value) { return key(name).whole(value); }
    JsonWriter& decimal(std::string_view name, const std::optional<double>& value, int decimals) { return key(name).decimal(value, decimals); }
    JsonWriter& boolean(std::string_view name, bool value) { return key(name).boolean(value); }
    JsonWriter& money(std::string_view name, const std::optional<Money>& value) { return key(name).money(value); }
    JsonWriter& date(std::string_view name, const std::optional<Date>& value) { return key(name).date(value); }

    /// All that was written, with a line end.
    std::string finished() const { return json_ + '\n'; }

private:
    JsonWriter& begin(char open, char close);
    JsonWriter& bare(std::string_view value);
    void startValue();
    void newLine();
    void addQuoted(std::string_view text);

    struct Level {
        char close;
        bool empty;
    };
    std::string json_;
    std::vector<Level> levels_;
    bool afterKey_ = false;
};

}
