// Labels of the one box, on the plan and in a record of a visit to it.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "tests/support/judge.hpp"

namespace boxproof::test {

// The sound design's labels and the two kinds that it does without.
inline Json all_labels() {
  Json labels = sound_design()["combiners"][0]["labels"];
  labels.push_back({{"kind", "ungrounded-system"}});
  labels.push_back({{"kind", "directory"}});
  return labels;
}

inline Json labels_without(Json labels, std::initializer_list<std::string_view> kinds) {
  Json out = Json::array();
  for (const Json& label : labels) {
    bool left = true;
    for (const std::string_view kind : kinds) left = left && label["kind"].get<std::string>() != kind;
    if (left) out.push_back(label);
  }
  return out;
}

inline Json with_labels(Json design, Json labels) {
  design["combiners"][0]["labels"] = std::move(labels);
  return design;
}

// The design with the labels of each box made to fit it: the values that they state are those computed, as
// printed. For tests that change a box and do not look at labels.
Json with_fitting_labels(Json design);

// A record of a visit to A-01.
inline Json visit_with(Json seen) {
  seen["id"] = "A-01";
  return {{"format", "boxproof-asbuilt/1"}, {"boxes", Json::array({std::move(seen)})}};
}

// Kinds as a record lists them, without values.
inline Json found_labels(std::initializer_list<std::string_view> kinds) {
  Json out = Json::array();
  for (const std::string_view kind : kinds) out.push_back({{"kind", std::string(kind)}});
  return out;
}

// What one rule says, as "severity part", in the order in which it is told.
inline std::vector<std::string> told_by(const Judged& judged, std::string_view rule) {
  std::vector<std::string> out;
  for (const Finding& f : judged.findings())
    if (f.rule->id == rule)
      out.push_back(std::string(severity_names[static_cast<std::size_t>(f.severity)]) + " " + f.part);
  return out;
}

}  // namespace boxproof::test
