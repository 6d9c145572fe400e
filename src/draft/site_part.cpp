#include "src/draft/site_part.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>

#include "src/draft/json_layout.hpp"

namespace boxproof::draft {
namespace {

using read::Tree;
using read::Value;

constexpr std::array<std::string_view, 6> keys{"note", "site", "code", "modules", "inverters", "conductors"};

class Members : public read::Sink {
 public:
  void member(std::string_view key, const Tree& tree) override {
    if (std::find(keys.begin(), keys.end(), key) != keys.end()) part.members.emplace_back(key, tree);
  }
  void problem(std::uint32_t, std::string, std::string message) override { throw std::logic_error(message); }

  SitePart part;
};

// Each member of an object on a line of its own, or on several.
void put_members(report::Buffer& out, const Value& map) {
  report::put(out, "{");
  bool first = true;
  for (Value v = map.first(); v; v = v.next_within(map)) {
    report::put(out, first ? "\n    " : ",\n    ");
    first = false;
    const std::size_t start = out.size();
    report::put_text(out, v.key());
    report::put(out, ": ");
    lay_out(out, v, 4, 4 + report::width_of({out.data() + start, out.size() - start}));
  }
  report::put(out, first ? "}" : "\n  }");
}

}  // namespace

SitePart site_part(const Document& document) {
  Members members;
  read::parse_members(document.text, read::find_list(document.text, "combiners"), members);
  SitePart part = std::move(members.part);
  std::stable_sort(part.members.begin(), part.members.end(), [](const auto& a, const auto& b) {
    return std::find(keys.begin(), keys.end(), a.first) < std::find(keys.begin(), keys.end(), b.first);
  });
  return part;
}

void set_amendments_path(SitePart& part, const std::string& path) {
  for (auto& [key, tree] : part.members) {
    if (key != "code") continue;
    const Value amendments = Value(tree, 0).find("amendments");
    if (!amendments || amendments.kind() != read::Kind::text) return;
    read::Node& node = tree.nodes[amendments.index()];
    node.text_decoded = true;
    node.text_at = static_cast<std::uint32_t>(tree.decoded.size());
    node.text_size = static_cast<std::uint32_t>(path.size());
    tree.decoded += path;
  }
}

std::string site_text(const SitePart& part) {
  report::Buffer out;
  put_site_part(out, part, "site.schema.json", "boxproof-site/1");
  report::put(out, "\n}\n");
  return {out.data(), out.size()};
}

void put_site_part(report::Buffer& out, const SitePart& part, std::string_view schema,
                   std::string_view format) {
  report::put(out, "{\n  \"$schema\": ");
  report::put_text(out, schema);
  report::put(out, ",\n  \"format\": ");
  report::put_text(out, format);
  for (const auto& [key, tree] : part.members) {
    report::put(out, ",\n  ");
    report::put_text(out, key);
    report::put(out, ": ");
    const Value value(tree, 0);
    if (key == "modules" || key == "inverters" || key == "conductors")
      put_members(out, value);
    else
      lay_out(out, value, 2, 2 + 4 + key.size());
  }
}

}  // namespace boxproof::draft
