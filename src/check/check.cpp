#include "boxproof/check.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <fnmatch.h>

#include <algorithm>
#include <iterator>
#include <unordered_map>
#include <unordered_set>

#include "src/check/totals.hpp"
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

// Hands over the findings of one box (or of the site), sorted; what one rule says stays in the order in which
// it said it. Those from number `planned` on are the site as built: one that the plan had already, as grave
// or graver, is dropped.
void hand_over(std::vector<Finding>& all, std::size_t planned, std::vector<Finding>& out) {
  const auto built = all.begin() + static_cast<std::ptrdiff_t>(planned);
  const auto said_before = [&](const Finding& f) {
    return std::any_of(all.begin(), built, [&](const Finding& b) {
      return b.rule == f.rule && b.part == f.part && b.severity <= f.severity;
    });
  };
  all.erase(std::remove_if(built, all.end(), said_before), all.end());
  std::stable_sort(all.begin(), all.end(), comes_before);
  std::move(all.begin(), all.end(), std::back_inserter(out));
  all.clear();
}

// Where in the record the value stands that made a finding appear on the box as built.
std::string place_in_record(const Finding& f, const VisitedBox& visited, std::uint32_t box,
                            std::uint32_t record_index) {
  const std::string own = fmt::format("/combiners/{}", box);
  const std::string there = fmt::format("/boxes/{}", record_index);
  if (!visited.count.series.empty() && f.rule->id.starts_with("voltage/")) return there + "/count/series";
  const std::string_view in_design = f.place.pointer;
  if (!in_design.starts_with(own)) return there;
  const std::string_view rest = in_design.substr(own.size());
  static constexpr std::pair<std::string_view, std::string_view> same[] = {
      {"/fuse", "/fuse"},          {"/enclosure", "/enclosure"},
      {"/mounting", "/enclosure"}, {"/disconnect", "/disconnect"},
      {"/output", "/output"},      {"/egc", "/egc"},
      {"/bond", "/source"}};
  for (const auto& [design, record] : same)
    if (rest.starts_with(design)) return there + std::string(record);
  if (rest.starts_with("/circuits")) {
    if (rest.ends_with("/series")) return there + "/count/series";
    return there + (rest.find("/run") != std::string_view::npos ? "/source" : "/count");
  }
  return there;
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
    if (!out.selected) judge_site(out.findings);
    judge_boxes(out);
    if (record_ != nullptr) judge_record(out);
    finish(out);
    return out;
  }

 private:
  // Whether a part was seen that came so from its maker.
  static bool concerns_others(const VisitedBox& box) {
    return std::any_of(box.seen.begin(), box.seen.end(),
                       [](const Observation& o) { return o.origin == Origin::manufacture; });
  }

  bool wanted(std::string_view id) const {
    return options_.boxes.empty() || std::any_of(options_.boxes.begin(), options_.boxes.end(),
                                                 [&](const std::string& p) { return matches(p, id); });
  }

  void select(Judgement& out) const {
    for (std::uint32_t i = 0; i < design_.combiners.size(); ++i)
      if (wanted(design_.combiners[i].id)) {
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

  void judge_site(std::vector<Finding>& findings) const {
    Notes notes(edition_, options_.show_work);
    notes.about(std::nullopt, "", Basis::design);
    run(&Rule::judge_site, SiteCase{design_, edition_, plan_totals_, Basis::design}, notes);
    const std::size_t planned = notes.findings().size();
    if (record_ != nullptr) {
      notes.about(std::nullopt, "", Basis::as_built);
      run(&Rule::judge_site, SiteCase{design_, edition_, built_totals_, Basis::as_built}, notes);
    }
    hand_over(notes.findings(), planned, findings);
  }

  void judge_box(const BoxResult& result, BoxFacts& facts, Notes& notes,
                 std::vector<Finding>& findings) const {
    const Combiner& plan = design_.combiners[result.index];
    notes.about(result.index, plan.id, Basis::design);
    box_facts(design_, plan, edition_, facts);
    run(&Rule::judge, BoxCase{design_, edition_, plan, result.index, facts, plan_totals_}, notes);
    const std::size_t planned = notes.findings().size();
    if (result.visited) {
      const VisitedBox& visited = record_->record.boxes[*result.visited];
      FoundParts own;
      const Combiner found = as_built(plan, visited, own);
      BoxFacts found_facts;
      box_facts(design_, found, edition_, found_facts);
      notes.about(result.index, plan.id, Basis::as_built);
      run(&Rule::judge,
          BoxCase{design_, edition_, found, result.index, found_facts, built_totals_, Basis::as_built,
                  &visited},
          notes);
      for (std::size_t i = planned; i < notes.findings().size(); ++i) {
        Finding& f = notes.findings()[i];
        f.place.pointer = place_in_record(f, visited, result.index, *result.visited);
        f.in_record = true;
      }
      run(&Rule::judge_visit,
          VisitCase{design_, edition_, plan, result.index, visited, *result.visited, found_facts, &like_},
          notes);
    }
    hand_over(notes.findings(), planned, findings);
  }

  // Boxes do not see each other, so they are judged in blocks side by side; the order of findings is the
  // plan's.
  void judge_boxes(Judgement& out) const {
    constexpr std::size_t block = 1000;  // boxes
    const auto make = [&](std::size_t b, std::vector<Finding>& found) {
      Notes notes(edition_, options_.show_work);
      BoxFacts facts;
      for (std::size_t i = b * block; i < std::min((b + 1) * block, out.boxes.size()); ++i)
        judge_box(out.boxes[i], facts, notes, found);
    };
    text::in_order<std::vector<Finding>>(
        (out.boxes.size() + block - 1) / block, make, [&](std::vector<Finding>& found) {
          std::move(found.begin(), found.end(), std::back_inserter(out.findings));
          found.clear();
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
    std::erase_if(notes.findings(), [&](const Finding& f) { return !wanted(f.box_id); });
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

  static Verdict verdict_of(Severity severity) {
    switch (severity) {
      case Severity::hazard: return Verdict::stop;
      case Severity::correction: return Verdict::correct;
      case Severity::query: return Verdict::clarify;
      case Severity::advice: return Verdict::accept;
    }
    return Verdict::stop;
  }

  void finish(Judgement& out) const {
    std::size_t at = 0;  // boxes and findings are both in the order of the plan
    for (BoxResult& box : out.boxes)
      if (record_ != nullptr && !box.visited) box.verdict = Verdict::not_visited;
    for (const Finding& f : out.findings) {
      ++out.counts[static_cast<std::size_t>(f.severity)];
      const Verdict verdict = verdict_of(f.severity);
      out.verdict = std::max(out.verdict, verdict);
      if (!f.box) continue;
      while (out.boxes[at].index != *f.box) ++at;
      BoxResult& box = out.boxes[at];
      box.verdict = std::max(box.verdict, verdict);
      if (f.disposition && (!box.disposition || *f.disposition < *box.disposition))
        box.disposition = f.disposition;
    }
    for (const BoxResult& box : out.boxes) out.verdict = std::max(out.verdict, box.verdict);
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

}  // namespace

Judgement check(const DesignFile& design, const Edition& edition, const RecordFile* record,
                const CheckOptions& options) {
  Judgement out = Checker(design, edition, record, options).judge();
  for (Finding& f : out.findings) {
    if (!f.amended.empty()) f.message += fmt::format(" Amended locally: {}.", fmt::join(f.amended, ", "));
    read::SourceMap& places = f.in_record ? *record->places : *design.places;
    const auto found = places.find(f.place.pointer);
    f.place = {places.file(), found.pointer, found.at.line, found.at.column};
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
  return fnmatch(std::string(pattern).c_str(), std::string(text).c_str(), 0) == 0;
}

}  // namespace boxproof
