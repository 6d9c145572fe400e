// Words in SARIF: a message may hold placeholders and links, and no text of a file is either.
#include "src/report/layout.hpp"
#include "src/report/sarif.hpp"
#include "src/text/utf8.hpp"

namespace boxproof::report {
namespace {

// Paths may hold any bytes, and JSON may not.
std::string valid(std::string_view text) {
  std::string out;
  while (true) {
    const auto bad = text::invalid_utf8(text);
    out += text.substr(0, bad);
    if (bad == std::string_view::npos) return out;
    out += "\xEF\xBF\xBD";
    text.remove_prefix(bad + 1);
  }
}

}  // namespace

std::string sarif_text(std::string_view text) {
  return plain(valid(text));
}

std::string sarif_words(std::string_view text, bool before_link) {
  const std::string shown = sarif_text(text);
  const bool like_a_link = before_link || shown.find("](") != std::string::npos;
  std::string out;
  for (const char c : shown) {
    if (c == '{' || c == '}') out += c;  // doubled, it stands for itself
    if (like_a_link && (c == '[' || c == ']' || c == '\\')) out += '\\';
    out += c;
  }
  return out;
}

void put_message(Buffer& out, std::string_view words) {
  put(out, R"("message": {"text": )");
  put_text(out, words);
  put(out, "}");
}

std::string_view sarif_level(Severity severity) {
  switch (severity) {
    case Severity::hazard:
    case Severity::correction: return "error";
    case Severity::query: return "warning";
    case Severity::advice: return "note";
  }
  return "error";
}

}  // namespace boxproof::report
