#include "src/report/json_text.hpp"

#include <fmt/compile.h>

#include <cmath>
#include <cstdint>
#include <iterator>

namespace boxproof::report {
namespace {

// A code point as escapes: two, where it lies beyond the first 65,536 (RFC 8259, section 7).
void put_escape(Buffer& out, std::uint32_t point) {
  constexpr std::uint32_t beyond = 0x10000, high = 0xD800, low = 0xDC00, half = 0x400;
  if (point < beyond) {
    fmt::format_to(std::back_inserter(out), "\\u{:04x}", point);
  } else {
    fmt::format_to(std::back_inserter(out), "\\u{:04x}\\u{:04x}", high + (point - beyond) / half,
                   low + (point - beyond) % half);
  }
}

}  // namespace

void put_text(Buffer& out, std::string_view text) {
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

void put_number(Buffer& out, double value) {
  if (!std::isfinite(value)) return put(out, "null");
  constexpr double exact_integers =
      1e15;  // doubles below hold every integer; most numbers of a report are small ones
  if (value == std::floor(value) && std::abs(value) < exact_integers && !std::signbit(value)) {
    const fmt::format_int digits(static_cast<std::uint64_t>(value));
    return out.append(digits.data(), digits.data() + digits.size());
  }
  fmt::format_to(std::back_inserter(out), FMT_COMPILE("{}"), value);
}

bool put_texts(Buffer& out, const std::vector<std::string>& texts, bool behind_others) {
  for (const std::string& text : texts) {
    if (behind_others) put(out, ", ");
    put_text(out, text);
    behind_others = true;
  }
  return behind_others;
}

void put_amount(Buffer& out, const Amount& amount) {
  if (const double* n = std::get_if<double>(&amount))
    put_number(out, *n);
  else if (const std::string* text = std::get_if<std::string>(&amount))
    put_text(out, *text);
  else
    put(out, "null");
}

void put_working(Buffer& out, const Working& working) {
  put(out, "[");
  for (const Step& s : working) {
    put(out, &s == &working.front() ? "{" : ", {");
    put_text_or_null(out, R"("symbol": )", s.symbol);
    put_text_or_null(out, R"(, "formula": )", s.formula);
    put_text_or_null(out, R"(, "numbers": )", s.numbers);
    put(out, R"(, "value": )");
    put_number(out, s.value);
    put_text_or_null(out, R"(, "unit": )", s.unit);
    put_text_or_null(out, R"(, "section": )", s.section);
    put(out, "}");
  }
  put(out, "]");
}

void put_counts(Buffer& out, std::string_view lead,
                const std::array<std::size_t, severity_names.size()>& counts) {
  put(out, lead);
  for (std::size_t i = 0; i < counts.size(); ++i)
    put(out, fmt::format("{}\"{}\": {}", i > 0 ? ", " : "{", severity_names[i], counts[i]));
  put(out, "}");
}

}  // namespace boxproof::report
