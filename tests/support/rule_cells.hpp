// The matrix rule × edition, read from the data files on its own: not through the program's reading of them.
#pragma once

#include <map>
#include <string>
#include <string_view>

namespace boxproof::test {

// The section of a rule in an edition, with a star where its source, or that of a part, is memory; "–" where
// it has none.
std::string cell_of(std::string_view edition, std::string_view rule);

// Edition -> cell out of a row with neighbours run together: "2008–2011 690.7(C)*; 2014 690.7(C)".
std::map<std::string, std::string> cells_of_row(const std::string& row);

// The row of all the editions as the data has it.
std::map<std::string, std::string> cells_of_data(std::string_view rule);

}  // namespace boxproof::test
