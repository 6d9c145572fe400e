#include "src/text/id_runs.hpp"

#include <cctype>
#include <cstdint>

namespace boxproof::text {
namespace {

// Splits "A-07" into "A-" and 7; an id without a number at its end has none.
struct Numbered {
  std::string_view stem;
  std::size_t digits = 0;
  std::uint64_t number = 0;
};
Numbered numbered(std::string_view id) {
  std::size_t start = id.size();
  constexpr std::size_t most_digits = 15;
  while (start > 0 && std::isdigit(static_cast<unsigned char>(id[start - 1])) &&
         id.size() - start < most_digits)
    --start;
  Numbered out{id.substr(0, start), id.size() - start, 0};
  for (char c : id.substr(start)) out.number = out.number * 10 + static_cast<std::uint64_t>(c - '0');
  return out;
}

bool follows(std::string_view before, std::string_view id) {
  const Numbered a = numbered(before), b = numbered(id);
  if (a.digits == 0 || b.digits == 0 || a.stem != b.stem || b.number != a.number + 1) return false;
  const auto padded = [](const Numbered& n, std::string_view whole) {
    return n.digits > 1 && whole[n.stem.size()] == '0';
  };
  return a.digits == b.digits || (!padded(a, before) && !padded(b, id));  // 9 and 10, but not 09 and 010
}

}  // namespace

std::vector<IdRun> id_runs(const std::vector<std::string_view>& ids) {
  std::vector<IdRun> out;
  for (std::size_t i = 0; i < ids.size(); ++i) {
    if (!out.empty() && follows(ids[i - 1], ids[i]))
      out.back().last = i;
    else
      out.push_back({i, i});
  }
  return out;
}

std::string run_words(std::string_view first, std::string_view last, std::size_t size) {
  std::string out(first);
  if (size > 1) out.append(size == 2 ? ", " : "…").append(last);
  return out;
}

}  // namespace boxproof::text
