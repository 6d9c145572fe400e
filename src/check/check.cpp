#include "boxproof/check.hpp"

#include <fmt/format.h>
#include <fnmatch.h>

#include <algorithm>
#include <iterator>
#include <span>
#include <unordered_map>
#include <unordered_set>
#include <utility>

#include "src/check/reconcile.hpp"
#include "src/check/tally_ask.hpp"
#include "src/check/totals.hpp"
#include "src/check/verdict.hpp"
#include "src/read/source_map.hpp"
#include "src/rules/like_boxes.hpp"
#include "src/rules/notes.hpp"
#include "src/text/in_order.hpp"

namespace boxproof {
namespace {

struct Running {
  const Rule* rule;
  const Edition::RuleSection* section;
};

// The rules that the edition has.
std::vector<Running> rules_in(const Edition& edition) {
  std::vector<Running> out;
  for (const Rule* rule : all_rules())
    if (const auto found = edition.rules.find(rule->id); found != edition.rules.end())
      out.push_back({rule, &found->second});
  return out;
}

bool comes_before(const Finding& a, const Finding& b) {  // worst first, then by rule
  return a.severity != b.severity ? a.severity < b.severity : a.rule->id < b.rule->id;
}

// What came of one box, or of the site.
struct Found {
  std::vector<Finding> standing, gone;
};

// Hands over the findings of one box (or of the site), sorted; what one rule says stays in the order in which
// it said it.
void hand_over(std::vector<Finding>& findings, std::vector<Finding>& out) {
  std::stable_sort(findings.begin(), findings.end(), comes_before);
  std::move(findings.begin(), findings.end(), std::back_inserter(out));
  findings.clear();
}

class Checker {
 public:
  Checker(const DesignFile& file, const Edition& edition, const RecordFile* record,
          const CheckOptions& options)
      : design_(file.design),
        edition_(edition),
        record_(record),
        options_(options),
        rules_(rules_in(edition)) {
    if (record == nullptr) return;
    const auto& boxes = record->record.boxes;
    for (std::uint32_t i = 0; i < boxes.size(); ++i) visited_.emplace(boxes[i].id, i);
    if (std::any_of(boxes.begin(), boxes.end(), concerns_others)) like_ = LikeBoxes(design_);
  }

  Judgement judge() {
    Judgement out;
    out.basis = record_ != nullptr ? Basis::as_built : Basis::design;
    out.selected = !options_.boxes.empty();
    select(out);
    plan_totals_ = totals_of(design_, edition_, nullptr);
    if (record_ != nullptr)
      built_totals_ = totals_of(design_, edition_, [this](std::size_t i) { return visited_box(i); });
    out.totals = record_ != nullptr ? built_totals_ : plan_totals_;
    if (!out.selected) judge_site(out);
    judge_boxes(out);
    if (record_ != nullptr) judge_record(out);
    count_and_judge(out);
    return out;
  }

 private:
  // Whether a part was seen that came so from its maker.
  static bool concerns_others(const VisitedBox& box) {
    return std::any_of(box.seen.begin(), box.seen.end(),
                       [](const Observation& o) { return o.origin == Origin::manufacture; });
  }

  void select(Judgement& out) const {
    for (std::uint32_t i = 0; i < design_.combiners.size(); ++i)
      if (is_chosen(options_.boxes, design_.combiners[i].id)) {
        BoxResult& result = out.boxes.emplace_back();
        result.index = i;
        if (const auto visited = visited_.find(design_.combiners[i].id); visited != visited_.end())
          result.visited = visited->second;
      }
  }

  const VisitedBox* visited_box(std::size_t i) const {
    const auto found = visited_.find(design_.combiners[i].id);
    return found == visited_.end() ? nullptr : &record_->record.boxes[found->second];
  }

  // Every rule that looks at such a case, then what they lacked.
  template <class Case>
  void run(void (*Rule::*judge)(const Case&, Notes&), const Case& c, Notes& notes) const {
    for (const Running& r : rules_)
      if (r.rule->*judge != nullptr) {
        notes.speak(*r.rule, *r.section);
        (r.rule->*judge)(c, notes);
      }
    notes.close();
  }

