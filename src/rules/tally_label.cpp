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

std::string with_unit(const Entry& entry, double number) {
  return entry.unit == "A" ? shown(number) + " A" : shown(number);
}

// What the plan has of an entry: one number, or as many as its groups have.
struct Planned {
  bool known, as_label;
  Amount amount;
  std::string text;
  std::string pointer;
};
// What was found, if anybody looked.
struct Found {
  std::optional<double> number;
  std::string pointer;
};

Note differs(const VisitCase& c, Notes& out, const Entry& entry, double posted, Amount required,
             std::string_view accounts, const std::string& beside) {
  return out.find(fmt::format("label {}", entry.key))
      .found(posted)
      .required(std::move(required))
      .unit(entry.unit)
      .at_record(record_pointer(c, fmt::format("/posted/{}", entry.key)))
      .beside(beside)
      .say("The label on {} says {} {}; {}.", c.plan.id, shown(posted), word_for(posted, entry.words),
           accounts);
}

// One finding for an entry. A label is right where it says what is there, so that is what it is held to
// wherever the inspector looked; where it says so and the plan does not, it is the plan that has to change.
void hold(const VisitCase& c, Notes& out, const Entry& entry, double posted, Planned plan,
          const Found& in_record) {
  const std::optional<double>& found = in_record.number;
  const bool off_plan = plan.known && !plan.as_label, off_found = found && *found != posted;
  const std::string by_inspector = found ? "the inspector found " + with_unit(entry, *found) : std::string();
  if (off_plan && found && !off_found)
    differs(c, out, entry, posted, fmt::format("{} {}, as found", shown(posted), entry.unit),
            "the plan has " + plan.text, plan.pointer)
        .ask(
            "The label says what is there: leave it, and have the plan changed. If the box is put right by the "
            "plan instead, replace the label with it.");
  else if (off_plan && off_found && plan.text != with_unit(entry, *found))
    differs(c, out, entry, posted, *found, fmt::format("the plan has {}, and {}", plan.text, by_inspector),
            plan.pointer);
  else if (off_plan)
    differs(c, out, entry, posted, std::move(plan.amount), "the plan has " + plan.text, plan.pointer);
  else if (off_found)
    differs(c, out, entry, posted, *found, by_inspector, in_record.pointer);
}

template <class T>
std::optional<double> number(const std::optional<T>& n, bool counts = true) {
  return n && counts ? std::optional(static_cast<double>(*n)) : std::nullopt;
}

void strings(const VisitCase& c, Notes& out, const Transposed& pair) {
  const Account label = label_account(c), plan = plan_account(c.plan), found = found_account(c);
  if (!label.strings || (label.strings != plan.strings && pair.plan_label)) return;
  const auto planned = static_cast<double>(*plan.strings);
  hold(c, out, strings_entry, static_cast<double>(*label.strings),
       {true, label.strings == plan.strings, planned, with_unit(strings_entry, planned),
        plan_strings_pointer(c)},
       {number(found.strings, !pair.any()), strings_pointer(c)});
}

void series(const VisitCase& c, Notes& out, const Transposed& pair) {
  const Account label = label_account(c), found = found_account(c);
  if (!label.series) return;
  const std::vector<std::uint32_t> groups = planned_series(c.plan);
  std::vector<std::string> planned;
  bool on_plan = false;
  for (const std::uint32_t n : groups) {
    planned.push_back(std::to_string(n));
    on_plan = on_plan || n == *label.series;
  }
  if (!on_plan && pair.plan_label) return;
  const std::string text = listed(planned, "or");
  hold(c, out, series_entry, *label.series,
       {true, on_plan, groups.size() == 1 ? Amount(static_cast<double>(groups.front())) : Amount(text), text,
        plan_series_pointer(c)},
       {number(found.series, !pair.any()), record_pointer(c, "/count/series")});
}

void fuse(const VisitCase& c, Notes& out) {
  const std::optional<Amps> posted = c.visited.posted.fuse, found = c.visited.fuse.rating;
  if (!posted) return;
  Planned plan{c.plan.fuse && c.plan.fuse->rating, false, {}, {}, plan_pointer(c, "/fuse/a")};
  if (plan.known) {
    const double rating = c.plan.fuse->rating->value();
    plan.as_label = *c.plan.fuse->rating == *posted;
    plan.amount = rating;
    plan.text = with_unit(fuse_entry, rating);
  }
  hold(c, out, fuse_entry, posted->value(), std::move(plan),
       {found ? std::optional(found->value()) : std::nullopt, record_pointer(c, "/fuse/a")});
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
         "states more than is computed stands. Where the label says what was found and the plan does not, "
         "the label stays and the plan has to change."},
    .remedy = "Replace the label by one that states what is in the box.",
    .uses = {"voltage.cold_table", "voltage.design_low", "current.maximum"},
    .judge_visit = [](const VisitCase& c, Notes& out) {
      const Transposed pair = transposed(c);
      if (const auto& id = c.visited.posted.id; id && *id != c.plan.id)
        out.find("label id")
            .found(*id)
            .required(c.plan.id)
            .at_record(record_pointer(c, "/posted/id"))
            .beside(plan_pointer(c, "/id"))
            .say("The label on {} says {}; the plan has {}.", c.plan.id, *id, c.plan.id);
      strings(c, out, pair);
      series(c, out, pair);
      fuse(c, out);
      voltage(c, out);
      current(c, out);
    }};

}  // namespace boxproof
