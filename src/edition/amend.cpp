#include "src/edition/amend.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "src/text/nearest.hpp"

namespace boxproof::read {
namespace {

class Check {
 public:
  explicit Check(Problems& problems) : reading_{problems} {}
  std::vector<std::string> changed;

  void object(const Value& amendment, const Field& edition, const std::string& path) {
    for (Value v = amendment.first(); v; v = v.next_within(amendment)) {
      const std::string_view key = v.key();
      if (key == "note") continue;
      const std::string here = path.empty() ? std::string(key) : fmt::format("{}.{}", path, key);
      const Field current = edition.find(key);
      // A section may be given where the edition has none: that is how an amendment adds its own requirement.
      const bool adds_section = !current && key == "section" && v.kind() == Kind::text;
      if (!current && !adds_section) {
        const auto known = edition.keys();
        reading_.problem(
            v, fmt::format("found the key \"{}\", which this edition does not have{}; expected one of {}; "
                           "an amendment can change values, not add keys",
                           key, text::did_you_mean(key, known), fmt::join(known, ", ")));
        continue;
      }
      if (v.kind() == Kind::object && current && current.kind() == Kind::object) {
        object(v, current, here);
        continue;
      }
      if (current && v.kind() != Kind::null && v.kind() != current.kind()) {
        reading_.problem(v, fmt::format("found {}, expected the same type as the edition's {}", describe(v),
                                        describe(current.top())));
        continue;
      }
      changed.push_back(here);
    }
  }

 private:
  Reading reading_;

 public:
  bool top(const Value& amendment) { return expect(amendment, Kind::object, reading_); }
};

}  // namespace

std::vector<std::string> check_amendment(const Value& amendment, const Field& edition, Problems& problems) {
  Check check(problems);
  if (check.top(amendment)) check.object(amendment, edition, "");
  return check.changed;
}

}  // namespace boxproof::read
