// Recomputes a printed line of arithmetic, as a reader with a pencil would: + − · / and parentheses, sqrt,
// ln, numbers.
#pragma once

#include <optional>
#include <string_view>

namespace boxproof::test {

// The value of the expression; nothing where it is none (words, a dangling operator, a missing parenthesis).
std::optional<double> evaluate(std::string_view expression);

}  // namespace boxproof::test
