// The chart of margins of a judged design, and what its cells say.
#pragma once

#include "boxproof/report.hpp"
#include "src/report/margin_chart.hpp"
#include "src/report/margin_rows.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/web_page.hpp"

namespace boxproof::test {

using Strings = std::vector<std::string>;

inline ReportInput input(const Judged& j) {
  return {j.design, j.record ? &*j.record : nullptr, j.edition, j.judgement, {}};
}

inline std::string chart(const Judged& j) {
  std::string out;
  const ReportInput r = input(j);
  report::write_margin_chart(report::PageIndex(r), [&](std::string_view piece) { out += piece; });
  return out;
}

inline WebPage page_of(const std::string& chart) {
  WebPage page = take_apart("<!doctype html>\n" + chart);
  CHECK(page.problems == Strings{});
  return page;
}
inline WebPage page_of(const Json& design, const Json& record = nullptr) {
  return page_of(chart(*judge(design, {}, record)));
}

inline std::vector<report::BoxShares> shares_of(const Judged& j) {
  const ReportInput r = input(j);
  return report::box_shares(report::PageIndex(r));
}

// What the cells say, row by row: boxes, verdict, voltage, current, ampacity.
inline std::vector<Strings> rows_of(const WebPage& page) {
  std::vector<Strings> out;
  for (const WebElement& e : page.elements) {
    if (e.name != "td" && (e.name != "th" || e.attribute("scope") != "row")) continue;
    if (e.name == "th") out.emplace_back();
    out.back().push_back(e.text);
  }
  return out;
}

// Boxes with this many amperes of enclosure, in order; other limits are far.
inline Json sites_with(const std::vector<Json>& patches) {
  Json design = sound_design();
  const Json box = design["combiners"][0];
  design["combiners"] = Json::array();
  for (std::size_t i = 0; i < patches.size(); ++i) {
    Json one = box;
    one["id"] = "B-" + std::to_string(i + 1);
    one.merge_patch(patches[i]);
    design["combiners"].push_back(one);
  }
  return design;
}
inline Json box_rated(double amps) {
  return {{"enclosure", {{"rated_a", amps}}}, {"fuse", {{"a", 40}}}, {"disconnect", {{"rated_a", 400}}}};
}

}  // namespace boxproof::test
