// The report for programs (boxproof-report/1). One box and one finding a line, in a fixed order, no times, no
// paths but those that were given: the same input gives the same bytes.
#include <algorithm>

#include "boxproof/report.hpp"
#include "boxproof/rule.hpp"
#include "src/report/agreed.hpp"
#include "src/report/json_text.hpp"
#include "src/report/known.hpp"
#include "src/text/in_order.hpp"

namespace boxproof {
namespace report {
namespace {

std::string_view name_or_none(const std::optional<Disposition>& disposition) {
  return disposition ? disposition_names[static_cast<std::size_t>(*disposition)] : std::string_view();
}

void put_ampacity(Buffer& out, const RunAmpacity& a) {
  put_number(out, R"("ampacity_a": )", a.in_use);
  put_number(out, R"(, "terminal_ampacity_a": )", a.terminal);
  const bool known = a.in_use.has_value();
  put_number(out, R"(, "correction": )", known ? std::optional(a.correction) : std::nullopt);
  put_number(out, R"(, "adjustment": )", known ? std::optional(a.adjustment) : std::nullopt);
}

void put_circuit(Buffer& out, const CircuitFacts& f) {
  put_text_or_null(out, R"({"id": )", f.circuit->id);
  put_number(out, R"(, "max_v": )", f.voltage.max);
  put_number(out, R"(, "max_a": )", f.max.value());
  put(out, R"(, "fuse_needed": )");
  put(out, !f.fuse_needed ? "null" : *f.fuse_needed ? "true" : "false");
  put_number(out, R"(, "back_a": )", f.back.value());
  put_number(out, R"(, "fuse_min_a": )", f.fuse_least.value());
  put_number(out, R"(, "fuse_suggested_a": )", f.fuse_suggested);
  put(out, ", ");
  put_ampacity(out, f.run);
  put_number(out, R"(, "drop_pct": )", f.drop_pct);
  put(out, "}");
}

void put_box(Buffer& out, const BoxResult& result, const BoxFacts& f, const ReportInput& r) {
  put(out, R"(    {"id": )");
  put_text(out, f.box->id);
  put_text_or_null(out, R"(, "verdict": )", verdict_names[static_cast<std::size_t>(result.verdict)]);
  if (r.record != nullptr) {
    put_text_or_null(out, R"(, "disposition": )", name_or_none(result.disposition));
    put(out, R"(, "looked_at": [)");
    if (result.visited)
      put_texts(out, looked_at(r.record->record.boxes[*result.visited], static_cast<double>(f.strings)));
    put(out, "]");
  }
  put(out, R"(, "calc": {)");
  const bool known = f.max_voltage && f.every_voltage_known;
  put_number(out, R"("max_v": )", known ? std::optional(f.max_voltage->value()) : std::nullopt);
  put_number(out, R"(, "cold_factor": )", known ? std::optional(f.cold_factor) : std::nullopt);
  put_number(out, R"(, "out_max_a": )", f.output_max.value());
  put_number(out, R"(, "out_continuous_a": )", f.output_continuous.value());
  put_number(out, R"(, "strings": )", static_cast<double>(f.strings));
  put_number(out, R"(, "modules": )", f.modules);
  put(out, R"(, "circuits": [)");
  for (std::size_t i = 0; i < f.circuits.size(); ++i) {
    if (i > 0) put(out, ", ");
    put_circuit(out, f.circuits[i]);
  }
  put(out, R"(], "output": {)");
  put_ampacity(out, f.output_run);
  put_number(out, R"(, "drop_pct": )", f.output_drop_pct);
  const Run* run = f.box->output && f.box->output->run ? &*f.box->output->run : nullptr;
  const auto size =
      run ? smallest_size(*run, f.output_max, r.design.design.site.high, r.edition) : std::nullopt;
  put_text_or_null(out, R"(, "suggested_size": )", size ? size->name() : std::string_view());
  put(out, "}");
  put_number(out, R"(, "disconnect_min_a": )", f.disconnect_least.value());
  put(out, "}}");
}

void put_place(Buffer& out, const FilePlace& p) {
  put_text_or_null(out, R"("file": )", p.file);
  put(out, R"(, "pointer": )");
  put_text(out, p.pointer);
  put_number(out, R"(, "line": )", static_cast<double>(p.line));
  put_number(out, R"(, "column": )", static_cast<double>(p.column));
}

void put_finding(Buffer& out, const Finding& f, bool show_work, const std::size_t* exception = nullptr) {
  put_text_or_null(out, R"(    {"rule": )", f.rule->id);
  put_text_or_null(out, R"(, "severity": )", severity_names[static_cast<std::size_t>(f.severity)]);
  put_text_or_null(out, R"(, "basis": )", basis_names[static_cast<std::size_t>(f.basis)]);
  put_text_or_null(out, R"(, "box": )", f.box_id);
  put_text_or_null(out, R"(, "part": )", f.part);
  put_text_or_null(out, R"(, "message": )", f.message);
  put(out, R"(, "found": )");
  put_amount(out, f.found);
  put(out, R"(, "required": )");
  put_amount(out, f.required);
  put_text_or_null(out, R"(, "unit": )", f.unit);
  put_text_or_null(out, R"(, "section": )", f.section);
  put_text_or_null(out, R"(, "disposition": )", name_or_none(f.disposition));
  put(out, ", ");
  put_place(out, f.place);
  put_number(out, R"(, "end_line": )", static_cast<double>(f.place.end_line));
  put_number(out, R"(, "end_column": )", static_cast<double>(f.place.end_column));
  put_text_or_null(out, R"(, "fingerprint": )", fingerprint(f));
  if (f.known) put(out, R"(, "known": true)");
  if (!f.other_account.file.empty()) {
    put(out, R"(, "other_account": {)");
    put_place(out, f.other_account);
    put(out, "}");
  }
  if (f.lacking) {
    put_text_or_null(out, R"(, "cannot_judge": [)", f.rule->id);
    for (const Rule* rule : f.also) put_text_or_null(out, ", ", rule->id);
    put(out, "]");
  }
  if (exception != nullptr) put_number(out, R"(, "exception": )", static_cast<double>(*exception));
  if (show_work) {
    put(out, R"(, "working": )");
    put_working(out, f.working);
  }
  put(out, "}");
}

std::optional<double> celsius(const std::optional<Celsius>& temperature) {
  return temperature ? std::optional(temperature->value()) : std::nullopt;
}

// The totals that the permit states, by their keys: what another revision leaves out is not compared any
// more.
std::vector<std::string> totals_of(const Permit& permit) {
  std::vector<std::string> out;
  if (permit.combiners) out.emplace_back("combiners");
  if (permit.strings) out.emplace_back("strings");
  if (permit.modules) out.emplace_back("modules");
  if (permit.dc_kilowatts) out.emplace_back("dc_kw");
  return out;
}

void put_head(Buffer& out, const ReportInput& r) {
  const Judgement& j = r.judgement;
  put(out, "{\n  \"format\": \"boxproof-report/1\",\n  \"tool\": {");
  put_text_or_null(out, R"("version": )", version());
  put_text_or_null(out, R"(, "data": )", data_revision());
  put(out, "},\n  \"code\": {");
  put_text_or_null(out, R"("edition": )", r.edition.name);
  put(out, R"(, "amended": [)");
  put_texts(out, r.overrides, put_texts(out, r.edition.amended));
  put(out, R"(], "amendments": [)");
  for (std::size_t i = 0; i < r.edition.amended.size(); ++i) {
    put_text_or_null(out, i > 0 ? R"(, {"key": )" : R"({"key": )", r.edition.amended[i]);
    put_text_or_null(out, R"(, "to": )", r.edition.amended_to[i]);
    put(out, "}");
  }
  put(out, R"(], "overrides": [)");
  put_texts(out, r.overrides);
  put(out, "]},\n  ");
  put_text_or_null(out, R"("basis": )", basis_names[static_cast<std::size_t>(j.basis)]);
  if (j.selected) put(out, ",\n  \"selected\": true");
  if (r.record != nullptr) {
    const FieldRecord& record = r.record->record;
    put_text_or_null(out, ",\n  \"visit\": {\"date\": ", record.date);
    put_text_or_null(
        out, R"(, "kind": )",
        record.kind ? visit_kind_names[static_cast<std::size_t>(*record.kind)] : std::string_view());
    put(out, "}");
  }
  put(out, ",\n  \"site\": {");
  put(out, R"("name": )");
  put_text(out, r.design.design.site.name);
  put_text_or_null(out, R"(, "verdict": )", verdict_names[static_cast<std::size_t>(j.verdict)]);
  put(out, R"(, "totals": {)");
  put_number(out, R"("combiners": )", static_cast<double>(j.totals.combiners));
  put_number(out, R"(, "strings": )", j.totals.strings);
  put_number(out, R"(, "modules": )", j.totals.modules);
  put_number(out, R"(, "dc_kw": )", j.totals.dc_kilowatts);
  put(out, "}");
  put(out, R"(, "counts": {)");
  for (std::size_t i = 0; i < severity_names.size(); ++i)
    put_number(out, fmt::format("{}\"{}\": ", i ? ", " : "", severity_names[i]),
               static_cast<double>(j.counts[i]));
  put(out, "}");
  put_known_counts(out, j);
  put_number(out, R"(, "low_c": )", celsius(r.design.design.site.low));
  put_number(out, R"(, "high_c": )", celsius(r.design.design.site.high));
  put(out, R"(, "permit": [)");
  put_texts(out, totals_of(r.design.design.site.permit));
  put(out, "]},\n");
}

void put_boxes(const ReportInput& r, const Write& write) {
  const std::vector<BoxResult>& boxes = r.judgement.boxes;
  constexpr std::size_t block = 256;  // boxes: some hundred kilobytes
  const auto make = [&](std::size_t i, Buffer& out) {
    BoxFacts facts;
    FoundBox own;
    for (std::size_t b = i * block; b < std::min((i + 1) * block, boxes.size()); ++b) {
      facts_of(r.design, r.edition, r.record, boxes[b], own, facts);
      put_box(out, boxes[b], facts, r);
      put(out, b + 1 < boxes.size() ? ",\n" : "\n");
    }
  };
  std::size_t done = 0;
  text::in_order<Buffer>((boxes.size() + block - 1) / block, make, [&](Buffer& out) {
    write({out.data(), out.size()});
    out.clear();
    done = std::min(done + block, boxes.size());
    if (r.progress) r.progress(done, boxes.size());
  });
}

}  // namespace
}  // namespace report

void write_json(const ReportInput& r, const Write& write) {
  report::Buffer out;
  const auto flush = [&] {
    write({out.data(), out.size()});
    out.clear();
  };
  report::put_head(out, r);
  report::put(out, "  \"boxes\": [\n");
  flush();
  report::put_boxes(r, write);
  report::put(out, "  ],\n");
  constexpr std::size_t enough = 1U << 16;  // bytes
  const auto put_list = [&](std::string_view key, const std::vector<Finding>& findings) {
    report::put(out, fmt::format("  \"{}\": [", key));
    for (const Finding& f : findings) {
      report::put(out, &f == &findings.front() ? "\n" : ",\n");
      report::put_finding(out, f, r.show_work);
      if (out.size() > enough) flush();
    }
    report::put(out, findings.empty() ? "],\n" : "\n  ],\n");
  };
  put_list("findings", r.judgement.findings);
  if (r.record != nullptr) put_list("gone", r.judgement.gone);
  if (r.judgement.exceptions_day) {
    const std::vector<AgreedFinding>& agreed = r.judgement.agreed;
    report::put(out, "  \"agreed\": [");
    for (const AgreedFinding& a : agreed) {
      report::put(out, &a == &agreed.front() ? "\n" : ",\n");
      report::put_finding(out, a.finding, r.show_work, &a.exception);
      if (out.size() > enough) flush();
    }
    report::put(out, agreed.empty() ? "],\n" : "\n  ],\n");
    report::put_exceptions(out, r.judgement);
  }
  report::put_baseline(out, r.judgement);
  report::put_text_or_null(out, R"(  "caution": )", caution());
  report::put(out, "\n}\n");
  flush();
}

}  // namespace boxproof
