// Texts that would do harm where they are shown, and files that have them in every place for a text.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "tests/support/judge.hpp"

namespace boxproof::test {

struct Hostile {
  std::string_view what;
  std::string text;
};

// What moves a cursor, rings, turns the direction of writing, hides or breaks lines on a terminal; what a
// page would take for markup; what a spreadsheet would take for a formula; what is very long.
std::vector<Hostile> hostile_texts();

// What Markdown would take for markup, at the start of a line and within it.
std::vector<Hostile> markdown_texts();

// The file with the text put before every free text in it: names, ids with what names them, sheets, notes,
// words of labels, reasons. What must be a word of a list, a size or a day stays.
Json hostile_design(Json design, const std::string& text);
Json hostile_record(Json record, const std::string& text);
Json hostile_exceptions(Json exceptions, const std::string& text);

// What of it may not reach a reader: control characters but line ends, marks of direction, and the other
// characters that are not seen. Empty: nothing.
std::string harm_in(std::string_view page);

}  // namespace boxproof::test
