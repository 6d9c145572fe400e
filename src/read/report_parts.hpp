// Boxes and findings of a report, read back.
#pragma once

#include <map>
#include <mutex>
#include <string>

#include "boxproof/compare.hpp"
#include "src/read/object.hpp"

namespace boxproof::read {

// Rules by id: the program's own, or made up where a report names one that this program does not have.
// Findings are read from several threads at once.
class RuleNames {
 public:
  explicit RuleNames(std::map<std::string, Rule, std::less<>>& strange) : strange_(strange) {}
  // A problem and null where the value is no rule's id.
  const Rule* rule(const Value& value, const Reading& reading);

 private:
  std::map<std::string, Rule, std::less<>>& strange_;
  std::mutex mutex_;
};

// A member that must be there and may be null: "box": null is the site. Empty where it is null.
std::string text_or_null(ObjectReader& object, std::string_view key, const Reading& reading);
std::optional<double> number_or_null(ObjectReader& object, std::string_view key, const Reading& reading);

// `visits`: of a field check, where a box says what was looked at.
ReportedBox read_reported_box(const Value& value, bool visits, const Reading& reading);
ReportedFinding read_reported_finding(const Value& value, RuleNames& rules, const Reading& reading);
ReportedException read_reported_exception(const Value& value, const Reading& reading);

}  // namespace boxproof::read
