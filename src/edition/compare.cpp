#include "src/edition/compare.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "src/edition/data.hpp"

namespace boxproof {
namespace {

// The value as it stands in the data, on one line.
std::string source_of(const read::Value& value) {
  if (value.kind() == read::Kind::text) return std::string(value.text());
  if (value.kind() != read::Kind::array) return read::describe(value);
  std::string out = "[";
  for (read::Value v = value.first(); v; v = v.next_within(value)) {
    if (out.size() > 1) out += ", ";
    if (v.kind() != read::Kind::object) {
      out += source_of(v);
      continue;
    }
    std::string members;
    for (read::Value m = v.first(); m; m = m.next_within(v))
      members += fmt::format("{}{} {}", members.empty() ? "" : " ", m.key(), source_of(m));
    out += "{" + members + "}";
  }
  return out + "]";
}

void compare(const read::Field& one, const read::Field& two, const std::string& path,
             std::vector<Difference>& out) {
  const bool both_objects =
      one && two && one.kind() == read::Kind::object && two.kind() == read::Kind::object;
  if (!both_objects) {
    const auto text = [](const read::Field& f) {
      if (!f) return std::string();
      return f.kind() == read::Kind::object ? std::string("{…}") : source_of(f.top());
    };
    Difference d{path, text(one), text(two)};
    if (d.one != d.two) out.push_back(std::move(d));
    return;
  }
  std::vector<std::string_view> keys = one.keys();
  for (std::string_view key : two.keys())
    if (std::find(keys.begin(), keys.end(), key) == keys.end()) keys.push_back(key);
  for (std::string_view key : keys) {
    const bool top_name = path.empty() && (key == "edition" || key == "title");
    if (key == "source" || key == "note" || top_name) continue;
    const auto present = [key](const read::Field& f) {
      read::Field member = f.find(key);
      return member && member.kind() == read::Kind::null ? read::Field() : member;
    };
    compare(present(one), present(two), path.empty() ? std::string(key) : fmt::format("{}.{}", path, key),
            out);
  }
}

}  // namespace

std::vector<Difference> differences(std::string_view one, std::string_view two) {
  const EditionData a(one), b(two);
  std::vector<Difference> out;
  compare(a.merged(), b.merged(), "", out);
  return out;
}

}  // namespace boxproof
