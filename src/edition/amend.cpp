#include "src/edition/amend.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "src/text/nearest.hpp"

namespace boxproof::read {
namespace {

// A value as the report names it.
std::string words(const Value& value) {
  switch (value.kind()) {
    case Kind::text: return in_quotes(value.text());
    case Kind::array: return "a list";
    case Kind::object: return "a group";
    case Kind::null:
    case Kind::boolean:
    case Kind::number: return describe(value);
  }
  return {};
}

bool same(const Value& a, const Value& b) {
  if (a.kind() != b.kind()) return false;
  switch (a.kind()) {
    case Kind::null: return true;
    case Kind::boolean: return a.boolean() == b.boolean();
    case Kind::number: return a.number() == b.number();
    case Kind::text: return a.text() == b.text();
    case Kind::array:
    case Kind::object: break;
  }
  const bool keyed = a.kind() == Kind::object;
  std::size_t ours = 0, theirs = 0;
  for (Value y = b.first(); y; y = y.next_within(b)) ++theirs;
  Value beside = b.first();
  for (Value x = a.first(); x; x = x.next_within(a), ++ours) {
    const Value y = keyed ? b.find(x.key()) : beside;
    if (!y || !same(x, y)) return false;
    if (!keyed) beside = beside.next_within(b);
  }
  return ours == theirs;
}

class Check {
 public:
  explicit Check(Problems& problems) : reading_{problems, nullptr, nullptr} {}
  std::vector<Amended> changed;

  void object(const Value& amendment, const Field& edition, const std::string& path) {
    for (Value v = amendment.first(); v; v = v.next_within(amendment)) {
      const std::string_view key = v.key();
      if (key == "note") continue;
      const std::string here = path.empty() ? std::string(key) : fmt::format("{}.{}", path, key);
      // What this edition took away from the base may be given back: so an amendment adds a requirement.
      const Field own = edition.find(key);
      const Field current = own && own.kind() == Kind::null ? Field(edition.layers().back()).find(key) : own;
      if (!current) {
        const auto known = edition.keys();
        reading_.problems.add(
            v.key_offset(), pointer_of(v),
            fmt::format("found the key \"{}\", which this edition does not have{}; expected one of {}; an "
                        "amendment can change values, not add keys",
                        key, text::did_you_mean(key, known), fmt::join(known, ", ")));
        continue;
      }
      if (path.empty() && key == "edition" && !same(v, current.top())) {
        reading_.problem(
            v, fmt::format("found {}, expected {}, the edition that is amended; an amendment changes "
                           "values of an edition, the design's code.edition says which edition it is",
                           words(v), words(current.top())));
        continue;
      }
      if (v.kind() == Kind::object && current.kind() == Kind::object) {
        object(v, current, here);
        continue;
      }
      if (v.kind() != Kind::null && v.kind() != current.kind()) {
        reading_.problem(v, fmt::format("found {}, expected the type that the value has in the edition: {}",
                                        describe(v), describe(current.top())));
        continue;
      }
      if (own && same(v, own.top())) continue;
      const std::string before = own && own.kind() != Kind::null ? words(own.top()) : "nothing";
      if (v.kind() == Kind::null && (own.kind() == Kind::object || own.kind() == Kind::array)) {
        changed.push_back({here, path == "rules" ? "taken away: this rule does not run" : "taken away"});
        continue;
      }
      const std::string after = v.kind() == Kind::null ? "nothing" : words(v);
      changed.push_back({here, fmt::format("{} in place of {}", after, before)});
    }
  }

  bool top(const Value& amendment) { return expect(amendment, Kind::object, reading_); }

 private:
  Reading reading_;
};

}  // namespace

std::vector<Amended> check_amendment(const Value& amendment, const Field& edition, Problems& problems) {
  Check check(problems);
  if (check.top(amendment)) check.object(amendment, edition, "");
  return check.changed;
}

}  // namespace boxproof::read
