// Of the source circuits, the fuses and the label plate: what is counted on three accounts.
#include "src/report/schematic_words.hpp"

#include <algorithm>
#include <set>

#include "boxproof/labels.hpp"
#include "src/check/as_built.hpp"
#include "src/report/schematic_lines.hpp"
#include "src/rules/common.hpp"
#include "src/rules/tally_accounts.hpp"

namespace boxproof::report {
namespace {

const DrawnLine heads{Kind::heads, "", {"plan", "posted", "found"}};

// "18", "18, 20", "17…20"
std::string numbers(const std::set<std::uint32_t>& of) {
  if (of.empty()) return "–";
  if (of.size() == 1) return std::to_string(*of.begin());
  return fmt::format("{}{}{}", *of.begin(), of.size() == 2 ? "," : "…", *of.rbegin());
}

// Modules in series of the planned strings one by one, as a record may list them.
std::vector<std::uint32_t> series_one_by_one(const Combiner& plan, std::size_t most) {
  std::vector<std::uint32_t> out;
  for (const Circuit& c : plan.circuits)
    out.insert(out.end(), std::min<std::size_t>(c.strings, most - std::min(most, out.size())), c.series);
  return out;
}

DrawnLine series_row(const DrawnBox& b) {
  const auto planned = planned_series(b.plan);
  const std::set<std::uint32_t> plan(planned.begin(), planned.end());
  const Count& count = b.visited->count;
  const std::set<std::uint32_t> found(count.series.begin(), count.series.end());
  const auto& posted = b.visited->posted.series;
  const bool listed = count.series_of_each && count.series.size() == planned_strings(b.plan);
  const bool odd = listed ? series_one_by_one(b.plan, count.series.size()) != count.series
                          : !found.empty() && found != plan;
  return {Kind::row,
          "in series",
          {numbers(plan), posted ? std::to_string(*posted) : "–", numbers(found)},
          {false, posted && (plan.size() > 1 || !plan.contains(*posted)), odd}};
}

DrawnLine modules_row(const DrawnBox& b) {
  double planned = 0;
  for (const Circuit& c : b.plan.circuits) planned += static_cast<double>(c.series) * c.strings;
  return row_of("modules", planned, std::nullopt, number(b.visited->count.modules));
}

std::string count_of_labels(const Combiner& box) {
  if (!box.labels) return "labels ?";
  return box.labels->empty() ? std::string("no labels") : counted(box.labels->size(), "label");
}

std::optional<double> planned_fuses(const Combiner& plan) {
  const auto each = fuses_an_input(plan);
  return each ? std::optional(static_cast<double>(planned_inputs(plan)) * *each) : std::nullopt;
}

}  // namespace

std::optional<unsigned> fuses_an_input(const Combiner& box) {
  if (!box.fuse) return 0;
  if (!box.fuse->poles) return std::nullopt;
  return *box.fuse->poles == Poles::both ? 2 : 1;
}

std::vector<std::string> differing_in(const DrawnLines& lines) {
  std::vector<std::string> out;
  const DrawnLine* above = nullptr;
  for (const DrawnLine& line : lines) {
    constexpr std::string_view sign = "≠ ";
    if (line.kind == Kind::heads) above = &line;
    if (line.kind == Kind::differs) out.push_back(line.text.substr(sign.size()));
    if (above == nullptr || std::none_of(line.odd.begin(), line.odd.end(), [](bool odd) { return odd; }))
      continue;
    out.push_back(line.text);
    for (std::size_t i = 0; i < line.columns.size(); ++i)
      if (!line.columns[i].empty())
        out.back() += fmt::format("{} {} {}", i == 0 ? ":" : ",", above->columns[i], line.columns[i]);
  }
  return out;
}

DrawnLines words_of_strings(const DrawnBox& b) {
  DrawnLines out;
  if (b.box.circuits.size() > 1) out.push_back(title(counted(b.facts.strings, "string") + " in all"));
  if (b.visited == nullptr) return out;
  const Count& count = b.visited->count;
  const auto strings = counted_strings(b.plan, *b.visited);
  const double inputs = static_cast<double>(planned_inputs(b.plan));
  out.push_back(heads);
  out.push_back(row_of("strings", static_cast<double>(planned_strings(b.plan)),
                       number(b.visited->posted.strings),
                       strings ? std::optional<double>(strings->strings) : std::nullopt));
  if (count.positive != count.negative || (strings && strings->as_inputs)) {
    out.push_back(row_of("positives", inputs, std::nullopt, number(count.positive)));
    out.push_back(row_of("negatives", inputs, std::nullopt, number(count.negative)));
  }
  out.push_back(series_row(b));
  if (count.modules) out.push_back(modules_row(b));
  return out;
}

DrawnLines words_of_circuit(const DrawnBox& b, std::size_t circuit, std::size_t inputs_drawn) {
  const Circuit& c = b.box.circuits[circuit];
  const std::string strings = fmt::format("{} of {}", counted(c.strings, "string"), c.series);
  const bool as_planned = !c.part_of || (b.plan.circuits[*c.part_of].series == c.series &&
                                         b.plan.circuits[*c.part_of].strings == c.strings);
  DrawnLines out{as_planned ? title(strings) : DrawnLine{Kind::differs, "≠ " + strings}};
  out.push_back(detail(b.box.circuits.size() > 1 ? fmt::format("{}: {}", c.id, c.module->id) : c.module->id));
  if (c.strings_per_fuse > 1)
    out.push_back(
        detail(fmt::format("{} joined on {}", c.strings_per_fuse, b.box.fuse ? "a fuse" : "an input")));
  if (inputs_drawn < c.inputs())
    out.push_back(detail(fmt::format("{} inputs, {} drawn", c.inputs(), inputs_drawn)));
  if (!c.run || c.run->conductor == nullptr) {
    out.push_back(detail("conductor ?"));
    return out;
  }
  const Conductor& found = *c.run->conductor;
  // Of many groups only what is not as in the one before.
  constexpr std::size_t many = 6;
  const bool brief = b.box.circuits.size() > many;
  const auto& before = circuit > 0 ? b.box.circuits[circuit - 1].run : c.run;
  if (brief && circuit > 0 && before && before->conductor == &found) return out;
  tell(out, wire(found), wire(found.planned != nullptr ? *found.planned : found));
  if (brief) return out;
  out.push_back(detail(fmt::format("{}, {}", found.insulation.empty() ? "insulation ?" : found.insulation,
                                   or_unknown(c.run->length, "m"))));
  return out;
}

DrawnLines words_of_fuses(const DrawnBox& b) {
  DrawnLines out;
  if (!b.box.fuse) {
    if (b.plan.fuse) {
      out.push_back({Kind::differs, "≠ no fuses"});
      out.push_back(detail("plan " + or_unknown(b.plan.fuse->rating, "A")));
    } else {
      out.push_back(title("no fuses on the plan"));
    }
  } else {
    const Fuse& fuse = *b.box.fuse;
    const auto each = fuses_an_input(b.box);
    out.push_back(title(fmt::format("{} {}, {}", each ? std::to_string(b.facts.inputs * *each) : "?",
                                    b.facts.inputs * each.value_or(2) == 1 ? "fuse" : "fuses",
                                    or_unknown(fuse.rating, "A"))));
    out.push_back(detail(fmt::format("{}, {}, {}", or_unknown(fuse.voltage, "V"),
                                     word_or_unknown(fuse.dc, "DC", "NOT DC", "DC"),
                                     word_or_unknown(fuse.pv_listed, "PV", "not PV", "PV"))));
    out.push_back(detail(!each ? "poles ?" : *each == 2 ? "in both poles" : "in one pole"));
  }
  if (b.visited == nullptr) return out;
  const VisitedBox& v = *b.visited;
  out.push_back(heads);
  out.push_back(row_of("fuses", planned_fuses(b.plan), std::nullopt, number(v.count.fuses)));
  out.push_back(row_of("A", b.plan.fuse ? number(b.plan.fuse->rating) : std::nullopt, number(v.posted.fuse),
                       number(v.fuse.rating)));
  for (const OddFuse& odd : v.mixed_fuses)
    out.push_back({Kind::differs, fmt::format("≠ {} at {}", or_unknown(odd.rating, "A"),
                                              odd.position ? std::to_string(*odd.position) : "?")});
  return out;
}

DrawnLines words_of_labels(const DrawnBox& b) {
  DrawnLines out;
  const std::string planned_labels = count_of_labels(b.plan), labels = count_of_labels(b.box);
  if (labels == planned_labels)
    out.push_back(title(labels));
  else
    tell(out, labels, planned_labels);
  out.push_back({Kind::heads, "", {"should", "plan", b.visited != nullptr ? "posted" : ""}});
  const LabelContents contents = label_contents(b.facts, b.report.edition);
  for (std::size_t i = 0; i < label_value_names.size(); ++i) {
    constexpr std::array<std::string_view, label_value_names.size()> names{"max V", "max A", "Isc A", "Vmp V",
                                                                           "Imp A"};
    const LabelValue value = static_cast<LabelValue>(i);
    // The least that a label of the plan states: that is the one to look at.
    std::optional<double> planned, posted;
    if (b.plan.labels)
      for (const Label& label : *b.plan.labels)
        for (const auto& [key, stated] : label.values)
          if (key == label_value_names[i]) planned = planned ? std::min(*planned, stated) : stated;
    if (b.visited != nullptr && value == LabelValue::max_v) posted = number(b.visited->posted.max_voltage);
    if (b.visited != nullptr && value == LabelValue::max_a) posted = number(b.visited->posted.max_current);
    if (!planned && !posted && i > 1) continue;  // of no label of this box
    std::optional<double> should = contents.of(value);
    if (value == LabelValue::max_v && !b.facts.every_voltage_known) should = std::nullopt;
    const auto low = [&](const std::optional<double>& stated) {
      return stated && should && exceeds(*should, *stated);
    };
    out.push_back({Kind::row,
                   std::string(names[i]),
                   {should ? boxproof::shown(printed(value, *should)) : "?", of_account(planned),
                    b.visited != nullptr ? of_account(posted) : ""},
                   {false, low(planned), low(posted)}});
  }
  if (b.visited != nullptr && b.visited->posted.id && *b.visited->posted.id != b.plan.id)
    out.push_back({Kind::differs, "≠ posted id " + *b.visited->posted.id});
  return out;
}

}  // namespace boxproof::report
