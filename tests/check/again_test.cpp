// What to look at on a second visit, and that it is what boxproof compare wants to see again.
#include "src/check/again.hpp"

#include <algorithm>

#include "src/check/record_keys.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/compared.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Keys = std::vector<std::string>;

// Owns what the items point to.
struct Looked {
  Document report_text, design_text;
  ReportFile report;
  DesignFile design;
  Again again;

  Looked(const Json& of_report, const Json& of_design)
      : report_text{"report.json", of_report.dump()},
        design_text{"design.json", of_design.dump()},
        report(read_report(report_text)),
        design(read_design(design_text)),
        again(look_again(report, design.design)) {}
  Looked(const Looked&) = delete;
  Looked& operator=(const Looked&) = delete;

  // The keys of the one finding of a rule on the first box; "none" where the rule is not there.
  Keys keys(std::string_view rule) const {
    Keys out{"none"};
    std::size_t n = 0;
    for (const AgainItem& item : again.boxes.at(0))
      if (item.finding->rule->id == rule) out = item.keys, ++n;
    CHECK(n <= 1);
    return out;
  }
};

const Json sound = sound_design();
Json box(const Json& more) {
  Json out{{"id", "A-01"}};
  out.merge_patch(more);
  return Json::array({out});
}
Keys after_visit(const char* rule, const Json& found) {
  return Looked(visit_report(sound, box(found)), sound).keys(rule);
}
Keys after_plan(const char* rule, const Json& design) {
  return Looked(plan_report(design), design).keys(rule);
}

}  // namespace

TEST_CASE("what was found on a box is looked at again where it was found") {
  CHECK(after_visit("fuse/not-dc", {{"fuse", {{"dc", false}}}}) == Keys{"fuse/dc"});
  CHECK(after_visit("fuse/not-dc", {{"fuse", {{"dc", true}}}}) == Keys{"none"});
  CHECK(after_visit("tally/polarity", {{"count", {{"positive", 9}, {"negative", 8}}}}) ==
        Keys{"count/positive", "count/negative"});
  CHECK(after_visit("condition/water-inside", {{"seen", {{{"what", "water-inside"}}}}}) == Keys{"seen"});
  const Json odd = Json::array({{{"position", 2}, {"a", 10}}});
  CHECK(after_visit("tally/mixed-fuses", {{"mixed_fuses", odd}}) == Keys{"mixed_fuses"});
  CHECK(after_visit("tally/label", {{"posted", {{"series", 17}}}}) == Keys{"posted/series"});
}

TEST_CASE("a box that nobody visited is looked at whole") {
  const Looked looked(visit_report(sound, Json::array()), sound);
  CHECK(looked.keys("tally/not-visited").empty());
  CHECK(looked.again.boxes[0].size() == 1);
  CHECK(Looked(visit_report(sound, box({{"count", {{"positive", 9}}}})), sound).again.boxes[0].empty());
}

TEST_CASE("an empty list is a look at the box, and enough of one") {
  for (const char* list : {"seen", "mixed_fuses", "labels"}) {
    CAPTURE(list);
    CHECK(after_visit("tally/not-visited", {{list, Json::array()}}) == Keys{"none"});
  }
  CHECK(after_visit("tally/not-visited", Json::object()).empty());
}

TEST_CASE("of a plan check only what a field record can show is for the roof") {
  CHECK(after_plan("fuse/not-dc", with_box({{"fuse", {{"dc", false}}}})) == Keys{"fuse/dc"});
  CHECK(after_plan("fuse/not-dc", with_box({{"fuse", {{"dc", nullptr}}}})) == Keys{"fuse/dc"});
  CHECK(after_plan("voltage/site-limit", with_circuit({{"series", 90}})) == Keys{"count/series"});
  CHECK(after_plan("disconnect/missing", with_box({{"disconnect", nullptr}})) == Keys{"disconnect/present"});
  // No field record has the lowest temperature of a site, or the size of a conductor of the plan's list.
  Json without = sound;
  without["site"].erase("low_c");
  for (auto& conductor : without["conductors"].items()) conductor.value().erase("size");
  const Looked looked(plan_report(without), without);
  CHECK(looked.again.boxes[0].empty());
  CHECK(looked.again.of_plan == looked.report.findings.size());
  CHECK(looked.again.of_plan >= 2);
}

TEST_CASE("advice and agreed exceptions are counted, not looked at") {
  Json report = visit_report(sound, box({{"fuse", {{"dc", false}}}}));
  const Looked before(report, sound);
  REQUIRE(before.again.boxes[0].size() > 0);
  for (Json& f : report["findings"]) f["severity"] = "advice";
  const Looked mild(report, sound);
  CHECK(mild.again.boxes[0].empty());
  CHECK(mild.again.advice == report["findings"].size());
  for (Json& f : report["findings"]) f["severity"] = "query";
  CHECK(Looked(report, sound).again.boxes[0].size() == before.again.boxes[0].size());
  report["agreed"] = Json::array({report["findings"][0]});
  report["agreed"][0]["exception"] = 0;
  report["exceptions"] = Json::array({{{"reason", "r"}, {"agreed_by", "a"}, {"expires", nullptr}}});
  CHECK(Looked(report, sound).again.agreed == 1);
}

