#include "src/report/label_words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cstdint>
#include <utility>
#include <vector>

#include "src/report/layout.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {
namespace {

constexpr std::string_view to_fill_in = "____";

std::string value_words(LabelValue value, const LabelContents& contents) {
  const auto computed = contents.of(value);
  const std::string number = computed ? boxproof::shown(printed(value, *computed)) : std::string(to_fill_in);
  switch (value) {
    case LabelValue::max_v: return fmt::format("MAXIMUM VOLTAGE {} V DC", number);
    case LabelValue::max_a: return fmt::format("MAXIMUM CURRENT {} A", number);
    case LabelValue::isc_a: return fmt::format("SHORT-CIRCUIT CURRENT {} A", number);
    case LabelValue::vmp_v: return fmt::format("OPERATING VOLTAGE {} V DC", number);
    case LabelValue::imp_a: return fmt::format("OPERATING CURRENT {} A", number);
  }
  return {};
}

std::string values_words(const LabelEntry& e) {
  std::vector<std::string> words;
  for (const LabelValue value : values_to_state(e)) words.push_back(value_words(value, e.contents));
  return fmt::format("{}", fmt::join(words, ", "));
}

std::string engraved_strings(const Combiner& box) {
  std::vector<std::pair<std::uint32_t, std::uint64_t>> by_series;  // modules in series, strings
  for (const Circuit& c : box.circuits) {
    const auto same = std::find_if(by_series.begin(), by_series.end(),
                                   [&](const auto& group) { return group.first == c.series; });
    if (same == by_series.end())
      by_series.emplace_back(c.series, c.strings);
    else
      same->second += c.strings;
  }
  std::vector<std::string> groups;
  for (const auto& [series, strings] : by_series)
    groups.push_back(fmt::format("{} OF {}", counted(strings, "STRING", "STRINGS"), series));
  std::string words = fmt::format("{}", fmt::join(groups, " AND "));
  if (box.fuse && box.fuse->rating) words += fmt::format(", FUSES {} A", boxproof::shown(*box.fuse->rating));
  return words;
}

std::string disconnect_words(const Combiner& box) {
  std::string words = fmt::format("DC DISCONNECT OF COMBINER {}", plain(box.id));
  if (box.disconnect && box.disconnect->load_break == false) words += ", DO NOT OPEN UNDER LOAD";
  return words;
}

std::string directory_words(const Combiner& box) {
  const bool known = box.disconnect && box.disconnect->distance;
  return fmt::format("THE DISCONNECT OF THESE FUSES IS {} M FROM HERE, AT {}",
                     known ? boxproof::shown(*box.disconnect->distance) : std::string(to_fill_in),
                     to_fill_in);
}

}  // namespace

std::string label_words(const LabelEntry& e) {
  if (e.rule != nullptr && !e.rule->words.empty()) return plain(e.rule->words);
  if (e.kind == "box-identification")
    return fmt::format("COMBINER {}: {}", plain(e.box->id), engraved_strings(*e.box));
  if (e.kind == "max-voltage") return values_words(e);
  if (e.kind == "dc-power-source") return "PV DC SOURCE: " + values_words(e);
  if (e.kind == "shock-both-sides")
    return "SHOCK HAZARD: BOTH SIDES OF THIS SWITCH MAY BE LIVE WITH THE SWITCH OPEN";
  if (e.kind == "raceway-power-source") return "PV SOURCE CIRCUITS INSIDE";
  if (e.kind == "ground-fault")
    return "SHOCK HAZARD: WHEN A GROUND FAULT IS SHOWN, CONDUCTORS THAT ARE GROUNDED OTHERWISE MAY BE LIVE";
  if (e.kind == "ungrounded-system")
    return "SHOCK HAZARD: THE DC CONDUCTORS OF THIS ARRAY ARE NOT GROUNDED AND MAY BE LIVE";
  if (e.kind == "rapid-shutdown")
    return fmt::format("THIS PV SYSTEM HAS RAPID SHUTDOWN; ITS SWITCH IS AT {}", to_fill_in);
  if (e.kind == "disconnect") return disconnect_words(*e.box);
  if (e.kind == "directory") return directory_words(*e.box);
  return {};
}

std::string_view label_place(const LabelEntry& e) {
  if (e.rule == nullptr) return "where the plan puts it";
  switch (e.rule->at) {
    case LabelAt::box: return "on the outside of the box";
    case LabelAt::disconnect: return "on the disconnect of the box";
    case LabelAt::raceway: return "on exposed raceways and on box covers";
    case LabelAt::inverter:
      return e.rule->when == LabelWhen::grounded
                 ? "at each inverter of a solidly grounded array, or at its ground-fault indicator"
                 : "at each inverter, or at its ground-fault indicator";
    case LabelAt::service: return "once, at the service equipment";
    case LabelAt::system:
      return "once for each PV system, at one of: DC disconnect of the system, inverter, distribution "
             "equipment";
  }
  return {};
}

std::string label_look(const LabelEntry& e) {
  if (e.rule == nullptr) return {};
  std::string look = plain(e.rule->look);
  const auto add = [&look](std::string words) { look += (look.empty() ? "" : "; ") + words; };
  if (e.rule->letter) add(fmt::format("capitals of {} mm or more", boxproof::shown(*e.rule->letter)));
  if (e.rule->every)
    add(fmt::format("every {} m, and on each side of walls and floors", boxproof::shown(*e.rule->every)));
  return look;
}

std::string conductor_identification(const Inverter& inverter, const Edition& edition) {
  const LabelRules& rules = edition.labels;
  if (!inverter.grounding)
    return fmt::format("inverter {}: grounding not stated, so neither is known", plain(inverter.id));
  if (is_unknown_word(inverter.grounding, edition))
    return fmt::format(
        "inverter {}: grounding is functional, which the {} edition does not know, so neither is known",
        plain(inverter.id), edition.name);
  if (*inverter.grounding == Grounding::solid)
    return fmt::format("inverter {}: the grounded conductor white or gray, the other not [{}]",
                       plain(inverter.id), plain(rules.solid_section));
  return fmt::format("inverter {}: no conductor white or gray; polarity marked at each termination [{}]",
                     plain(inverter.id), plain(rules.other_section));
}

}  // namespace boxproof::report
