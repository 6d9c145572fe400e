// Laying out text for 80 columns of terminal or paper.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/finding.hpp"

namespace boxproof::report {

inline constexpr std::size_t page_width = 80;

// Columns that a text takes: code points, as all our own text and most ids are.
std::size_t width_of(std::string_view text);

// Text from a file, made safe for a terminal: control characters, marks that turn the direction of writing
// and characters that nobody sees are shown as escapes, so that nothing in a design can move the cursor, hide
// what is written, or look like another name. Joiners stay, which some scripts cannot be written without. A
// byte that is no UTF-8, as a path may have, becomes \u{FFFD}: what comes out is UTF-8.
std::string plain(std::string_view text);

// Goes behind the character at `at`; its code point, if plain() shows it as an escape.
std::optional<std::uint32_t> unseen(std::string_view text, std::size_t& at);

std::string left(std::string_view text, std::size_t width);  // padded or, with …, cut
std::string right(std::string_view text, std::size_t width);

std::string upper(std::string_view text);  // ASCII letters as capitals

// Paragraph wrapped to the page: the first line behind `lead`, the others behind `indent` columns.
std::string wrap(std::string_view text, std::size_t indent, std::string_view lead = {});

// Ids in the given order with neighbours in sequence run together: "A-01…A-38, A-40".
std::string run_together(const std::vector<std::string_view>& ids);

// Words in the colour of a severity or verdict, if colour is wanted. The words say all that the colour says.
enum class Ink { hazard, correction, query, advice, good, strong, faint };
std::string inked(std::string_view text, Ink ink, bool colour);
Ink ink_of(Severity severity);
Ink ink_of(Verdict verdict);

// A share as percent with one decimal: "2.3 %", "−2.3 %".
std::string percent(double share);

// A whole number with thin groups of three: "10 886".
std::string grouped(double n);

// Amount with its unit, as a finding states it; told apart from what it was compared with, if that is given.
std::string shown(const Amount& amount, std::string_view unit, const Amount& beside = {});

}  // namespace boxproof::report
