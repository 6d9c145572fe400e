#include "tests/support/csv_input.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "tests/support/catch.hpp"

namespace boxproof::test {
namespace {

template <class T>
std::string shown_or_dash(const std::optional<T>& value) {
  if (!value) return "-";
  if constexpr (requires { value->value(); })
    return fmt::format("{}", value->value());
  else
    return fmt::format("{}", *value);
}

}  // namespace

std::vector<std::string> csv_problems(std::string_view text) {
  const std::string name = "visit.csv";
  std::vector<std::string> out;
  try {
    const Document document{name, std::string(text)};
    read_field_record(document);
  } catch (const InputError& e) {
    for (const Problem& p : e.problems()) {
      REQUIRE(p.file == name);
      out.push_back(to_text(p).substr(name.size() + 1));
    }
  }
  return out;
}

std::vector<std::string> flat_values(const FieldRecord& record) {
  std::vector<std::string> out;
  for (const VisitedBox& b : record.boxes) {
    std::vector<std::string> seen;
    for (const Observation& o : b.seen) seen.push_back(o.what);
    out.push_back(fmt::format(
        "{} count {}/{}/{} series [{}]{} fuse {}/{}/{} posted {}/{}/{} seen [{}]", b.id,
        shown_or_dash(b.count.positive), shown_or_dash(b.count.negative), shown_or_dash(b.count.fuses),
        fmt::join(b.count.series, " "), b.count.series_of_each ? " each" : "", shown_or_dash(b.fuse.rating),
        shown_or_dash(b.fuse.voltage), shown_or_dash(b.fuse.dc), shown_or_dash(b.posted.id),
        shown_or_dash(b.posted.strings), shown_or_dash(b.posted.series), fmt::join(seen, " ")));
  }
  return out;
}

}  // namespace boxproof::test
