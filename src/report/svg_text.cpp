#include "src/report/svg_text.hpp"

#include <fmt/format.h>

#include "src/report/html_text.hpp"

namespace boxproof::report {
namespace {

// Advance in ems: measured off DejaVu Sans, one of the widest faces that browsers fall back on, and rounded
// up by class of letters. A letter beyond ASCII is told by its first byte.
double advance(unsigned char lead) {
  constexpr std::string_view thinnest = "iljI.,:;'|!/ ", thin = "rtf()[]{}-\"";
  constexpr double thinnest_em = 0.34, thin_em = 0.46, letter = 0.64, capital = 0.72, broad = 1.0;
  constexpr double symbol = 0.86, wide = 1.1;  // "≠", "…" and dashes; CJK and beyond
  const char c = static_cast<char>(lead);
  if (lead > 0xE2) return wide;
  if (lead >= 0x80) return symbol;
  if (thinnest.find(c) != std::string_view::npos) return thinnest_em;
  if (thin.find(c) != std::string_view::npos) return thin_em;
  if (c == 'm' || c == 'w' || c == 'M' || c == 'W' || c == '@' || c == '%') return broad;
  return c >= 'A' && c <= 'Z' ? capital : letter;
}

constexpr double bold_wider = 1.1;  // as above

std::size_t letter_size(unsigned char lead) {
  return lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
}

}  // namespace

double svg_width(std::string_view text, double size, bool bold) {
  double ems = 0;
  for (std::size_t at = 0; at < text.size(); at += letter_size(static_cast<unsigned char>(text[at])))
    ems += advance(static_cast<unsigned char>(text[at]));
  return ems * size * (bold ? bold_wider : 1);
}

std::string svg_fit(std::string_view text, double size, double room, bool bold) {
  const double em = size * (bold ? bold_wider : 1), ellipsis = advance(0xE2) * em;
  double width = 0;
  std::size_t fits = 0;  // bytes that leave room for the ellipsis
  for (std::size_t at = 0; at < text.size();) {
    const auto lead = static_cast<unsigned char>(text[at]);
    width += advance(lead) * em;
    if (width > room) return std::string(text.substr(0, fits)) + "…";
    at += letter_size(lead);
    if (width + ellipsis <= room) fits = at;
  }
  return std::string(text);
}

std::string svg_text(int x, int y, std::string_view style, std::string_view text, double size, double room,
                     bool bold, bool at_end) {
  const std::string whole = plain(text), fitted = svg_fit(whole, size, room, bold);
  std::string styles(style);
  if (bold) styles += styles.empty() ? "b" : " b";
  if (at_end) styles += styles.empty() ? "e" : " e";
  return fmt::format("<text x=\"{}\" y=\"{}\"{}>{}{}</text>\n", x, y,
                     styles.empty() ? "" : fmt::format(" class=\"{}\"", styles),
                     fitted == whole ? "" : fmt::format("<title>{}</title>", html(whole)), html(fitted));
}

}  // namespace boxproof::report
