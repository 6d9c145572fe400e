#include "boxproof/check.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <fnmatch.h>

#include <algorithm>
#include <thread>
#include <unordered_map>

#include "src/check/totals.hpp"
#include "src/read/source_map.hpp"
#include "src/rules/notes.hpp"

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

// Worst first, then by rule; what one rule says stays in the order in which it said it.
void sort_findings(std::vector<Finding>::iterator begin, std::vector<Finding>::iterator end) {
  std::stable_sort(begin, end, [](const Finding& a, const Finding& b) {
    return a.severity != b.severity ? a.severity < b.severity : a.rule->id < b.rule->id;
  });
}

bool already_said(const Finding& f, const std::vector<Finding>& before, std::size_t from, std::size_t to) {
  return std::any_of(
      before.begin() + static_cast<std::ptrdiff_t>(from), before.begin() + static_cast<std::ptrdiff_t>(to),
      [&](const Finding& b) { return b.rule == f.rule && b.part == f.part && b.severity <= f.severity; });
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
  }

  Judgement run() {
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

  void judge_site(std::vector<Finding>& findings) const {
    Notes notes(edition_, options_.show_work);
    const auto run = [&](const SiteTotals& totals, Basis basis) {
      notes.about(std::nullopt, "", basis);
      const SiteCase site{design_, edition_, totals, basis};
      for (const Running& r : rules_)
        if (r.rule->judge_site != nullptr) {
          notes.speak(*r.rule, *r.section);
          r.rule->judge_site(site, notes);
        }
      notes.close();
    };
    run(plan_totals_, Basis::design);
    const std::size_t planned = notes.findings().size();
    if (record_ != nullptr) run(built_totals_, Basis::as_built);
    add_new(notes.findings(), 0, planned, findings);
  }

  // Moves the findings from `from` on to `out`: those before `planned` as they are, the others unless they
  // repeat one.
  static void add_new(std::vector<Finding>& all, std::size_t from, std::size_t planned,
                      std::vector<Finding>& out) {
    const std::size_t start = out.size();
    std::vector<bool> keep(all.size() - from, true);
    for (std::size_t i = planned; i < all.size(); ++i)
      keep[i - from] = !already_said(all[i], all, from, planned);
    for (std::size_t i = from; i < all.size(); ++i)
      if (keep[i - from]) out.push_back(std::move(all[i]));
    all.resize(from);
    sort_findings(out.begin() + static_cast<std::ptrdiff_t>(start), out.end());
  }

  void run_box_rules(const BoxCase& c, Notes& notes) const {
    for (const Running& r : rules_)
      if (r.rule->judge != nullptr) {
        notes.speak(*r.rule, *r.section);
        r.rule->judge(c, notes);
      }
    notes.close();
  }

  void judge_box(const BoxResult& result, BoxFacts& facts, Notes& notes,
                 std::vector<Finding>& findings) const {
    const Combiner& plan = design_.combiners[result.index];
    notes.about(result.index, plan.id, Basis::design);
    box_facts(design_, plan, edition_, facts);
    run_box_rules({design_, edition_, plan, result.index, facts, plan_totals_}, notes);
    const std::size_t planned = notes.findings().size();
    if (result.visited) {
      const VisitedBox& visited = record_->record.boxes[*result.visited];
      FoundParts own;
      const Combiner found = as_built(plan, visited, own);
      BoxFacts found_facts;
      box_facts(design_, found, edition_, found_facts);
      notes.about(result.index, plan.id, Basis::as_built);
      run_box_rules(
          {design_, edition_, found, result.index, found_facts, built_totals_, Basis::as_built, &visited},
          notes);
      for (std::size_t i = planned; i < notes.findings().size(); ++i) {
        Finding& f = notes.findings()[i];
        f.place.pointer = place_in_record(f, visited, result.index, *result.visited);
        f.in_record = true;
      }
      const VisitCase visit{design_, edition_, plan, result.index, visited, *result.visited, found_facts};
      for (const Running& r : rules_)
        if (r.rule->judge_visit != nullptr) {
          notes.speak(*r.rule, *r.section);
          r.rule->judge_visit(visit, notes);
        }
      notes.close();
    }
    add_new(notes.findings(), 0, planned, findings);
  }

  // Boxes do not see each other, so they are judged in stretches side by side; the order of findings is the
  // plan's.
  void judge_boxes(Judgement& out) const {
    constexpr std::size_t worth_a_thread = 2000;  // boxes
    const std::size_t most = std::max(1U, std::thread::hardware_concurrency());
    const std::size_t stretches = std::clamp<std::size_t>(out.boxes.size() / worth_a_thread, 1, most);
    std::vector<std::vector<Finding>> found(stretches);
    const auto work = [&](std::size_t s) {
      Notes notes(edition_, options_.show_work);
      BoxFacts facts;
      const std::size_t begin = out.boxes.size() * s / stretches,
                        end = out.boxes.size() * (s + 1) / stretches;
      for (std::size_t i = begin; i < end; ++i) judge_box(out.boxes[i], facts, notes, found[s]);
    };
    std::vector<std::thread> threads;
    for (std::size_t s = 1; s < stretches; ++s) threads.emplace_back(work, s);
    work(0);
    for (std::thread& t : threads) t.join();
    for (std::vector<Finding>& f : found) std::move(f.begin(), f.end(), std::back_inserter(out.findings));
  }

  // What the record as a whole shows: boxes that nobody visited, boxes that are not on the plan.
  void judge_record(Judgement& out) const {
    Notes notes(edition_, options_.show_work);
    const RecordCase record{design_, edition_, record_->record};
    for (const Running& r : rules_)
      if (r.rule->judge_record != nullptr) {
        notes.speak(*r.rule, *r.section);
        r.rule->judge_record(record, notes);
      }
    notes.close();
    std::erase_if(notes.findings(), [&](const Finding& f) { return !wanted(f.box_id); });
    std::move(notes.findings().begin(), notes.findings().end(), std::back_inserter(out.findings));
    // Put them where they belong: the site's first, then by box, then what is not on the plan.
    const auto rank = [](const Finding& f) -> std::uint64_t {
      if (f.box) return std::uint64_t{*f.box} + 1;
      return f.box_id.empty() ? 0 : UINT64_MAX;
    };
    std::stable_sort(out.findings.begin(), out.findings.end(), [&](const Finding& a, const Finding& b) {
      if (rank(a) != rank(b)) return rank(a) < rank(b);
      return a.severity != b.severity ? a.severity < b.severity : a.rule->id < b.rule->id;
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
      out.boxes[at].verdict = std::max(out.boxes[at].verdict, verdict);
    }
    for (const BoxResult& box : out.boxes) out.verdict = std::max(out.verdict, box.verdict);
  }

  const Design& design_;
  const Edition& edition_;
  const RecordFile* record_;
  const CheckOptions& options_;
  std::vector<Running> rules_;
  std::unordered_map<std::string_view, std::uint32_t> visited_;
  SiteTotals plan_totals_, built_totals_;
};

}  // namespace

Judgement check(const DesignFile& design, const Edition& edition, const RecordFile* record,
                const CheckOptions& options) {
  Judgement out = Checker(design, edition, record, options).run();
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