TEST_CASE("the worst first, else as in the report") {
  const Looked looked(report_json(*judge_example("saltmarsh.json", "saltmarsh-visit.json")),
                      example_json("saltmarsh.json"));
  for (const auto& items : looked.again.boxes)
    CHECK(std::is_sorted(items.begin(), items.end(), [](const AgainItem& a, const AgainItem& b) {
      return std::pair(a.finding->severity, a.finding) < std::pair(b.finding->severity, b.finding);
    }));
  CHECK(looked.again.site.size() == 2);       // strings and modules against the permit
  CHECK(looked.again.strangers.size() == 1);  // B-1O
  // Each finding once: 10 hazards, 26 corrections and 4 queries, without those three; all advice is left out.
  std::size_t n = 0;
  for (const auto& items : looked.again.boxes) n += items.size();
  CHECK(n == 37);
  CHECK(looked.again.advice == 15);
  CHECK(looked.again.of_plan == 0);
}

TEST_CASE("a finding is closed when its keys are stated again, and by no fewer") {
  const Json first = report_json(*judge_example("saltmarsh.json", "saltmarsh-visit.json"));
  const Json last = report_json(*judge_example("saltmarsh.json", "saltmarsh-final-visit.json"));
  const Looked looked(first, example_json("saltmarsh.json"));
  // What became of each finding where the later record says only `keys` of its box.
  const auto fate = [&](const AgainItem& item, const Keys& keys) {
    Json later = last;
    for (Json& b : later["boxes"])
      if (b["id"] == item.finding->box_id) b["looked_at"] = keys;
    const auto compared = compare_reports(first, later);
    for (const Compared& c : compared->comparison.findings)
      if (c.before != nullptr && c.before->finding.message == item.finding->message) return c.outcome;
    return Outcome::appeared;
  };
  // Of A-26 the plan alone has it still, as advice.
  const auto whole = compare_reports(first, last);
  const auto stands = [&](const AgainItem& item) {
    return std::any_of(whole->comparison.findings.begin(), whole->comparison.findings.end(),
                       [&](const Compared& c) {
                         return c.outcome == Outcome::open && c.before->finding.severity == Severity::query &&
                                c.before->finding.message == item.finding->message;
                       });
  };
  std::size_t standing = 0;
  std::size_t tried = 0;
  for (const auto& items : looked.again.boxes)
    for (const AgainItem& item : items) {
      CAPTURE(item.finding->message);
      if (item.keys.empty() || (stands(item) && ++standing > 0)) continue;
      CHECK(fate(item, item.keys) == Outcome::corrected);
      for (const std::string& left_out : item.keys) {
        if (left_out.find('*') != left_out.npos) continue;  // the readings of each string are there, too
        Keys fewer = item.keys;
        std::erase(fewer, left_out);
        fewer.emplace_back(
            left_out == "count/modules" ? "posted/id" : "count/modules");  // the box was visited all the same
        CHECK(fate(item, fewer) == Outcome::unseen);
        ++tried;
      }
    }
  CHECK(tried > 30);
  CHECK(standing == 1);
}

TEST_CASE("every key of a field record has words of its own") {
  const std::string record = R"({ "format": "boxproof-asbuilt/1", "boxes": [ { "id": "A-01",
    "posted": { "id": "A-01", "strings": 1, "series": 1, "max_v": 1, "max_a": 1, "fuse_a": 1 },
    "count": { "positive": 1, "negative": 1, "fuses": 1, "series": 1, "modules": 1 },
    "fuse": { "a": 1, "v": 1, "dc": true, "pv_listed": true, "poles": "one" }, "mixed_fuses": [],
    "enclosure": { "type": "4X", "air_gap_mm": 1, "cover": "up", "listed": true, "secured": true,
                   "gasket_seated": true },
    "disconnect": { "present": true, "rated_v": 1, "rated_a": 1, "load_break": true, "distance_m": 1,
                    "works": true },
    "output": { "size": "10 AWG", "material": "copper", "stranding": "fine", "insulation": "RHW-2",
                "antioxidant": true, "lug_for_fine_strand": true },
    "source": { "size": "10 AWG", "material": "copper", "stranding": "fine", "insulation": "RHW-2" },
    "egc": { "size": "10 AWG", "material": "copper" }, "labels": [], "seen": [],
    "measured": { "irradiance_w_m2": 900, "cell_c": 40,
                  "strings": [ { "voc_v": 1, "isc_a": 1, "insulation_mohm": 1, "reversed": false } ] } } ] })";
  const Document document{"record.json", record};
  const Keys keys = looked_at(read_field_record(document).record.boxes[0], 12);
  CHECK(keys.size() == 49);
  Keys words;
  for (const std::string& key : keys) {
    CAPTURE(key);
    words.push_back(words_of_key(key));
    CHECK(words.back().size() > 2);
  }
  std::sort(words.begin(), words.end());
  CHECK(std::adjacent_find(words.begin(), words.end()) == words.end());
  CHECK(words_of_key("fuse/a") == "fuse A");
  CHECK(words_of_key("measured/9/voc_v") == "string 9: Voc");
  CHECK(words_of_key("measured/*/voc_v") == "each string: Voc");
  for (const char* none : {"", "bond/size", "measured/voc_v", "measured/9/vmp_v", "circuits/0", "fuse/a/b"}) {
    CAPTURE(none);
    CHECK(words_of_key(none).empty());
  }
}
