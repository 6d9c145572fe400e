// The comparison for programs (boxproof-comparison/1): one finding and one box a line, in a fixed order.
#include "boxproof/rule.hpp"
#include "src/report/compare.hpp"
#include "src/report/compare_words.hpp"
#include "src/report/json_text.hpp"
#include "src/report/phrases.hpp"

namespace boxproof::report {
namespace {

void put_report(Buffer& out, std::string_view key, const ReportFile& r) {
  put(out, fmt::format("  \"{}\": {{\"file\": ", key));
  put_text(out, r.name);
  put_text_or_null(out, R"(, "tool": )", r.version);
  put_text_or_null(out, R"(, "basis": )", basis_names[static_cast<std::size_t>(r.basis)]);
  put_text_or_null(out, R"(, "edition": )", r.edition);
  put_text_or_null(out, R"(, "visited": )", r.visit_date);
  put(out, R"(, "site": )");
  put_text(out, r.site);
  put_text_or_null(out, R"(, "verdict": )", name_of(r.verdict));
  put(out, "},\n");
}

void put_side(Buffer& out, std::string_view lead, const ReportedFinding* side) {
  put(out, lead);
  if (side == nullptr) return put(out, "null");
  const Finding& f = side->finding;
  put_text_or_null(out, R"({"severity": )", name_of(f.severity));
  put_text_or_null(out, R"(, "basis": )", basis_names[static_cast<std::size_t>(f.basis)]);
  put_text_or_null(out, R"(, "message": )", f.message);
  put_amount(out, R"(, "found": )", f.found);
  put_amount(out, R"(, "required": )", f.required);
  put_text_or_null(out, R"(, "unit": )", f.unit);
  put_text_or_null(out, R"(, "section": )", f.section);
  put_text_or_null(out, R"(, "file": )", f.place.file);
  put(out, R"(, "pointer": )");
  put_text(out, f.place.pointer);
  put(out, fmt::format(R"(, "line": {}, "column": {}}})", f.place.line, f.place.column));
}

void put_compared(Buffer& out, const Compared& c, const Comparison& comparison) {
  const Finding& f = c.finding();
  put_text_or_null(out, R"(    {"outcome": )", outcome_names[static_cast<std::size_t>(c.outcome)]);
  put_text_or_null(
      out, R"(, "reason": )",
      c.reason == Reason::none ? std::string_view() : reason_names[static_cast<std::size_t>(c.reason)]);
  put_text_or_null(out, R"(, "detail": )", c.detail);
  put_text_or_null(out, R"(, "why": )", reason_words(c, comparison));
  put_text_or_null(out, R"(, "change": )", change_words(c));
  put_text_or_null(out, R"(, "rule": )", f.rule->id);
  put_text_or_null(out, R"(, "box": )", f.box_id);
  put_text_or_null(out, R"(, "part": )", f.part);
  const ReportedFinding& source = c.after != nullptr ? *c.after : *c.before;
  put(out, fmt::format(R"(, "fingerprint": "{:016x}")", source.fingerprint));
  put_side(out, R"(, "before": )", c.before);
  put_side(out, R"(, "after": )", c.after);
  put(out, "}");
}

void put_changed(Buffer& out, const ChangedBox& box) {
  put(out, R"(    {"box": )");
  put_text(out, box.after->id);
  put_text_or_null(out, R"(, "verdict_before": )", name_of(box.before->verdict));
  put_text_or_null(out, R"(, "verdict_after": )", name_of(box.after->verdict));
  put(out, box.asked ? R"(, "asked_for": true, "changes": [)" : R"(, "asked_for": false, "changes": [)");
  for (const ValueChange& change : box.changes) {
    put_text_or_null(out, &change == &box.changes.front() ? R"({"where": )" : R"(, {"where": )",
                     change.where);
    put_text_or_null(out, R"(, "value": )", change.name->key);
    put_amount(out, R"(, "before": )", change.before);
    put_amount(out, R"(, "after": )", change.after);
    put(out, "}");
  }
  put(out, "]}");
}

void put_ids(Buffer& out, std::string_view key, const std::vector<std::string_view>& ids) {
  put(out, fmt::format("  \"{}\": [", key));
  for (std::size_t i = 0; i < ids.size(); ++i) {
    if (i > 0) put(out, ", ");
    put_text(out, ids[i]);
  }
  put(out, "],\n");
}

}  // namespace

void write_comparison_json(const Comparison& c, const Write& write) {
  Buffer out;
  constexpr std::size_t enough = 1U << 16;  // bytes
  const auto flush = [&] {
    write({out.data(), out.size()});
    out.clear();
  };
  const auto put_list = [&](std::string_view key, const auto& list, const auto& put_one) {
    put(out, fmt::format("  \"{}\": [", key));
    for (const auto& one : list) {
      put(out, &one == &list.front() ? "\n" : ",\n");
      put_one(one);
      if (out.size() > enough) flush();
    }
    put(out, list.empty() ? "],\n" : "\n  ],\n");
  };
  put(out, "{\n  \"format\": \"boxproof-comparison/1\",\n  \"tool\": {");
  put_text_or_null(out, R"("version": )", version());
  put(out, "},\n");
  put_report(out, "before", *c.before);
  put_report(out, "after", *c.after);
  put(out, R"(  "remarks": [)");
  put_texts(out, c.remarks);
  put(out, c.nothing_changed ? "],\n  \"nothing_changed\": true,\n" : "],\n  \"nothing_changed\": false,\n");
  put_counts(out, "  \"open\": ", c.open_counts());
  put_counts(out, ",\n  \"beyond_verdict\": ", c.beyond_verdict());
  put(out, ",\n  \"counts\": {");
  for (const Outcome outcome : outcomes_in_order) {
    put_counts(out,
               fmt::format("{}\"{}\": ", outcome == outcomes_in_order[0] ? "" : ", ",
                           outcome_names[static_cast<std::size_t>(outcome)]),
               c.counts(outcome));
  }
  put(out, "},\n");
  put_list("findings", c.findings, [&](const Compared& one) { put_compared(out, one, c); });
  put_ids(out, "new_boxes", c.new_boxes);
  put_ids(out, "dropped_boxes", c.dropped_boxes);
  put_list("changed_boxes", c.changed, [&](const ChangedBox& box) { put_changed(out, box); });
  put_text_or_null(out, R"(  "caution": )", caution());
  put(out, "\n}\n");
  flush();
}

}  // namespace boxproof::report
