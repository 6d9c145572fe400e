// Conditions of one box weighed into one disposition, in the judgement and in each report.
#include "tests/support/example.hpp"
#include "tests/support/page.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

Json record_of(const std::vector<std::string_view>& words) {
  Json seen = Json::array();
  for (const std::string_view word : words) seen.push_back({{"what", word}});
  return {{"format", "boxproof-asbuilt/1"}, {"boxes", {{{"id", "A-01"}, {"seen", seen}}}}};
}

bool has_line(const std::string& page, std::string_view line) {
  const auto lines = lines_of(page);
  CAPTURE(page, std::string(line));
  return std::find(lines.begin(), lines.end(), line) != lines.end();
}

}  // namespace

TEST_CASE("replace outweighs repair, repair correct, correct explain") {
  struct Weighed {
    std::vector<std::string_view> seen;
    Disposition expected;
  };
  const std::vector<Weighed> cases{
      {{"wrong-torque-mark"}, Disposition::explain},
      {{"wrong-torque-mark", "debris-inside"}, Disposition::correct},
      {{"debris-inside", "loose-terminal"}, Disposition::repair},
      {{"loose-terminal", "debris-inside", "wrong-torque-mark"}, Disposition::repair},
      // A correction that asks for a new part outweighs a hazard that asks for a repair.
      {{"loose-terminal", "gasket-damaged"}, Disposition::replace},
      {{"gasket-damaged", "loose-terminal", "debris-inside", "wrong-torque-mark"}, Disposition::replace}};
  for (const Weighed& w : cases) {
    const auto judged = judge(sound_design(), {}, record_of(w.seen));
    CAPTURE(judged->summary());
    CHECK(judged->judgement.boxes[0].disposition == w.expected);
    CHECK(judged->findings().size() == w.seen.size());  // each stays listed
  }
}

TEST_CASE("findings without a disposition do not touch it") {
  Json record = record_of({"debris-inside"});
  record["boxes"][0]["fuse"] = {{"a", 30}};  // the module allows 20 A: a hazard
  const auto judged = judge(with_second_box(sound_design()), {}, record);
  CHECK(judged->judgement.boxes[0].verdict == Verdict::stop);
  CHECK(judged->judgement.boxes[0].disposition == Disposition::correct);
  CHECK_FALSE(judged->judgement.boxes[1].disposition.has_value());  // not visited
}

TEST_CASE("the report for people has a line a box that has a disposition") {
  const std::string page = text_report(*judge(
      sound_design(), {},
      record_of({"burned-bus", "loose-terminal", "loose-terminal", "gasket-damaged", "wrong-torque-mark"})));
  CHECK(has_line(page, "DISPOSITIONS, by what was seen in the boxes"));
  CHECK(has_line(page, "  A-01 replace  burned-bus, 2 × loose-terminal (repair), gasket-damaged,"));
  CHECK(has_line(page, "                wrong-torque-mark (explain)"));
  CHECK(has_line(page, "    do        Disposition: explain. State who tightened the terminal, with which"));
  CHECK(too_wide(page).empty());
  CHECK(text_report(*judge(sound_design(), {}, record_of({}))).find("DISPOSITION") == std::string::npos);
}

TEST_CASE("observations of the maker's and of others are entries of their own") {
  Json record = record_of({"cracked-bushing", "cracked-bushing"});
  for (Json& seen : record["boxes"][0]["seen"]) seen["where"] = "hub";
  record["boxes"][0]["seen"][1]["origin"] = "manufacture";
  record["boxes"].push_back(record["boxes"][0]);
  record["boxes"][1]["id"] = "B-02";
  const std::string page = text_report(*judge(with_second_box(sound_design()), {}, record));
  CHECK(page.find("  2 Bushing cracked (as built)") != std::string::npos);
  CHECK(page.find("  3 ") == std::string::npos);
  CHECK(page.find("Tell the part's maker") != std::string::npos);
}

TEST_CASE("the screen of a box shows its disposition and that of each condition") {
  const auto judged = judge(sound_design(), {}, record_of({"loose-terminal", "wrong-torque-mark"}));
  const std::string page = box_report(*judged, 0);
  CHECK(has_line(page, "DISPOSITION repair, by what was seen in the box"));
  CHECK(page.find("; explain]") != std::string::npos);
  CHECK(too_wide(page).empty());
  CHECK(box_report(*judge(sound_design(), {}, record_of({})), 0).find("DISPOSITION") == std::string::npos);
}

TEST_CASE("the report for programs has the disposition of each box in a field check only") {
  const auto boxes = [](const Json& record) {
    return Json::parse(json_report(*judge(with_second_box(sound_design()), {}, record)))["boxes"];
  };
  const Json seen = boxes(record_of({"loose-terminal", "gasket-damaged"}));
  CHECK(seen[0]["disposition"] == "replace");
  CHECK(seen[1].contains("disposition"));
  CHECK(seen[1]["disposition"].is_null());
  CHECK_FALSE(boxes(nullptr)[0].contains("disposition"));
}
