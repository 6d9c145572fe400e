// JSON Pointers (RFC 6901).
#pragma once

#include <string>
#include <string_view>

namespace boxproof::text {

// A key as one reference token of a pointer.
std::string pointer_token(std::string_view key);

}  // namespace boxproof::text
