#include "src/report/layout.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <iterator>

#include "src/rules/notes.hpp"
#include "src/text/id_runs.hpp"
#include "src/text/utf8.hpp"

namespace boxproof::report {
namespace {

bool is_continuation(char c) {
  return (c & 0xC0) == 0x80;
}

// One code point from valid UTF-8.
std::uint32_t decode(std::string_view text, std::size_t& at) {
  const auto first = static_cast<unsigned char>(text[at++]);
  if (first < 0x80) return first;
  std::uint32_t point = first < 0xE0 ? first & 0x1FU : first < 0xF0 ? first & 0x0FU : first & 0x07U;
  while (at < text.size() && is_continuation(text[at]))
    point = (point << 6) | (static_cast<unsigned char>(text[at++]) & 0x3FU);
  return point;
}

struct Points {
  std::uint32_t first, last;
};
// Control characters, line separators, marks of direction (Unicode, annex 9), and what has no width: spaces
// and operators that are not seen, anchors of annotations, tags. And two that are no characters: XML forbids
// them.
constexpr Points unsafe_points[] = {{0, 0x1F},        {0x7F, 0x9F},     {0x061C, 0x061C}, {0x180E, 0x180E},
                                    {0x200B, 0x200B}, {0x200E, 0x200F}, {0x2028, 0x202E}, {0x2060, 0x206F},
                                    {0xFEFF, 0xFEFF}, {0xFFF9, 0xFFFB}, {0xFFFE, 0xFFFF}, {0xE0000, 0xE007F}};

bool unsafe(std::uint32_t p) {
  constexpr std::uint32_t first_beyond_latin = 0x061C;
  if (p >= 0x20 && p < first_beyond_latin) return p >= 0x7F && p <= 0x9F;  // nearly all text
  return std::any_of(std::begin(unsafe_points), std::end(unsafe_points),
                     [p](const Points& range) { return p >= range.first && p <= range.last; });
}

}  // namespace

std::size_t width_of(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return !is_continuation(c); }));
}

std::optional<std::uint32_t> unseen(std::string_view text, std::size_t& at) {
  constexpr std::uint32_t replacement = 0xFFFD;
  const auto first = static_cast<unsigned char>(text[at]);
  if (first >= 0x80 && text::utf8_length(text, at) == 0) {  // of a path: files are read as UTF-8 only
    ++at;
    return replacement;
  }
  const std::uint32_t point = decode(text, at);
  return unsafe(point) ? std::optional(point) : std::nullopt;
}

std::string plain(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t start = at;
    if (const auto point = unseen(text, at))
      out += fmt::format("\\u{{{:X}}}", *point);
    else
      out += text.substr(start, at - start);
  }
  return out;
}

std::string upper(std::string_view text) {
  std::string out(text);
  for (char& c : out) c = static_cast<char>(c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c);
  return out;
}

std::string left(std::string_view text, std::size_t width) {
  const std::size_t have = width_of(text);
  if (have <= width) return std::string(text) + std::string(width - have, ' ');
  std::size_t at = 0;
  for (std::size_t n = 0; n + 1 < width; ++n) decode(text, at);
  return std::string(text.substr(0, at)) + "…";
}

std::string right(std::string_view text, std::size_t width) {
  const std::size_t have = width_of(text);
  return have >= width ? std::string(text) : std::string(width - have, ' ') + std::string(text);
}

std::string wrap(std::string_view text, std::size_t indent, std::string_view lead) {
  std::string out, line(lead);
  bool empty = true;
  const auto trimmed = [](std::string_view s) { return s.substr(0, s.find_last_not_of(' ') + 1); };
  while (!text.empty()) {
    const auto end = text.find(' ');
    const std::string_view word = text.substr(0, end);
    if (width_of(word) > page_width - indent) {  // no place to break it: cut to the page
      std::size_t at = 0;
      const std::size_t room = page_width - (empty ? std::max(indent, width_of(line)) : indent);
      for (std::size_t n = 0; n < room; ++n) decode(text, at);
      if (!empty) {
        (out += trimmed(line)) += "\n";
        line = std::string(indent, ' ');
      }
      ((out += line) += text.substr(0, at)) += "\n";
      line = std::string(indent, ' ');
      empty = true;
      text.remove_prefix(at);
      continue;
    }
    if (!empty && width_of(line) + 1 + width_of(word) > page_width) {
      (out += trimmed(line)) += "\n";
      line = std::string(indent, ' ');
      empty = true;
    }
    if (!empty) line += ' ';
    line += word;
    empty = false;
    text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
  }
  (out += trimmed(line)) += "\n";
  return out;
}

std::string run_together(const std::vector<std::string_view>& ids) {
  std::string out;
  for (const text::IdRun& run : text::id_runs(ids)) {
    if (!out.empty()) out += ", ";
    out += text::run_words(plain(ids[run.first]), plain(ids[run.last]), run.size());
  }
  return out;
}

std::string inked(std::string_view text, Ink ink, bool colour) {
  if (!colour) return std::string(text);
  std::string_view code;
  switch (ink) {
    case Ink::hazard: code = "1;31"; break;
    case Ink::correction: code = "1;35"; break;
    case Ink::query: code = "1;34"; break;
    case Ink::advice: code = "36"; break;
    case Ink::good: code = "32"; break;
    case Ink::strong: code = "1"; break;
    case Ink::faint: code = "2"; break;
  }
  return fmt::format("\x1b[{}m{}\x1b[0m", code, text);
}

Ink ink_of(Severity severity) {
  switch (severity) {
    case Severity::hazard: return Ink::hazard;
    case Severity::correction: return Ink::correction;
    case Severity::query: return Ink::query;
    case Severity::advice: return Ink::advice;
  }
  return Ink::strong;
}

Ink ink_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::stop: return Ink::hazard;
    case Verdict::correct: return Ink::correction;
    case Verdict::clarify:
    case Verdict::not_visited: return Ink::query;
    case Verdict::accept: return Ink::good;
  }
  return Ink::strong;
}

std::string percent(double share) {
  const std::string digits = fmt::format("{:.1f} %", std::abs(100 * share));
  return share < 0 && digits != "0.0 %" ? "−" + digits : digits;
}

std::string grouped(double n) {
  std::string digits = fmt::format("{:.0f}", n);
  for (std::size_t at = digits.size(); at > 3; at -= 3) digits.insert(at - 3, " ");
  return digits;
}

std::string shown(const Amount& amount, std::string_view unit, const Amount& beside) {
  if (const std::string* text = std::get_if<std::string>(&amount)) return plain(*text);
  const double* n = std::get_if<double>(&amount);
  if (n == nullptr) return {};
  const double* other = std::get_if<double>(&beside);
  const std::string number = other != nullptr ? boxproof::shown(*n, *other) : boxproof::shown(*n);
  return unit.empty() ? number : fmt::format("{} {}", number, plain(unit));
}

}  // namespace boxproof::report
