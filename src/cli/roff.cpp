#include "src/cli/roff.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace boxproof::cli {
namespace {

constexpr std::size_t line_width = 78;  // bytes; what checks pages complains above 80

}  // namespace

// What roff reads in a text, or sets in a typeface that cannot be copied into a shell. UTF-8 stays.
std::string roff(std::string_view text) {
  std::string out;
  for (const char c : text) switch (c) {
      case '-': out += "\\-"; break;
      case '\\': out += "\\e"; break;
      case '\'': out += "\\(aq"; break;
      case '"': out += "\\(dq"; break;
      case '`': out += "\\(ga"; break;
      case '^': out += "\\(ha"; break;
      case '~': out += "\\(ti"; break;
      default: out += c;
    }
  return out;
}

void Roff::title(std::string_view name, std::string_view day, std::string_view source) {
  out_ += fmt::format(".TH {} 1 {} \"{}\" \"boxproof manual\"\n.nh\n.ad l\n", roff(name), day, roff(source));
}

void Roff::section(std::string_view heading) {
  out_ += fmt::format(".SH {}\n", heading);
  headed_ = true;
}

void Roff::subsection(std::string_view heading) {
  out_ += fmt::format(".SS {}\n", roff(heading));
}

void Roff::paragraph(std::string_view words) {
  if (!headed_) out_ += ".PP\n";
  headed_ = false;
  text(words);
}

void Roff::term(std::string_view bold, std::string_view italic, std::string_view words) {
  headed_ = false;
  out_ += ".TP\n";
  if (!bold.empty()) out_ += fmt::format("\\fB{}\\fR", roff(bold));
  if (!italic.empty()) out_ += fmt::format("{}\\fI{}\\fR", bold.empty() ? "" : " ", roff(italic));
  out_ += "\n";
  text(words);
}

void Roff::example(std::string_view does, std::string_view line) {
  paragraph(does);
  out_ += fmt::format(".PP\n.RS 4\n.nf\n{}\n.fi\n.RE\n", roff(line));
}

void Roff::name(std::string_view page, std::string_view does) {
  text(fmt::format("{} - {}", page, does));
}

void Roff::synopsis(std::string_view bold, std::string_view rest) {
  out_ += fmt::format(".B {}\n", roff(bold));
  text(rest.substr(std::min(rest.find_first_not_of(' '), rest.size())));
}

void Roff::reference(std::string_view page, bool last) {
  out_ += fmt::format(".BR {} (1){}\n", roff(page), last ? "" : ",");
}

// A sentence begins a line, so that nobody sees two blanks behind a full stop in one place and one in
// another.
void Roff::text(std::string_view words) {
  std::string line;
  const auto flush = [&] {
    if (line.empty()) return;
    const bool request = line.front() == '.';
    out_ += (request ? "\\&" : "") + line + "\n";
    line.clear();
  };
  while (!words.empty()) {
    const auto end = words.find(' ');
    const std::string word = roff(words.substr(0, end));
    if (!line.empty() && line.size() + 1 + word.size() > line_width) flush();
    line += (line.empty() ? "" : " ") + word;
    if (word.ends_with(".")) flush();
    words = end == std::string_view::npos ? std::string_view() : words.substr(end + 1);
  }
  flush();
}

}  // namespace boxproof::cli
