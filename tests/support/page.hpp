// Looking at a printed page: its lines, their width, colour taken off.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace boxproof::test {

std::vector<std::string> lines_of(std::string_view page);

// Code points: what the page takes in columns, colour codes not counted.
std::size_t columns_of(std::string_view line);

// The page without colour codes (ESC [ … m).
std::string without_colour(std::string_view page);

// The lines that are wider than the page of 80 columns.
std::vector<std::string> too_wide(std::string_view page);

// Control characters other than the end of a line.
std::size_t control_characters(std::string_view page);

}  // namespace boxproof::test
