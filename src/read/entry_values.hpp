// Values that the entries of several files have: a rule, words that say something, a fingerprint.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "src/read/object.hpp"

namespace boxproof {
struct Rule;
}

namespace boxproof::read {

// The rule with this id; a problem and null where there is none. `hint` says what else to do.
const Rule* to_rule(const Value& value, const Reading& reading, std::string_view hint = {});

// Text that says something; a problem where it is blank. `what` was expected.
std::string to_words(const Value& value, std::string_view what, const Reading& reading);

// A list of such texts, with at least one; `empty` says what an empty list should have been.
std::vector<std::string> to_word_list(const Value& list, std::string_view what, std::string_view empty,
                                      const Reading& reading);

// 16 hexadecimal digits; `why` they must be as they were written.
std::optional<std::uint64_t> to_fingerprint(const Value& value, std::string_view why, const Reading& reading);

}  // namespace boxproof::read
