#include "src/draft/labels_cell.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "src/read/csv.hpp"
#include "src/read/field_cell.hpp"
#include "src/read/tree.hpp"

namespace boxproof::draft {
namespace {

constexpr char quote = '\'';
constexpr std::string_view no_labels = "none";

bool is_plain_name(std::string_view name) {
  return !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
  });
}

void put_quoted(std::string& out, std::string_view text) {
  out += quote;
  for (const char c : text) {
    if (c == quote) out += quote;
    out += c;
  }
  out += quote;
}

class Parser {
 public:
  explicit Parser(std::string_view cell) : cell_(cell) {}

  LabelsCell read() {
    out_.json = "[";
    if (read::trimmed(cell_) != no_labels)
      while (label()) {
      }
    out_.json += ']';
    out_.text = text_.finish();
    if (out_.problem.empty()) return std::move(out_);
    return {std::string(no_labels), "[]", {}, std::move(out_.problem), out_.problem_at};
  }

 private:
  // Reads a label and the semicolon behind it; false at the end, and where something is wrong.
  bool label() {
    skip_space();
    if (at_end()) return false;
    out_.places.emplace_back(static_cast<std::uint32_t>(out_.json.size()) + first_brace(),
                             static_cast<std::uint32_t>(at_));
    const std::size_t start = at_;
    const std::string_view kind = until(";()=,'");
    if (kind.empty()) return wrong(start, found_here(), "the kind of a label");
    text_.label(kind);
    out_.json += out_.json.size() > 1 ? ",{\"kind\":" : "{\"kind\":";
    read::put_text(out_.json, kind);
    if (take('(') && !values()) return false;
    out_.json += '}';
    skip_space();
    if (at_end()) return false;
    if (!take(';')) return wrong(at_, found_here(), "; and the next label, or ( and what this one states");
    return true;
  }
  // Where the object of the next label begins, seen from the end of the JSON.
  std::uint32_t first_brace() const { return out_.json.size() > 1 ? 1 : 0; }

  bool values() {
    names_.clear();
    skip_space();
    while (!take(')')) {
      if (!names_.empty() && !take(',')) return wrong(at_, found_here(), ", or ) behind a value");
      if (!value()) return false;
      skip_space();
    }
    if (!names_.empty()) out_.json += '}';
    return true;
  }

  bool value() {
    skip_space();
    const std::size_t start = at_;
    std::string name;
    if (!quoted(name)) name = until(";()=,'");
    if (!out_.problem.empty()) return false;
    if (name.empty()) return wrong(start, found_here(), "the name of a value, such as max_v");
    if (std::find(names_.begin(), names_.end(), name) != names_.end())
      return wrong(start, fmt::format("{} a second time", read::in_quotes(name)), "each value once");
    out_.json += names_.empty() ? ",\"values\":{" : ",";
    names_.push_back(name);
    skip_space();
    if (!take('=')) return wrong(at_, found_here(), fmt::format("= behind {}", read::in_quotes(name)));
    skip_space();
    read::put_text(out_.json, name);
    out_.json += ':';
    std::string text;
    if (quoted(text)) {
      if (!out_.problem.empty()) return false;
      read::put_text(out_.json, text);
      text_.value(name, text);
      return true;
    }
    const std::size_t value_at = at_;
    const std::string_view digits = until(";()=,'");
    std::string json;
    if (!read::put_number(json, digits))
      return wrong(value_at, digits.empty() ? found_here() : read::in_quotes(digits),
                   "a number, or a text in single quotes");
    double number = 0;
    std::from_chars(json.data(), json.data() + json.size(), number);
    out_.json += number_text(number);
    text_.value(name, number);
    return true;
  }

  // A text in single quotes; false where there is none.
  bool quoted(std::string& text) {
    const std::size_t start = at_;
    if (!take(quote)) return false;
    while (!at_end()) {
      const char c = cell_[at_++];
      if (c == quote && !take(quote)) return true;
      text += c;
    }
    wrong(start, "a single quote that is not closed", "another one behind the text");
    return true;
  }

  bool at_end() const { return at_ == cell_.size(); }
  bool take(char c) {
    if (at_end() || cell_[at_] != c) return false;
    ++at_;
    return true;
  }
  void skip_space() { at_ = std::min(cell_.find_first_not_of(" \t\r\n", at_), cell_.size()); }
  std::string_view until(std::string_view ends) {
    const std::size_t start = at_;
    at_ = std::min(cell_.find_first_of(ends, at_), cell_.size());
    return read::trimmed(cell_.substr(start, at_ - start));
  }
  std::string found_here() const {
    if (at_end()) return "the end of the cell";
    std::size_t size = 1;  // of the character, which is UTF-8
    while (at_ + size < cell_.size() && (static_cast<unsigned char>(cell_[at_ + size]) & 0xC0U) == 0x80U)
      ++size;
    return read::in_quotes(cell_.substr(at_, size));
  }
  bool wrong(std::size_t at, const std::string& found, std::string_view expected) {
    out_.problem = fmt::format("found {}, expected {}", found, expected);
    out_.problem_at = static_cast<std::uint32_t>(at);
    return false;
  }

  std::string_view cell_;
  std::size_t at_ = 0;
  LabelsCell out_;
  LabelsText text_;
  std::vector<std::string> names_;  // of the label's values so far
};

}  // namespace

void LabelsText::label(std::string_view kind) {
  if (has_values_) text_ += ')';
  has_values_ = false;
  if (!text_.empty()) text_ += "; ";
  text_ += kind;
}

void LabelsText::name(std::string_view name) {
  text_ += has_values_ ? ", " : "(";
  has_values_ = true;
  if (is_plain_name(name))
    text_ += name;
  else
    put_quoted(text_, name);
  text_ += '=';
}

void LabelsText::value(std::string_view name_of_value, std::string_view text) {
  name(name_of_value);
  put_quoted(text_, text);
}

void LabelsText::value(std::string_view name_of_value, double number) {
  name(name_of_value);
  text_ += number_text(number);
}

std::string LabelsText::finish() {
  if (has_values_) text_ += ')';
  return text_.empty() ? std::string(no_labels) : std::move(text_);
}

LabelsCell read_labels_cell(std::string_view cell) {
  return Parser(cell).read();
}

std::string number_text(double number) {
  return fmt::format("{}", number == 0 ? 0.0 : number);
}

}  // namespace boxproof::draft