  void judge_site(Judgement& out) const {
    Notes notes(edition_, options_.show_work);
    notes.about(std::nullopt, "", Basis::design);
    run(&Rule::judge_site, SiteCase{design_, edition_, plan_totals_, Basis::design}, notes);
    if (record_ != nullptr) {
      std::vector<Finding> planned = std::exchange(notes.findings(), {});
      notes.about(std::nullopt, "", Basis::as_built);
      run(&Rule::judge_site, SiteCase{design_, edition_, built_totals_, Basis::as_built}, notes);
      reconcile(planned, notes.findings(), out.gone);
      std::move(planned.begin(), planned.end(), std::back_inserter(notes.findings()));
    }
    hand_over(notes.findings(), out.findings);
  }

  // The box as found, held against the plan's findings, which stand in `notes`.
  void judge_visited(const BoxResult& result, Notes& notes, std::vector<Finding>& gone) const {
    const Combiner& plan = design_.combiners[result.index];
    const VisitedBox& visited = record_->record.boxes[*result.visited];
    std::vector<Finding> planned = std::exchange(notes.findings(), {});
    FoundParts own;
    const Combiner found = as_built(plan, visited, own);
    BoxFacts facts;
    box_facts(design_, found, edition_, facts);
    notes.about(result.index, plan.id, Basis::as_built);
    run(&Rule::judge,
        BoxCase{design_, edition_, found, result.index, facts, built_totals_, Basis::as_built, &visited},
        notes);
    for (Finding& f : notes.findings()) {
      f.other_account.pointer = other_account(f, plan, found, visited, result.index, *result.visited);
      if (f.in_plan) continue;
      f.place.pointer = place_in_record(f, visited, result.index, *result.visited);
      f.in_record = true;
    }
    const std::size_t gone_before = gone.size();
    reconcile(planned, notes.findings(), gone);
    const std::size_t built = notes.findings().size();
    run(&Rule::judge_visit,
        VisitCase{design_, edition_, plan, result.index, visited, *result.visited, facts, &like_}, notes);
    const std::span<Finding> all(notes.findings());
    ask_for_another_plan(all.subspan(built), planned, std::span(gone).subspan(gone_before), all.first(built));
    std::move(planned.begin(), planned.end(), std::back_inserter(notes.findings()));
  }

  void judge_box(const BoxResult& result, BoxFacts& facts, Notes& notes, Found& out) const {
    const Combiner& plan = design_.combiners[result.index];
    notes.about(result.index, plan.id, Basis::design);
    box_facts(design_, plan, edition_, facts);
    run(&Rule::judge, BoxCase{design_, edition_, plan, result.index, facts, plan_totals_}, notes);
    if (result.visited) judge_visited(result, notes, out.gone);
    hand_over(notes.findings(), out.standing);
  }

  // Boxes do not see each other, so they are judged in blocks side by side; the order of findings is the
  // plan's.
  void judge_boxes(Judgement& out) const {
    constexpr std::size_t block = 1000;  // boxes
    const auto make = [&](std::size_t b, Found& found) {
      Notes notes(edition_, options_.show_work);
      BoxFacts facts;
      for (std::size_t i = b * block; i < std::min((b + 1) * block, out.boxes.size()); ++i)
        judge_box(out.boxes[i], facts, notes, found);
    };
    std::size_t done = 0;
    text::in_order<Found>((out.boxes.size() + block - 1) / block, make, [&](Found& found) {
      std::move(found.standing.begin(), found.standing.end(), std::back_inserter(out.findings));
      std::move(found.gone.begin(), found.gone.end(), std::back_inserter(out.gone));
      found = Found();
      done = std::min(done + block, out.boxes.size());
      if (options_.progress) options_.progress(done, out.boxes.size());
    });
  }

  // What was seen in a box that the plan does not have is a hazard or a fault all the same.
  void judge_strangers(Notes& notes) const {
    std::unordered_set<std::string_view> planned;
    for (const Combiner& box : design_.combiners) planned.insert(box.id);
    const std::vector<VisitedBox>& boxes = record_->record.boxes;
    for (std::uint32_t i = 0; i < boxes.size(); ++i) {
      if (boxes[i].seen.empty() || planned.contains(boxes[i].id)) continue;
      Combiner stranger;
      stranger.id = boxes[i].id;
      const BoxFacts nothing;
      const VisitCase c{design_, edition_, stranger, 0, boxes[i], i, nothing, &like_, false};
      notes.about(std::nullopt, stranger.id, Basis::as_built);
      for (const Running& r : rules_) {
        if (!r.rule->id.starts_with("condition/")) continue;  // the others hold it against a plan
        notes.speak(*r.rule, *r.section);
        r.rule->judge_visit(c, notes);
      }
    }
  }

