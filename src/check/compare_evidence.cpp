#include "src/check/compare_evidence.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "src/check/record_inputs.hpp"
#include "src/check/record_keys.hpp"

namespace boxproof {
namespace {

using Keys = std::vector<std::string>;

// The token at the head of a pointer, which is taken off it.
std::string_view take_token(std::string_view& pointer) {
  if (pointer.empty()) return {};
  const auto end = pointer.find('/', 1);
  const std::string_view token = pointer.substr(1, end == std::string_view::npos ? end : end - 1);
  pointer = end == std::string_view::npos ? std::string_view() : pointer.substr(end);
  return token;
}

// Of a conductor, by what the rule looks at.
Keys of_conductor(std::string_view rule, std::string_view group) {
  if (rule == "conductor/insulation") return {fmt::format("{}/insulation", group)};
  if (rule == "conductor/fine-strand") return {fmt::format("{}/stranding", group)};
  // Of an aluminum conductor whose inhibitor nobody noted the rule asks, so that the material does.
  if (rule == "conductor/aluminum") return {fmt::format("{}/material", group)};
  return {fmt::format("{}/size", group), fmt::format("{}/material", group)};
}

// Whether several keys of the record are behind a finding of the rule, or others than that of its place.
bool has_several(std::string_view rule, std::string_view group) {
  return rule == "tally/transposed" ||
         (rule.starts_with("conductor/") && (group == "output" || group == "source"));
}

// Of a key of the record, below its box.
Keys of_record(const Finding& f, std::string_view rest) {
  const std::string_view rule = f.rule->id;
  if (rule == "tally/polarity") return {"count/positive", "count/negative"};
  if (rule == "tally/transposed")
    return {"count/positive", "count/series", "posted/strings", "posted/series"};
  const std::string_view group = take_token(rest), key = take_token(rest);
  if (group.empty() || group == "id") return {};
  if (has_several(rule, group)) return of_conductor(rule, group);
  if (group == "labels" || group == "seen" || group == "mixed_fuses" || key.empty())
    return {std::string(group)};
  if (group == "measured" && key == "strings") {
    take_token(rest);  // the place in the list, which another visit may fill otherwise
    const std::string_view reading = take_token(rest);
    constexpr std::string_view lead = "string ";
    const std::string position = f.part.starts_with(lead) ? f.part.substr(lead.size()) : "*";
    return {reading.empty() ? "measured" : fmt::format("measured/{}/{}", position, reading)};
  }
  return {fmt::format("{}/{}", group, key)};
}

// Of what stands elsewhere in the design (a module, an inverter, a conductor): by what the rule looks at.
Keys of_rule(std::string_view rule) {
  const std::string_view topic = rule.substr(0, rule.find('/'));
  if (topic == "voltage") return {"count/series"};
  if (topic == "current") return {"count/positive", "count/negative"};
  if (topic == "fuse") return {"fuse/a"};
  if (topic != "conductor") return {};
  Keys keys = of_conductor(rule, "output"), source = of_conductor(rule, "source");
  keys.insert(keys.end(), source.begin(), source.end());
  return keys;
}

Keys of_design(const Finding& f) {
  std::string_view rest = f.place.pointer;
  const std::string_view rule = f.rule->id, top = take_token(rest);
  if (top != "combiners" && top != "box_types") return of_rule(rule);
  take_token(rest);  // which box, or which type
  const std::string_view group = take_token(rest), key = rest.empty() ? rest : rest.substr(1);
  const std::string same = fmt::format("{}/{}", group, key);
  if (group == "circuits") {
    if (rest.find("/run") != std::string_view::npos) return of_conductor(rule, "source");
    if (rest.find("/bond") != std::string_view::npos) return {"fuse/a"};
    if (rest.ends_with("/strings")) return {"count/positive", "count/negative"};
    return of_rule(rule);
  }
  if (group == "output") return of_conductor(rule, "output");
  if (group == "mounting")
    return {key == "cover" || key == "air_gap_mm" ? "enclosure/" + std::string(key) : ""};
  if (same == "enclosure/rated_v") return {"count/series"};
  if (same == "enclosure/rated_a" || same == "enclosure/inputs") return {"count/positive", "count/negative"};
  if (group == "labels" || (key.empty() && !group.empty())) return {std::string(group)};
  if (!group.empty()) return {same};
  if (rule.starts_with("disconnect/")) return {"disconnect/present"};
  return rule.starts_with("fuse/") ? Keys{"count/fuses", "fuse"} : of_rule(rule);
}

}  // namespace

bool states(std::string_view looked_at, std::string_view key) {
  const auto star = key.find('*');
  if (star == std::string_view::npos)
    return looked_at.find(fmt::format("\n{}\n", key)) != std::string_view::npos ||
           (key.find('/') == std::string_view::npos &&
            looked_at.find(fmt::format("\n{}/", key)) != std::string_view::npos);
  const std::string lead = fmt::format("\n{}", key.substr(0, star));
  const std::string end = fmt::format("{}\n", key.substr(star + 1));
  for (auto at = looked_at.find(lead); at != std::string_view::npos; at = looked_at.find(lead, at + 1)) {
    const auto line_end = looked_at.find('\n', at + 1);
    if (looked_at.substr(at + 1, line_end - at).ends_with(end)) return true;
  }
  return false;
}

std::vector<std::string> evidence(const Finding& f, const ReportedBox* box) {
  constexpr std::string_view record = "/boxes/";
  const std::string_view pointer = f.place.pointer;
  const bool in_record = f.basis == Basis::as_built && pointer.starts_with(record);
  std::string_view rest = pointer;
  if (in_record) {
    take_token(rest);
    take_token(rest);
  }
  const bool alike = f.basis == Basis::design && box != nullptr && box->visited();  // on plan and box
  Keys keys = in_record ? of_record(f, rest) : alike ? of_design(f) : Keys();
  // What nobody looked at then is not wanted now.
  const std::string_view group = take_token(rest);
  const bool own = in_record && !has_several(f.rule->id, group);
  std::erase_if(keys, [&](const std::string& key) {
    return key.empty() || (!own && box != nullptr && !states(box->looked_at, key));
  });
  if (box == nullptr) return keys;
  for (std::string& key : record_inputs(f, box->looked_at))
    if (std::find(keys.begin(), keys.end(), key) == keys.end()) keys.push_back(std::move(key));
  return keys;
}

std::vector<std::string> keys_on_site(const Finding& f) {
  if (f.box_id.empty() || f.basis == Basis::as_built) return {};
  const auto known = [](const std::string& key) { return !words_of_key(key).empty(); };
  if (f.lacking) {  // its part is the value; what a conductor, a module or a run lacks, the plan has to state
    constexpr std::string_view mounting = "mounting/";
    const std::string key =
        f.part.starts_with(mounting) ? "enclosure/" + f.part.substr(mounting.size()) : f.part;
    return known(key) && key != "output" ? Keys{key} : Keys();
  }
  std::string_view rest = f.place.pointer;
  const std::string_view top = take_token(rest);
  const bool of_box = top == "combiners" || top == "box_types";
  Keys keys = of_design(f);
  if (keys.empty() && of_box && f.rule->id.starts_with("label/")) keys = {"labels"};
  const std::string_view other = f.part.starts_with("output")    ? "source/"
                                 : f.part.starts_with("circuit") ? "output/"
                                                                 : "";
  std::erase_if(keys, [&](const std::string& key) {
    return !known(key) || (!other.empty() && key.starts_with(other));
  });
  return keys;
}

}  // namespace boxproof
