// Whether the later report could have found what the earlier one did.
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "boxproof/compare.hpp"
#include "src/edition/compare.hpp"

namespace boxproof {

// Boxes of a report by id.
using BoxesById = std::unordered_map<std::string_view, const ReportedBox*>;
BoxesById by_id(const ReportFile& report);

// Whether the path is the group, or a key below it.
bool is_below(std::string_view path, std::string_view group);
// Amendments that only one of the two reports has, or that do something else there: their keys.
std::vector<std::string> other_amendments(const ReportFile& before, const ReportFile& after);
// Whether a design temperature differs that was given on the command line.
bool other_temperature(const ReportFile& before, const ReportFile& after);

struct Fate {
  Outcome outcome = Outcome::corrected;
  Reason reason = Reason::none;
  std::string detail;
};

class Reach {
 public:
  // `fresh`: findings of the later report that the earlier one has not.
  Reach(const ReportFile& before, const ReportFile& after, const std::vector<const ReportedFinding*>& fresh);

  // What became of a finding that the later report does not have.
  Fate fate_of(const Finding& finding) const;

  const BoxesById& boxes_before() const { return boxes_before_; }
  const BoxesById& boxes_after() const { return boxes_after_; }

 private:
  Fate of_stranger(const Finding& f) const;
  Fate of_site(const Finding& f) const;
  Fate of_box(const Finding& f, const ReportedBox* earlier, const ReportedBox& box) const;
  // The plan does not state any more what the rule went by.
  std::optional<Fate> not_stated(const Finding& f, const ReportedBox* earlier, const ReportedBox& box) const;
  bool asks_for_label(const Finding& f) const;
  std::optional<Fate> not_judged(const Finding& f, std::string_view box) const;

  const ReportFile& before_;
  const ReportFile& after_;
  BoxesById boxes_before_, boxes_after_;
  std::vector<std::string> other_keys_;  // of the edition's data, that the two reports have otherwise
  bool other_temperature_ = false, all_visited_ = false;
  std::unordered_set<std::string> has_rules_;  // of the later report's edition
  // Box (empty: the site) and rule that waits for a value, and the value.
  std::unordered_map<std::string, std::string> waits_;
  std::unordered_set<std::string> labels_asked_;  // box and part of a label that is missing now
  // Boxes of which less is stated of what others hang on than before; the same, some of them in words.
  std::vector<std::string_view> told_less_;
  std::string not_counted_again_;  // boxes with something found on them, which nobody counted again
};

}  // namespace boxproof
