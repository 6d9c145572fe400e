// The report for programs (boxproof-report/1). One box and one finding a line, in a fixed order, no times, no paths but
// those that were given: the same input gives the same bytes.
#include <algorithm>
#include <thread>

#include "boxproof/report.hpp"
#include "boxproof/rule.hpp"
#include "src/report/json_text.hpp"

namespace boxproof {
namespace report {
namespace {

void key(Buffer& out, std::string_view name, bool first = false) {
  if (!first) put(out, ", ");
  put(out, "\"");
  put(out, name);
  put(out, "\": ");
}
template <class Number>
void number(Buffer& out, std::string_view name, Number value, bool first = false) {
  key(out, name, first);
  put_number(out, value);
}
void word(Buffer& out, std::string_view name, std::string_view value, bool first = false) {
  key(out, name, first);
  put_text_or_null(out, value);
}

void put_ampacity(Buffer& out, const RunAmpacity& a, bool first = false) {
  number(out, "ampacity_a", a.in_use, first);
  number(out, "terminal_ampacity_a", a.terminal);
  const bool known = a.in_use.has_value();
  number(out, "correction", known ? std::optional(a.correction) : std::nullopt);
  number(out, "adjustment", known ? std::optional(a.adjustment) : std::nullopt);
}

void put_circuit(Buffer& out, const CircuitFacts& f) {
  put(out, "{");
  word(out, "id", f.circuit->id, true);
  number(out, "max_v", f.voltage.max);
  number(out, "max_a", f.max.value());
  key(out, "fuse_needed");
  put(out, !f.fuse_needed ? "null" : *f.fuse_needed ? "true" : "false");
  number(out, "back_a", f.back.value());
  number(out, "fuse_min_a", f.fuse_least.value());
  number(out, "fuse_suggested_a", f.fuse_suggested);
  put_ampacity(out, f.run);
  number(out, "drop_pct", f.drop_pct);
  put(out, "}");
}

void put_box(Buffer& out, const BoxResult& result, const BoxFacts& f) {
  put(out, "    {");
  key(out, "id", true);
  put_text(out, f.box->id);
  word(out, "verdict", verdict_names[static_cast<std::size_t>(result.verdict)]);
  key(out, "calc");
  put(out, "{");
  const bool known = f.max_voltage && f.every_voltage_known;
  number(out, "max_v", known ? std::optional(f.max_voltage->value()) : std::nullopt, true);
  number(out, "cold_factor", known ? std::optional(f.cold_factor) : std::nullopt);
  number(out, "out_max_a", f.output_max.value());
  number(out, "out_continuous_a", f.output_continuous.value());
  number(out, "strings", static_cast<double>(f.strings));
  number(out, "modules", f.modules);
  key(out, "circuits");
  put(out, "[");
  for (std::size_t i = 0; i < f.circuits.size(); ++i) {
    if (i > 0) put(out, ", ");
    put_circuit(out, f.circuits[i]);
  }
  put(out, "]");
  key(out, "output");
  put(out, "{");
  put_ampacity(out, f.output_run, true);
  number(out, "drop_pct", f.output_drop_pct);
  word(out, "suggested_size", f.output_suggested ? f.output_suggested->name() : std::string_view());
  put(out, "}");
  number(out, "disconnect_min_a", f.disconnect_least.value());
  put(out, "}}");
}

void put_amount(Buffer& out, std::string_view name, const Amount& amount) {
  key(out, name);
  if (const double* n = std::get_if<double>(&amount))
    put_number(out, *n);
  else if (const std::string* text = std::get_if<std::string>(&amount))
    put_text(out, *text);
  else
    put(out, "null");
}

void put_finding(Buffer& out, const Finding& f, bool show_work) {
  put(out, "    {");
  word(out, "rule", f.rule->id, true);
  word(out, "severity", severity_names[static_cast<std::size_t>(f.severity)]);
  word(out, "basis", basis_names[static_cast<std::size_t>(f.basis)]);
  word(out, "box", f.box_id);
  word(out, "part", f.part);
  word(out, "message", f.message);
  put_amount(out, "found", f.found);
  put_amount(out, "required", f.required);
  word(out, "unit", f.unit);
  word(out, "section", f.section);
  word(out, "disposition", f.disposition);
  word(out, "file", f.place.file);
  key(out, "pointer");
  put_text(out, f.place.pointer);
  number(out, "line", static_cast<double>(f.place.line));
  number(out, "column", static_cast<double>(f.place.column));
  word(out, "fingerprint", fingerprint(f));
  if (show_work) {
    key(out, "working");
    put(out, "[");
    for (const Step& s : f.working) {
      put(out, &s == &f.working.front() ? "{" : ", {");
      word(out, "symbol", s.symbol, true);
      word(out, "formula", s.formula);
      word(out, "numbers", s.numbers);
      number(out, "value", s.value);
      word(out, "unit", s.unit);
      word(out, "section", s.section);
      put(out, "}");
    }
    put(out, "]");
  }
  put(out, "}");
}

void put_head(Buffer& out, const ReportInput& r) {
  const Judgement& j = r.judgement;
  put(out, "{\n  \"format\": \"boxproof-report/1\",\n  \"tool\": {");
  word(out, "version", version(), true);
  put(out, "},\n  \"code\": {");
  word(out, "edition", r.edition.name, true);
  key(out, "amended");
  put(out, "[");
  bool first = true;
  const auto item = [&](std::string_view text) {
    if (!first) put(out, ", ");
    put_text(out, text);
    first = false;
  };
  for (const std::string& path : r.edition.amended) item(path);
  for (const std::string& text : r.overrides) item(text);
  put(out, "]},\n  ");
  word(out, "basis", basis_names[static_cast<std::size_t>(j.basis)], true);
  put(out, ",\n  \"site\": {");
  key(out, "name", true);
  put_text(out, r.design.design.site.name);
  word(out, "verdict", verdict_names[static_cast<std::size_t>(j.verdict)]);
  key(out, "totals");
  put(out, "{");
  number(out, "combiners", static_cast<double>(j.totals.combiners), true);
  number(out, "strings", j.totals.strings);
  number(out, "modules", j.totals.modules);
  number(out, "dc_kw", j.totals.dc_kilowatts);
  put(out, "}");
  key(out, "counts");
  put(out, "{");
  for (std::size_t i = 0; i < severity_names.size(); ++i)
    number(out, severity_names[i], static_cast<double>(j.counts[i]), i == 0);
  put(out, "}},\n");
}

// Boxes are written in blocks, side by side, and handed over in order.
void put_boxes(const ReportInput& r, const Write& write) {
  const std::vector<BoxResult>& boxes = r.judgement.boxes;
  constexpr std::size_t block = 512;
  const std::size_t workers = boxes.size() > block ? std::max(1U, std::thread::hardware_concurrency()) : 1;
  std::vector<Buffer> buffers(workers);
  const auto fill = [&](Buffer& out, std::size_t begin) {
    BoxFacts facts;
    FoundBox own;
    for (std::size_t i = begin; i < std::min(begin + block, boxes.size()); ++i) {
      facts_of(r.design, r.edition, r.record, boxes[i], own, facts);
      put_box(out, boxes[i], facts);
      put(out, i + 1 < boxes.size() ? ",\n" : "\n");
    }
  };
  for (std::size_t begin = 0; begin < boxes.size(); begin += block * workers) {
    std::vector<std::thread> threads;
    for (std::size_t w = 1; w < workers && begin + w * block < boxes.size(); ++w)
      threads.emplace_back(fill, std::ref(buffers[w]), begin + w * block);
    fill(buffers[0], begin);
    for (std::thread& t : threads) t.join();
    for (Buffer& buffer : buffers) {
      write({buffer.data(), buffer.size()});
      buffer.clear();
    }
  }
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
  report::put(out, "  ],\n  \"findings\": [");
  const std::vector<Finding>& findings = r.judgement.findings;
  constexpr std::size_t enough = 1U << 16;  // bytes
  for (const Finding& f : findings) {
    report::put(out, &f == &findings.front() ? "\n" : ",\n");
    report::put_finding(out, f, r.show_work);
    if (out.size() > enough) flush();
  }
  report::put(out, findings.empty() ? "],\n  " : "\n  ],\n  ");
  report::word(out, "caution", caution(), true);
  report::put(out, "\n}\n");
  flush();
}

}  // namespace boxproof
