// Whether a text is UTF-8.
#pragma once

#include <cstddef>
#include <string_view>

namespace boxproof::text {

// How many bytes the character takes that starts at `at`; 0 where no character does (RFC 3629).
std::size_t utf8_length(std::string_view text, std::size_t at);

// Where the first byte stands that makes the text no UTF-8 (RFC 3629); npos where there is none.
std::size_t invalid_utf8(std::string_view text);

}  // namespace boxproof::text