  // What the record as a whole shows: boxes that nobody visited, boxes that are not on the plan.
  void judge_record(Judgement& out) const {
    Notes notes(edition_, options_.show_work);
    run(&Rule::judge_record, RecordCase{design_, edition_, record_->record}, notes);
    judge_strangers(notes);
    std::erase_if(notes.findings(), [&](const Finding& f) { return !is_chosen(options_.boxes, f.box_id); });
    std::move(notes.findings().begin(), notes.findings().end(), std::back_inserter(out.findings));
    // Put them where they belong: the site's first, then by box, then what is not on the plan.
    const auto rank = [](const Finding& f) -> std::uint64_t {
      if (f.box) return std::uint64_t{*f.box} + 1;
      return f.box_id.empty() ? 0 : UINT64_MAX;
    };
    std::stable_sort(out.findings.begin(), out.findings.end(), [&](const Finding& a, const Finding& b) {
      return rank(a) != rank(b) ? rank(a) < rank(b) : comes_before(a, b);
    });
  }

  const Design& design_;
  const Edition& edition_;
  const RecordFile* record_;
  const CheckOptions& options_;
  std::vector<Running> rules_;
  std::unordered_map<std::string_view, std::uint32_t> visited_;
  LikeBoxes like_;  // empty where nothing asks for it
  SiteTotals plan_totals_, built_totals_;
};

// The amended values behind a finding, numbers with what they were.
std::string amendments(const Finding& f, const Edition& edition) {
  std::string out;
  for (std::size_t i = 0; i < edition.amended.size(); ++i)
    if (std::find(f.amended.begin(), f.amended.end(), edition.amended[i]) != f.amended.end())
      out += (out.empty() ? "" : ", ") +
             (edition.amended_to[i].starts_with('"') ? edition.amended[i] : edition.amendment(i));
  return out;
}

void put_place(FilePlace& place, read::SourceMap& places, const read::SourceMap::Found& found) {
  place = {places.file(), found.pointer, found.at.line, found.at.column, found.end.line, found.end.column};
}

// An account that its file does not state is none: the values around it would be beside the matter.
void put_other_account(Finding& f, const DesignFile& design, const RecordFile* record) {
  if (f.other_account.pointer.empty()) return;
  const bool in_record = record != nullptr && f.other_account.pointer.starts_with("/boxes/");
  read::SourceMap& places = in_record ? *record->places : *design.places;
  const auto found = places.find(f.other_account.pointer);
  if (found.stated)
    put_place(f.other_account, places, found);
  else
    f.other_account = {};
}

}  // namespace

Judgement check(const DesignFile& design, const Edition& edition, const RecordFile* record,
                const CheckOptions& options) {
  Judgement out = Checker(design, edition, record, options).judge();
  for (std::vector<Finding>* findings : {&out.findings, &out.gone})
    for (Finding& f : *findings) {
      if (!f.amended.empty()) f.message += fmt::format(" Amended locally: {}.", amendments(f, edition));
      read::SourceMap& places = f.in_record ? *record->places : *design.places;
      put_place(f.place, places, places.find(f.place.pointer));
      put_other_account(f, design, record);
    }
  return out;
}

void facts_of(const DesignFile& design, const Edition& edition, const RecordFile* record,
              const BoxResult& result, FoundBox& own, BoxFacts& facts) {
  const Combiner* box = &design.design.combiners[result.index];
  if (record != nullptr && result.visited) {
    own.parts.conductors.clear();
    own.box = as_built(*box, record->record.boxes[*result.visited], own.parts);
    box = &own.box;
  }
  box_facts(design.design, *box, edition, facts);
}

bool matches(std::string_view pattern, std::string_view text) {
  // An id may itself hold what is special in a pattern.
  return pattern == text || fnmatch(std::string(pattern).c_str(), std::string(text).c_str(), 0) == 0;
}

bool matches_any(const std::vector<std::string>& patterns, std::string_view text) {
  return std::any_of(patterns.begin(), patterns.end(),
                     [&](const std::string& pattern) { return matches(pattern, text); });
}

bool is_chosen(const std::vector<std::string>& patterns, std::string_view id) {
  return patterns.empty() || matches_any(patterns, id);
}

}  // namespace boxproof
