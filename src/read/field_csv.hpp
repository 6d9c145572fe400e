// Field records that come as CSV: one row a box, for the values that a flat row can hold.
#pragma once

#include <memory>
#include <string_view>

#include "boxproof/read.hpp"
#include "src/read/made_text.hpp"
#include "src/read/problems.hpp"

namespace boxproof::read {

// Whether a field record is CSV: it does not start as JSON does, and its name or its first line says so.
bool is_field_csv(const Document& document);

// Throws the problems of a text that cannot be told apart into rows and cells.
void check_csv_text(std::string_view source, Problems& problems);

// The same record as JSON. What is wrong with the rows and cells goes to `problems`; the values are for the
// reader of the JSON to check. Throws the problems where no row can be understood.
std::shared_ptr<const MadeText> json_of_field_csv(std::string_view source, Problems& problems);

}  // namespace boxproof::read
