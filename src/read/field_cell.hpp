// The values of cells as JSON. A cell that holds no such value gives another in its place, and false: nothing
// comes of the record then, and what is written keeps the places of the others.
#pragma once

#include <string>
#include <string_view>

namespace boxproof::read {

void put_text(std::string& out, std::string_view text);
bool put_number(std::string& out, std::string_view text);
bool put_truth(std::string& out, std::string_view text);  // TRUE as well: spreadsheets write it so

// What is wrong with a cell that holds no such value.
std::string not_a_number(std::string_view text);
std::string not_truth(std::string_view text, std::string_view empty_where = "it was not seen");

}  // namespace boxproof::read
