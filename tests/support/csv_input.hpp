// Field records in CSV, and what the reader says about them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "boxproof/read.hpp"

namespace boxproof::test {

// All that the reader tells, one line a problem, without the file's name and the colon behind it; empty where
// it reads the text.
std::vector<std::string> csv_problems(std::string_view text);

// The flat values of each box of a record, a line a box: `A-1 count 16/15/16 series [18] …`.
std::vector<std::string> flat_values(const FieldRecord& record);

}  // namespace boxproof::test
