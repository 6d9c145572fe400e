// Agreed exceptions, applied to a judgement.
#include "boxproof/exceptions.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

#include "boxproof/check.hpp"
#include "src/check/verdict.hpp"

namespace boxproof {
namespace {

bool in_force(const Exception& e, Date day) {
  return day >= e.date && (!e.expires || day <= *e.expires);
}

// The site's own findings have an empty id, which "*" matches and no other pattern that names a box does.
bool has_box(const Exception& e, std::string_view id) {
  return matches_any(e.boxes, id);
}

// The entry that the finding falls under, if every rule that it speaks for is excepted.
std::optional<std::size_t> entry_over(const Finding& f, const std::vector<ExceptionResult>& entries,
                                      const std::vector<std::size_t>& naming, Date day) {
  if (f.worse_as_found) return std::nullopt;  // nobody has agreed to what is there
  const auto covering = [&](const Rule* rule) -> std::optional<std::size_t> {
    for (const std::size_t i : naming) {
      const Exception& e = entries[i].entry;
      if (e.rule == rule && in_force(e, day) && (e.hazard || f.severity != Severity::hazard)) return i;
    }
    return std::nullopt;
  };
  const bool others =
      std::all_of(f.also.begin(), f.also.end(), [&](const Rule* rule) { return covering(rule).has_value(); });
  return others ? covering(f.rule) : std::nullopt;
}

ExceptionState state_of(const ExceptionResult& r, Date day) {
  if (day < r.entry.date) return ExceptionState::not_yet;
  if (!in_force(r.entry, day)) return ExceptionState::expired;
  if (!r.matched) return ExceptionState::matches_nothing;
  if (r.findings > 0) return ExceptionState::applied;
  if (r.worse > 0) return ExceptionState::worse_as_found;
  if (r.hazards > 0) return ExceptionState::hazards_only;
  return r.shared > 0 ? ExceptionState::shared_only : ExceptionState::covered_before;
}

// Whether a pattern names a box of the plan, a box of the record that is not on it, or the site.
bool names_something(const std::string& pattern, const Design& design, const std::vector<Finding>& findings) {
  return matches(pattern, "") ||
         std::any_of(design.combiners.begin(), design.combiners.end(),
                     [&](const Combiner& box) { return matches(pattern, box.id); }) ||
         std::any_of(findings.begin(), findings.end(),
                     [&](const Finding& f) { return !f.box && matches(pattern, f.box_id); });
}

}  // namespace

void apply_exceptions(Judgement& j, const Design& design, const ExceptionsFile& file, ExceptionDay day,
                      std::string_view path) {
  j.exceptions_day = day;
  std::vector<ExceptionResult>& entries = j.exceptions;
  for (const Exception& entry : file.entries) {
    if (!entry.designs.empty() && !matches_any(entry.designs, path)) {
      ++j.exceptions_elsewhere;
      continue;
    }
    ExceptionResult& result = entries.emplace_back();
    result.entry = entry;
    result.index = static_cast<std::size_t>(&entry - file.entries.data());
    std::copy_if(entry.boxes.begin(), entry.boxes.end(), std::back_inserter(result.unknown),
                 [&](const std::string& p) { return !names_something(p, design, j.findings); });
  }
  std::vector<Finding> standing;
  std::vector<std::size_t> naming;  // entries of the finding's rules on its box
  for (Finding& f : j.findings) {
    naming.clear();
    for (std::size_t i = 0; i < entries.size(); ++i)
      if (f.speaks_for(*entries[i].entry.rule) && has_box(entries[i].entry, f.box_id)) naming.push_back(i);
    for (const std::size_t i : naming) entries[i].matched = true;
    if (const auto over = entry_over(f, entries, naming, day.date)) {
      ++entries[*over].findings;
      j.agreed.push_back({std::move(f), *over});
      continue;
    }
    for (const std::size_t i : naming) {
      ExceptionResult& r = entries[i];
      ++r.standing;
      if (in_force(r.entry, day.date))
        ++(f.worse_as_found                                    ? r.worse
           : f.severity == Severity::hazard && !r.entry.hazard ? r.hazards
                                                               : r.shared);
    }
    standing.push_back(std::move(f));
  }
  j.findings = std::move(standing);
  for (ExceptionResult& entry : entries) entry.state = state_of(entry, day.date);
  count_and_judge(j);
}

}  // namespace boxproof
