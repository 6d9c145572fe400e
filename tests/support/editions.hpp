// The editions that the program carries, for tests.
#pragma once

#include <string_view>

#include "boxproof/edition.hpp"

// The edition of this name ("2017"), loaded once for all tests.
const boxproof::Edition& edition_of(std::string_view name);
