// The label posted on a box against the plan, what is there, and what is computed of it.
#include <fmt/format.h>

#include "src/check/as_built.hpp"
#include "src/rules/notes.hpp"
#include "src/rules/tally.hpp"
#include "src/rules/tally_accounts.hpp"

namespace boxproof {
namespace {

struct Entry {
  std::string_view key;    // in the record: "fuse_a"
  std::string_view unit;   // "A"
  std::string_view words;  // the unit as the message reads: "A fuses"
};
constexpr Entry strings_entry{"strings", "strings", "strings"};
constexpr Entry series_entry{"series", "modules", "modules in series"};
constexpr Entry fuse_entry{"fuse_a", "A", "A fuses"};

// A number on the label that is not that of another account.
void differs(const VisitCase& c, Notes& out, const Entry& entry, double posted, Amount other,
             std::string_view account, std::string_view other_text) {
  out.find(fmt::format("label {}", entry.key))
      .found(posted)
      .required(std::move(other))
      .unit(entry.unit)
      .at_record(record_pointer(c, fmt::format("/posted/{}", entry.key)))
      .say("The label on {} says {} {}; {} {}.", c.plan.id, shown(posted), word_for(posted, entry.words),
           account, other_text);
}
std::string with_unit(const Entry& entry, double number) {
  return entry.unit == "A" ? shown(number) + " A" : shown(number);
}
void against_plan(const VisitCase& c, Notes& out, const Entry& entry, double posted, double planned) {
  differs(c, out, entry, posted, planned, "the plan has", with_unit(entry, planned));
}
// Only where the plan does not contradict the label: never two findings for one entry.
void against_found(const VisitCase& c, Notes& out, const Entry& entry, double posted, double found) {
  differs(c, out, entry, posted, found, "the inspector found", with_unit(entry, found));
}

void strings(const VisitCase& c, Notes& out, const Transposed& pair) {
  const Account label = label_account(c), plan = plan_account(c.plan), found = found_account(c);
  if (!label.strings) return;
  const auto posted = static_cast<double>(*label.strings);
  if (label.strings != plan.strings) {
    if (pair.plan_label) return;
    against_plan(c, out, strings_entry, posted, static_cast<double>(*plan.strings));
  } else if (found.strings && found.strings != label.strings && !pair.any()) {
    against_found(c, out, strings_entry, posted, static_cast<double>(*found.strings));
  }
}

void series(const VisitCase& c, Notes& out, const Transposed& pair) {
  const Account label = label_account(c), found = found_account(c);
  if (!label.series) return;
  const double posted = *label.series;
  std::vector<std::string> planned;
  bool on_plan = false;
  for (const std::uint32_t n : planned_series(c.plan)) {
    planned.push_back(std::to_string(n));
    on_plan = on_plan || n == *label.series;
  }
  if (!on_plan) {
    if (pair.plan_label) return;
    if (planned.size() == 1)
      return against_plan(c, out, series_entry, posted, c.plan.circuits.front().series);
    differs(c, out, series_entry, posted, listed(planned, "or"), "the plan has", listed(planned, "or"));
  } else if (found.series && found.series != label.series && !pair.any()) {
    against_found(c, out, series_entry, posted, *found.series);
  }
}

void fuse(const VisitCase& c, Notes& out) {
  const std::optional<Amps> posted = c.visited.posted.fuse;
  if (!posted) return;
  const std::optional<Amps> planned = c.plan.fuse ? c.plan.fuse->rating : std::nullopt;
  const std::optional<Amps> found = c.visited.fuse.rating;
  if (planned && *planned != *posted)
    against_plan(c, out, fuse_entry, posted->value(), planned->value());
  else if (found && *found != *posted)
    against_found(c, out, fuse_entry, posted->value(), found->value());
}

void voltage(const VisitCase& c, Notes& out) {
  const std::optional<Volts> posted = c.visited.posted.max_voltage;
  const std::optional<Volts> computed = c.as_built.max_voltage;
  if (!posted || !computed || !exceeds(*computed, *posted)) return;
  out.find("label max_v")
      .found(posted->value())
      .required(computed->value())
      .unit("V")
      .at_record(record_pointer(c, "/posted/max_v"))
      .say("The label on {} gives {} V as the highest voltage; the box as found reaches {} V.", c.plan.id,
           shown(*posted), shown(*computed))
      .work([&](Working& w) {
        const Circuit& circuit = *c.as_built.circuits[c.as_built.highest_circuit].circuit;
        string_voltage(*circuit.module, circuit.series, c.design.site.low, c.edition, &w);
      });
}

void current(const VisitCase& c, Notes& out) {
  const std::optional<Amps> posted = c.visited.posted.max_current;
  const Amps computed = c.as_built.output_max;
  if (!posted || !exceeds(computed, *posted)) return;
  out.find("label max_a")
      .found(posted->value())
      .required(computed.value())
      .unit("A")
      .at_record(record_pointer(c, "/posted/max_a"))
      .say("The label on {} gives {} A as the highest current; the box as found reaches {} A.", c.plan.id,
           shown(*posted), shown(computed))
      .work([&](Working& w) { output_current(*c.as_built.box, c.edition, &w); });
}

}  // namespace

const Rule tally_label{
    .id = "tally/label",
    .severity = Severity::correction,
    .title = "Posted label differs from the plan or from the box",
    .explain =
        {"Holds each entry of the label posted on the box against the plan, then against what was found, "
         "and its voltage and current against those computed of the box as found.",
         "Whoever opens the box on the roof, a fire crew among them, has the label and nothing else: it is "
         "the voltage they insulate for and the current they expect.",
         "One finding for each entry: name, strings, modules in series and fuse rating where they differ; "
         "highest voltage and highest current where the label states less than is computed. A label that "
         "states more than is computed stands."},
    .remedy = "Replace the label by one that states what is in the box.",
    .uses = {"voltage.cold_table", "voltage.design_low", "current.maximum"},
    .judge_visit = [](const VisitCase& c, Notes& out) {
      const Transposed pair = transposed(c);
      if (const auto& id = c.visited.posted.id; id && *id != c.plan.id)
        out.find("label id")
            .found(*id)
            .required(c.plan.id)
            .at_record(record_pointer(c, "/posted/id"))
            .say("The label on {} says {}; the plan has {}.", c.plan.id, *id, c.plan.id);
      strings(c, out, pair);
      series(c, out, pair);
      fuse(c, out);
      voltage(c, out);
      current(c, out);
    }};

}  // namespace boxproof
