#include "tests/support/evaluate.hpp"

#include <charconv>
#include <cmath>

namespace boxproof::test {
namespace {

class Reader {
 public:
  explicit Reader(std::string_view text) : rest_(text) {}

  std::optional<double> whole() {
    const auto value = sum();
    skip_blanks();
    return rest_.empty() ? value : std::nullopt;
  }

 private:
  void skip_blanks() {
    while (rest_.starts_with(' ')) rest_.remove_prefix(1);
  }

  bool take(std::string_view sign) {
    skip_blanks();
    if (!rest_.starts_with(sign)) return false;
    rest_.remove_prefix(sign.size());
    return true;
  }

  std::optional<double> sum() {
    auto value = product();
    while (value) {
      const bool plus = take("+");
      if (!plus && !take("−")) break;
      const auto next = product();
      if (!next) return std::nullopt;
      *value += plus ? *next : -*next;
    }
    return value;
  }

  std::optional<double> product() {
    auto value = factor();
    while (value) {
      const bool times = take("·");
      if (!times && !take("/")) break;
      const auto next = factor();
      if (!next) return std::nullopt;
      *value = times ? *value * *next : *value / *next;
    }
    return value;
  }

  std::optional<double> factor() {
    if (take("−")) {
      const auto value = factor();
      return value ? std::optional(-*value) : std::nullopt;
    }
    if (take("sqrt")) {
      if (!rest_.starts_with('(')) return std::nullopt;
      const auto value = factor();
      return value ? std::optional(std::sqrt(*value)) : std::nullopt;
    }
    if (take("ln")) {
      if (!rest_.starts_with('(')) return std::nullopt;
      const auto value = factor();
      return value ? std::optional(std::log(*value)) : std::nullopt;
    }
    if (take("(")) {
      const auto value = sum();
      return take(")") ? value : std::nullopt;
    }
    // A number, as printed: digits, a point, perhaps an exponent; a sign would be an operator.
    if (rest_.empty() || rest_[0] < '0' || rest_[0] > '9') return std::nullopt;
    double value = 0;
    const auto [end, error] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), value);
    if (error != std::errc()) return std::nullopt;
    rest_.remove_prefix(static_cast<std::size_t>(end - rest_.data()));
    return value;
  }

  std::string_view rest_;
};

}  // namespace

std::optional<double> evaluate(std::string_view expression) {
  return Reader(expression).whole();
}

}  // namespace boxproof::test
