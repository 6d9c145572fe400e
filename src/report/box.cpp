// One box on one screen, for somebody who stands in front of it.
#include <fmt/format.h>

#include <algorithm>

#include "boxproof/report.hpp"
#include "boxproof/rule.hpp"
#include "src/report/agreed.hpp"
#include "src/report/box_words.hpp"
#include "src/report/layout.hpp"
#include "src/report/part_words.hpp"
#include "src/report/phrases.hpp"

namespace boxproof {
namespace report {
namespace {

constexpr std::size_t label_width = 12;

void box_line(std::string& out, std::string_view label, const std::string& text) {
  out += wrap(text, label_width, left(label, label_width));
}

void write_counts(std::string& out, const BoxFacts& f) {
  const Combiner& box = *f.box;
  const bool both = box.fuse && box.fuse->poles == Poles::both;
  const std::string fuses = box.fuse ? counted(fuse_count(f), "fuse", "fuses") : "no fuses";
  box_line(out, "COUNT",
           fmt::format("{}, {}, {}{}; {} used{}", counted(f.inputs, "positive", "positives"),
                       counted(f.inputs, "negative", "negatives"), fuses,
                       box.fuse ? (both ? " (both poles)" : " (one pole)") : "",
                       counted(f.inputs, "input", "inputs"),
                       box.enclosure && box.enclosure->inputs ? fmt::format(" of {}", *box.enclosure->inputs)
                                                              : std::string()));
  for (const CircuitFacts& c : f.circuits) box_line(out, "", circuit_words(*c.circuit));
}

void write_fuse(std::string& out, const BoxFacts& f) {
  if (!f.box->fuse) {
    std::string needed = "none on the plan";
    for (const CircuitFacts& c : f.circuits)
      if (c.fuse_needed.value_or(false)) needed = "none on the plan, and needed";
    return box_line(out, "FUSE", needed);
  }
  box_line(out, "FUSE", fuse_words(*f.box->fuse));
  for (const CircuitFacts& c : f.circuits)
    box_line(out, "",
             fmt::format("circuit {}: at least {} A, module allows {}", plain(c.circuit->id),
                         boxproof::shown(c.fuse_least), or_unknown(c.circuit->module->max_fuse, "A")));
}

std::string run_text(const Run* run, const RunAmpacity& a) {
  std::string text = wire_words(run);
  if (run == nullptr || run->conductor == nullptr) return text;
  if (run->method) text += *run->method == Method::raceway ? ", in raceway" : ", in free air";
  if (run->above_roof) text += fmt::format(", {} mm above the roof", boxproof::shown(*run->above_roof));
  if (run->length) text += fmt::format(", {} m", boxproof::shown(*run->length));
  if (a.in_use) text += fmt::format("; carries {} A where it lies", boxproof::shown(*a.in_use));
  return text;
}

std::string grounding_text(const std::optional<GroundingConductor>& g) {
  if (!g || !g->size) return "not stated";
  return fmt::format("{} {}", g->size->name(),
                     g->material ? material_names[static_cast<std::size_t>(*g->material)] : "?");
}

void write_wires(std::string& out, const BoxFacts& f) {
  const Combiner& box = *f.box;
  std::string_view label = "WIRE";
  for (const CircuitFacts& c : f.circuits) {
    box_line(out, label,
             fmt::format("circuit {}: {}", plain(c.circuit->id),
                         run_text(c.circuit->run ? &*c.circuit->run : nullptr, c.run)));
    label = "";
  }
  const Output* output = box.output.get();
  box_line(out, "", "output: " + run_text(output && output->run ? &*output->run : nullptr, f.output_run));
  box_line(
      out, "",
      fmt::format("device at the far end: {}", output && output->ocpd ? boxproof::shown(*output->ocpd) + " A"
                                                                      : std::string("none stated")));
  box_line(out, "",
           fmt::format("grounding: output {}, source circuits {}", grounding_text(box.egc),
                       grounding_text(box.bond)));
}

void write_parts(std::string& out, const BoxFacts& f) {
  const Combiner& box = *f.box;
  if (box.enclosure) {
    const Enclosure& e = *box.enclosure;
    box_line(
        out, "BOX",
        fmt::format("type {}, {}, {}, {}{}", e.type.empty() ? "?" : plain(e.type),
                    or_unknown(e.rated_voltage, "V"), or_unknown(e.rated_current, "A"),
                    yes_no(e.listed, "listed", "not listed"), e.rated_100_pct ? ", for 100 % duty" : ""));
  } else {
    box_line(out, "BOX", "not stated");
  }
  if (!box.disconnect) return box_line(out, "DISCONNECT", "none on the plan");
  const Disconnect& d = *box.disconnect;
  box_line(out, "DISCONNECT",
           fmt::format("{}, {}, {}, {} (at least {} A), {}, {}", distance_words(d),
                       yes_no(d.load_break, "load-break", "NOT LOAD-BREAK"), or_unknown(d.rated_voltage, "V"),
                       or_unknown(d.rated_current, "A"), boxproof::shown(f.disconnect_least),
                       yes_no(d.external_handle, "external handle", "no external handle"),
                       yes_no(d.lockable, "lockable", "not lockable")));
}

void write_margins(std::string& out, const ReportInput& r, const BoxFacts& f) {
  std::string_view label = "MARGINS";
  for (const Margin& m : nearest_margins(r, f)) {
    const std::string what = what_of(m);
    const std::string share = percent(m.share());
    out += fmt::format(
        "{}{} {} of {}{}\n", left(label, label_width), left(what, 37),
        right(boxproof::shown(m.value, m.limit), 7),
        left(boxproof::shown(m.limit, m.value) + " " + std::string(m.unit), 8),
        exceeds(m.value, m.limit) ? inked(right(share, 7) + "!", Ink::hazard, r.colour) : right(share, 7));
    label = "";
  }
}

// A line or two a finding; the whole entry is for the report.
void write_findings(std::string& out, const ReportInput& r, const BoxResult& result) {
  std::size_t told = 0;
  for (const Finding& f : r.judgement.findings) {
    if (f.box != result.index) continue;
    ++told;
    const std::string_view severity = severity_names[static_cast<std::size_t>(f.severity)];
    std::string behind = fmt::format("{}; {}", f.rule->id, f.section);
    if (f.disposition)
      behind += fmt::format("; {}", disposition_names[static_cast<std::size_t>(*f.disposition)]);
    if (f.known) behind += "; on the baseline";
    std::string entry =
        wrap(fmt::format("{} [{}]", plain(f.message), behind), label_width, left(severity, label_width));
    entry.replace(0, severity.size(), inked(severity, ink_of(f.severity), r.colour));
    out += entry;
  }
  if (told == 0) box_line(out, "FINDINGS", "none");
}

}  // namespace
}  // namespace report

void write_box(const ReportInput& r, const BoxResult& result, const Write& write) {
  using namespace report;
  BoxFacts f;
  FoundBox own;
  facts_of(r.design, r.edition, r.record, result, own, f);
  const Combiner& box = *f.box;
  std::string out;
  const std::string name =
      fmt::format("BOX {}{}{}", plain(box.id), box.sheet.empty() ? "" : ", sheet " + plain(box.sheet),
                  box.type ? ", type " + plain(box.type->id) : "");
  const std::string edition = fmt::format("NEC {}", r.edition.name);
  const std::size_t room = page_width - width_of(edition) - 1;
  out += inked(left(name, room), Ink::strong, r.colour) + " " + edition + "\n";
  out += wrap(fmt::format("{}{}; feeds {}", plain(r.design.design.site.name),
                          box.location.empty() ? "" : "; " + plain(box.location), plain(box.inverter->id)),
              0);
  if (r.record != nullptr)
    out += result.visited ? "As built, where the record has a value\n" : "Not visited\n";
  for (const std::string& text : r.overrides) out += wrap(change_words(text), 4, "");
  std::string_view verdict = verdict_names[static_cast<std::size_t>(result.verdict)];
  out += "\n";
  box_line(out, "VERDICT", std::string(verdict));
  if (result.disposition)
    box_line(out, "DISPOSITION",
             fmt::format("{}, by what was seen in the box",
                         disposition_names[static_cast<std::size_t>(*result.disposition)]));
  write_counts(out, f);
  write_fuse(out, f);
  write_wires(out, f);
  write_parts(out, f);
  box_line(out, "LABEL", "should say " + label_should_say(f));
  out += "\n";
  write_margins(out, r, f);
  out += "\n";
  write_findings(out, r, result);
  write_agreed_of_box(out, r, result, label_width);
  write(out + "\n");
  write(wrap(caution(), 0));
}

}  // namespace boxproof
