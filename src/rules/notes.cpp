#include "src/rules/notes.hpp"

#include <algorithm>
#include <cmath>

#include "src/text/hash.hpp"

namespace boxproof {

namespace {

std::string with_decimals(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (decimals > 0) text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  if (text == "-0") text = "0";
  return text.front() == '-' ? "−" + text.substr(1) : text;
}

int usual_decimals(double value) {
  constexpr double small = 100;  // a 13.64 A fuse, a 1012.4 V string
  return std::abs(value) < small ? 2 : 1;
}

}  // namespace

std::string shown(double value) {
  return with_decimals(value, usual_decimals(value));
}

std::string shown(double value, double beside) {
  constexpr int most = 9;  // beyond, the comparison itself has its slack
  int decimals = usual_decimals(value);
  if (value == beside || shown(value) != shown(beside)) return with_decimals(value, decimals);
  while (decimals < most && with_decimals(value, decimals) == with_decimals(beside, decimals)) ++decimals;
  return with_decimals(value, decimals);
}

std::string word_for(double n, std::string_view words) {
  for (const std::string_view many : {"strings", "modules"})
    if (n == 1 && words.starts_with(many))
      return std::string(many.substr(0, many.size() - 1)) + std::string(words.substr(many.size()));
  return std::string(words);
}

std::string counted(std::size_t n, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}

Note& Note::at(std::string_view in_box) {
  finding_->place.pointer = fmt::format("/combiners/{}{}", finding_->box.value_or(0), in_box);
  return *this;
}
Note& Note::at_plan(std::string_view in_box) {
  finding_->in_plan = true;
  return at(in_box);
}
Note& Note::at_design(std::string pointer) {
  finding_->place.pointer = std::move(pointer);
  return *this;
}
Note& Note::at_record(std::string pointer) {
  finding_->place.pointer = std::move(pointer);
  finding_->in_record = true;
  return *this;
}

Note& Note::beside(std::string pointer) {
  finding_->other_account.pointer = std::move(pointer);
  return *this;
}

void Notes::about(std::optional<std::uint32_t> box, std::string_view box_id, Basis basis) {
  box_ = box;
  box_id_ = std::string(box_id);
  basis_ = basis;
}

void Notes::speak(const Rule& rule, const Edition::RuleSection& section) {
  rule_ = &rule;
  section_ = &section;
}

Finding& Notes::add(const Rule& rule, Severity severity, std::string part) {
  Finding& f = findings_.emplace_back();
  f.rule = &rule;
  f.severity = severity;
  f.basis = basis_;
  f.box = box_;
  f.box_id = box_id_;
  f.part = std::move(part);
  if (box_) f.place.pointer = fmt::format("/combiners/{}", *box_);
  const auto below = [](std::string_view path, std::string_view group) {
    return path.starts_with(group) && (path.size() == group.size() || path[group.size()] == '.');
  };
  for (const std::string& path : edition_.amended)
    if (below(path, fmt::format("rules.{}", rule.id)) ||
        std::any_of(rule.uses.begin(), rule.uses.end(), [&](std::string_view g) { return below(path, g); }))
      f.amended.push_back(path);
  return f;
}

Note Notes::find(Severity severity, std::string part) {
  Finding& f = add(*rule_, severity, std::move(part));
  f.section = section_->section;
  return Note(f, wants_working_);
}

Note Notes::find(std::string part) {
  return find(rule_->severity, std::move(part));
}

Notes::Lacking& Notes::add_lacking(std::string part, std::string pointer, bool speaks_for_all,
                                   std::string_view because, std::string_view found) {
  auto same =
      std::find_if(lacking_.begin(), lacking_.end(), [&](const Lacking& l) { return l.pointer == pointer; });
  if (same == lacking_.end()) {
    lacking_.push_back({std::move(part),
                        std::move(pointer),
                        std::string(because),
                        std::string(found),
                        {},
                        0,
                        false,
                        {},
                        false,
                        {}});
    same = lacking_.end() - 1;
  }
  if (std::find(same->rules.begin(), same->rules.end(), rule_) != same->rules.end()) return *same;
  same->rules.push_back(rule_);
  if (same->rules.size() > 1 && (!speaks_for_all || same->speaks_for_all)) return *same;
  same->speaker = same->rules.size() - 1;
  same->speaks_for_all = speaks_for_all;
  same->section = section_->section;
  return *same;
}

void Notes::lacks_in_record(std::uint32_t record_index, std::string_view pointer, std::string_view because,
                            std::string_view found, std::string_view whom) {
  Lacking& lacking = add_lacking(std::string(pointer.substr(1)),
                                 fmt::format("/boxes/{}{}", record_index, pointer), false, because, found);
  lacking.in_record = true;
  lacking.whom = whom;
}

void Notes::lacks(std::string pointer, bool speaks_for_all, std::string_view because,
                  std::string_view found) {
  std::string part = pointer.substr(1);
  add_lacking(std::move(part), std::move(pointer), speaks_for_all, because, found);
}

void Notes::lacks_in_box(std::string_view pointer, bool speaks_for_all) {
  add_lacking(std::string(pointer.substr(1)), fmt::format("/combiners/{}{}", box_.value_or(0), pointer),
              speaks_for_all);
}

void Notes::lacks_in_circuit(const BoxCase& c, std::size_t circuit, std::string_view pointer,
                             bool speaks_for_all) {
  // A group that was found split is asked for once, under the plan's name.
  const auto planned = c.box.circuits[circuit].part_of;
  const std::size_t index = planned ? *planned : circuit;
  const std::string& id =
      planned ? c.design.combiners[c.index].circuits[*planned].id : c.box.circuits[circuit].id;
  add_lacking(fmt::format("circuits {}{}", id, pointer),
              fmt::format("/combiners/{}/circuits/{}{}", c.index, index, pointer), speaks_for_all);
}

void Notes::close() {
  for (Lacking& l : lacking_) {
    Finding& f = add(*l.rules[l.speaker], Severity::query, l.part);
    f.lacking = true;
    f.section = l.section;
    f.place.pointer = l.pointer;
    std::string others;
    for (const Rule* rule : l.rules)
      if (rule != f.rule) {
        others += fmt::format("{}{}", others.empty() ? "" : ", ", rule->id);
        f.also.push_back(rule);
      }
    f.message = l.because.empty() ? fmt::format("{} is not stated", l.part) : l.because;
    // A rule that is itself the query names only the others.
    const bool itself = l.speaks_for_all && f.rule->severity == Severity::query;
    if (!itself || !others.empty())
      f.message +=
          fmt::format(", so {} cannot be judged{}", itself ? others : std::string(f.rule->id), l.whom);
    f.message += itself || others.empty() ? "." : fmt::format(", nor {}.", others);
    f.in_record = l.in_record;
    if (l.in_record) {
      f.found = l.found.empty() ? std::string("not stated") : l.found;
      f.ask = "Complete the field record; what nobody noted, measure again.";
    } else if (l.found.empty()) {
      f.found = std::string("not stated");
      f.ask = l.part.find(" as found/") == std::string::npos
                  ? "State the value in the design, with its source."
                  : "Find out the value of the part that is there, and have the plan state the part.";
    } else {  // something is stated that does not do: the rule says what to do
      f.found = l.found;
    }
  }
  lacking_.clear();
}

std::string fingerprint(const Finding& finding) {
  text::Hash hash;
  hash.add(finding.rule->id);
  hash.add(finding.box_id);
  hash.add(finding.part);
  return hash.hex();
}

}  // namespace boxproof
