// JSON written straight into a buffer: a report of sixty thousand boxes would not fit in memory as a tree.
#pragma once

#include <fmt/format.h>

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/finding.hpp"
#include "boxproof/quantity.hpp"
#include "src/report/layout.hpp"

namespace boxproof::report {

using Buffer = fmt::memory_buffer;

inline void put(Buffer& out, std::string_view text) {
  out.append(text.data(), text.data() + text.size());
}

// What JSON wants escaped, and what plain() does not show as it is: a report may be looked at on a terminal.
void put_text(Buffer& out, std::string_view text);

// Shortest digits that read back to the same number; null for what JSON has no number for.
void put_number(Buffer& out, double value);

inline void put_number(Buffer& out, std::optional<double> value) {
  if (value)
    put_number(out, *value);
  else
    put(out, "null");
}

template <class Tag>
void put_number(Buffer& out, std::optional<Quantity<Tag>> value) {
  put_number(out, value ? std::optional<double>(value->value()) : std::nullopt);
}

// Texts of a list, with what stands between them; says whether there were any before or among these.
bool put_texts(Buffer& out, const std::vector<std::string>& texts, bool behind_others = false);

inline void put_text_or_null(Buffer& out, std::string_view text) {
  if (text.empty())
    put(out, "null");
  else
    put_text(out, text);
}

// What was found or required: a number, a text, or null.
void put_amount(Buffer& out, const Amount& amount);

// The same behind a lead: the punctuation and the key, ready to be copied: `, "max_v": `.
inline void put_text(Buffer& out, std::string_view lead, std::string_view text) {
  put(out, lead);
  put_text(out, text);
}
inline void put_text_or_null(Buffer& out, std::string_view lead, std::string_view text) {
  put(out, lead);
  put_text_or_null(out, text);
}
inline void put_amount(Buffer& out, std::string_view lead, const Amount& amount) {
  put(out, lead);
  put_amount(out, amount);
}
template <class Number>
void put_number(Buffer& out, std::string_view lead, Number value) {
  put(out, lead);
  put_number(out, value);
}

// Findings by severity, behind a lead.
void put_counts(Buffer& out, std::string_view lead,
                const std::array<std::size_t, severity_names.size()>& counts);

// The steps behind a value, as a list.
void put_working(Buffer& out, const Working& working);

}  // namespace boxproof::report
