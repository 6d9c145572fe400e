// JSON written straight into a buffer: a report of sixty thousand boxes would not fit in memory as a tree.
#pragma once

#include <fmt/compile.h>
#include <fmt/format.h>

#include <cmath>
#include <cstdint>
#include <iterator>
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

// A code point as escapes: two, where it lies beyond the first 65,536 (RFC 8259, section 7).
inline void put_escape(Buffer& out, std::uint32_t point) {
  constexpr std::uint32_t beyond = 0x10000, high = 0xD800, low = 0xDC00, half = 0x400;
  if (point < beyond) {
    fmt::format_to(std::back_inserter(out), "\\u{:04x}", point);
  } else {
    fmt::format_to(std::back_inserter(out), "\\u{:04x}\\u{:04x}", high + (point - beyond) / half,
                   low + (point - beyond) % half);
  }
}

// What JSON wants escaped, and what plain() does not show as it is: a report may be looked at on a terminal.
inline void put_text(Buffer& out, std::string_view text) {
  const auto ordinary = [](char c) { return c >= 0x20 && c < 0x7F && c != '"' && c != '\\'; };
  put(out, "\"");
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t start = at;
    while (at < text.size() && ordinary(text[at])) ++at;
    put(out, text.substr(start, at - start));
    if (at == text.size()) break;
    const char c = text[at];
    const std::size_t special = at;
    if (c == '"' || c == '\\' || c == '\n') {
      out.push_back('\\');
      out.push_back(c == '\n' ? 'n' : c);
      ++at;
    } else if (const auto point = unseen(text, at)) {
      put_escape(out, *point);
    } else {
      put(out, text.substr(special, at - special));
    }
  }
  put(out, "\"");
}

// Shortest digits that read back to the same number; null for what JSON has no number for.
inline void put_number(Buffer& out, double value) {
  if (!std::isfinite(value)) return put(out, "null");
  constexpr double exact_integers =
      1e15;  // doubles below hold every integer; most numbers of a report are small ones
  if (value == std::floor(value) && std::abs(value) < exact_integers && !std::signbit(value)) {
    const fmt::format_int digits(static_cast<std::uint64_t>(value));
    return out.append(digits.data(), digits.data() + digits.size());
  }
  fmt::format_to(std::back_inserter(out), FMT_COMPILE("{}"), value);
}

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
inline bool put_texts(Buffer& out, const std::vector<std::string>& texts, bool behind_others = false) {
  for (const std::string& text : texts) {
    if (behind_others) put(out, ", ");
    put_text(out, text);
    behind_others = true;
  }
  return behind_others;
}

inline void put_text_or_null(Buffer& out, std::string_view text) {
  if (text.empty())
    put(out, "null");
  else
    put_text(out, text);
}

// What was found or required: a number, a text, or null.
inline void put_amount(Buffer& out, const Amount& amount) {
  if (const double* n = std::get_if<double>(&amount))
    put_number(out, *n);
  else if (const std::string* text = std::get_if<std::string>(&amount))
    put_text(out, *text);
  else
    put(out, "null");
}

// The steps behind a value, as a list.
inline void put_working(Buffer& out, const Working& working) {
  const auto word = [&](std::string_view lead, std::string_view value) {
    put(out, lead);
    put_text_or_null(out, value);
  };
  put(out, "[");
  for (const Step& s : working) {
    put(out, &s == &working.front() ? "{" : ", {");
    word(R"("symbol": )", s.symbol);
    word(R"(, "formula": )", s.formula);
    word(R"(, "numbers": )", s.numbers);
    put(out, R"(, "value": )");
    put_number(out, s.value);
    word(R"(, "unit": )", s.unit);
    word(R"(, "section": )", s.section);
    put(out, "}");
  }
  put(out, "]");
}

}  // namespace boxproof::report
