// Where the long list of a document stands, and where each of its elements begins, found without parsing.
//
// The scan knows strings and brackets and nothing else. It lets the elements be parsed side by side, each by
// the real parser; where the text is not JSON after all, one of the pieces fails, and the whole is parsed in
// order to say why.
#pragma once

#include <cstdint>
#include <functional>
#include <string_view>
#include <vector>

namespace boxproof::read {

struct ListSpan {
  bool found = false;
  std::uint32_t open = 0, close = 0;    // of the brackets
  std::vector<std::uint32_t> elements;  // first byte of each
};

// The array that is the member `key` of the top object; not found where there is none, or the brackets do not
// close.
ListSpan find_list(std::string_view source, std::string_view key);

// Whether is_it() says so of a member `key` of the top object, so far as the scan can tell; asked with the
// place where its value begins. The scan ends there.
bool any_member(std::string_view source, std::string_view key,
                const std::function<bool(std::uint32_t)>& is_it);

}  // namespace boxproof::read
