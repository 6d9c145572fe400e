// The judgement with a field record: what is told again, what is new, what nobody visited.
#include <algorithm>

#include "boxproof/rule.hpp"
#include "tests/support/approx.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

Json record(const Json& boxes) {
  return {{"format", "boxproof-asbuilt/1"}, {"boxes", boxes}};
}
// What is seen as the plan has it, where nothing else is given.
Json visit(Json seen = {{"enclosure", {{"listed", true}}}}) {
  seen["id"] = "A-01";
  return record(Json::array({seen}));
}

// The findings of one rule, as "basis severity part".
std::vector<std::string> told(const Judged& judged, std::string_view rule) {
  std::vector<std::string> out;
  for (const Finding& f : judged.findings())
    if (f.rule->id == rule)
      out.push_back(std::string(basis_names[static_cast<std::size_t>(f.basis)]) + " " +
                    std::string(severity_names[static_cast<std::size_t>(f.severity)]) + " " + f.part);
  return out;
}

using Words = std::vector<std::string>;

// What is gone, as "rule severity part".
Words gone(const Judged& judged) {
  Words out;
  for (const Finding& f : judged.judgement.gone)
    out.push_back(std::string(f.rule->id) + " " +
                  std::string(severity_names[static_cast<std::size_t>(f.severity)]) + " " + f.part);
  return out;
}

}  // namespace

TEST_CASE("a record that says what the plan says adds nothing to a visited box") {
  const Json design = with_box({{"fuse", {{"a", 30}}}});
  const auto plan = judge(design), built = judge(design, {}, visit());
  CHECK(built->summary() == plan->summary());
  CHECK(built->judgement.basis == Basis::as_built);
  CHECK(plan->judgement.basis == Basis::design);
  for (const Finding& f : built->findings()) {
    CHECK(f.basis == Basis::design);
    CHECK_FALSE(f.in_record);
  }
}

TEST_CASE("a finding that the plan has is not repeated as built") {
  const Json design = with_box({{"fuse", {{"a", 30}}}});  // the module allows 20 A
  const auto built = judge(design, {}, visit({{"fuse", {{"a", 25}}}}));
  CHECK(told(*built, "fuse/over-module-limit") == Words{"design hazard circuit 1"});
}

TEST_CASE("a finding that the plan does not have is told as built, at its place in the record") {
  const auto built = judge(sound_design(), {}, visit({{"fuse", {{"a", 30}}}}));
  CHECK(told(*built, "fuse/over-module-limit") == Words{"as-built hazard circuit 1"});
  const Finding* f = built->find("fuse/over-module-limit");
  CHECK(f->in_record);
  CHECK(f->place.file == "record.json");
  CHECK(f->place.pointer.starts_with("/boxes/0/fuse"));
  CHECK(built->judgement.boxes[0].verdict == Verdict::stop);
}

TEST_CASE("a finding that is graver as built is told as built, and the plan's is gone") {
  // 2008 edition, 108 A: 2 AWG has 130 · 0.91 = 118.3 A, enough by one reading and not by the other (135 A),
  // a query; 4 AWG has 86.45 A, too little by both.
  Json design = sound_design();
  design["conductors"]["feeder"]["size"] = "2 AWG";
  const auto plan = judge(design, "2008");
  CHECK(told(*plan, "conductor/after-conditions") == Words{"design query output conductor"});
  const auto built = judge(design, "2008", visit({{"output", {{"size", "4 AWG"}}}}));
  CHECK(told(*built, "conductor/after-conditions") == Words{"as-built hazard output conductor"});
  const Words away = gone(*built);
  CHECK(std::count(away.begin(), away.end(), "conductor/after-conditions query output conductor") == 1);
}

TEST_CASE("what the plan left open and the record answers badly is told in place of the question") {
  Json design = sound_design();
  design["combiners"][0]["fuse"].erase("dc");
  CHECK(told(*judge(design), "fuse/not-dc") == Words{"design query fuse/dc"});
  const auto built = judge(design, {}, visit({{"fuse", {{"dc", false}}}}));
  CHECK(told(*built, "fuse/not-dc") == Words{"as-built hazard fuse"});
  CHECK(gone(*built) == Words{"fuse/not-dc query fuse/dc"});
}

TEST_CASE("a query that the record answers well is gone, and the box is accepted") {
  Json design = sound_design();
  design["combiners"][0]["fuse"].erase("dc");
  CHECK(judge(design)->judgement.verdict == Verdict::clarify);
  const auto built = judge(design, {}, visit({{"fuse", {{"dc", true}}}}));
  CHECK(built->summary().empty());
  CHECK(gone(*built) == Words{"fuse/not-dc query fuse/dc"});
  CHECK(built->judgement.verdict == Verdict::accept);
  CHECK(built->judgement.boxes[0].verdict == Verdict::accept);
  CHECK(built->judgement.counts == std::array<std::size_t, 4>{0, 0, 0, 0});
  // The same record leaves another question open.
  design["combiners"][0]["fuse"].erase("poles");
  const auto open = judge(design, {}, visit({{"fuse", {{"dc", true}}}}));
  CHECK(told(*open, "fuse/poles") == Words{"design query fuse/poles"});
  CHECK(gone(*open) == Words{"fuse/not-dc query fuse/dc"});
}

TEST_CASE(
    "what the box as found does not have is gone from the findings; the tally tells where they differ") {
  const Json design = with_box({{"fuse", {{"a", 30}}}});
  CHECK(judge(design)->judgement.verdict == Verdict::stop);
  const auto built = judge(design, {}, visit({{"fuse", {{"a", 15}}}}));
  CHECK(told(*built, "fuse/over-module-limit").empty());
  CHECK(gone(*built).front() == "fuse/over-module-limit hazard circuit 1");
  CHECK(built->find("tally/fuse") != nullptr);
  CHECK(built->judgement.verdict == Verdict::correct);
  // Its place is that of the plan's value.
  CHECK(built->judgement.gone.front().place.pointer == "/combiners/0/fuse/a");
  CHECK(built->judgement.gone.front().place.file == "design.json");
  CHECK(built->judgement.gone.front().place.line > 0);
}

TEST_CASE("a finding that the box as found has with other numbers says so") {
  // 18 modules reach 596.7 V; 32 reach 1060.8 V and 33 reach 1093.95 V at −10 °C (30 V · 1.105 each).
  const Json design = with_circuit({{"series", 32}});
  const auto built = judge(design, {}, visit({{"count", {{"series", 33}}}}));
  CHECK(told(*built, "voltage/site-limit") == Words{"design hazard circuit 1"});
  const std::string message = built->find("voltage/site-limit")->message;
  CHECK(message.find("32 modules") < message.find("As found: "));
  CHECK(message.find("1094 V", message.find("As found: ")) != std::string::npos);
  // With the same numbers nothing is added.
  const auto same = judge(design, {}, visit({{"count", {{"series", 32}}}}));
  CHECK(same->find("voltage/site-limit")->message == judge(design)->find("voltage/site-limit")->message);
}

TEST_CASE("a finding that is milder as found is told as found, and the plan's is gone") {
  // A fuse in the grounded pole too is a hazard on a solidly grounded array; one pole only on an ungrounded
  // array of 2014 a correction. Here: 2008, an output of 4 AWG fails by both readings, one of 2 AWG by one.
  Json design = sound_design();
  design["conductors"]["feeder"]["size"] = "4 AWG";
  const auto built = judge(design, "2008", visit({{"output", {{"size", "2 AWG"}}}}));
  CHECK(told(*built, "conductor/after-conditions") == Words{"as-built query output conductor"});
  const Words away = gone(*built);
  CHECK(std::count(away.begin(), away.end(), "conductor/after-conditions hazard output conductor") == 1);
}

TEST_CASE("what only the site as found agrees with the permit on is gone at the site") {
  Json design = sound_design();
  design["site"]["permit"] = {{"strings", 10}};
  CHECK(told(*judge(design), "site/totals") == Words{"design correction strings"});
  const auto built = judge(design, {}, visit({{"count", {{"positive", 10}, {"negative", 10}}}}));
  CHECK(told(*built, "site/totals").empty());
  const Words away = gone(*built);
  CHECK(std::count(away.begin(), away.end(), "site/totals correction strings") == 1);
}

TEST_CASE("without a record nothing is gone, nor at a box that nobody visited") {
  Json design = sound_design();
  design["combiners"][0]["fuse"].erase("dc");
  CHECK(judge(design)->judgement.gone.empty());
  Json second = design["combiners"][0];
  second["id"] = "A-02";
  design["combiners"].push_back(second);
  const auto built = judge(design, {}, visit({{"fuse", {{"dc", true}}}}));
  REQUIRE(built->judgement.gone.size() == 1);
  CHECK(built->judgement.gone[0].box_id == "A-01");
}

TEST_CASE("a box that nobody visited") {
  Json design = sound_design();
  Json second = design["combiners"][0];
  second["id"] = "A-02";
  design["combiners"].push_back(second);
  const auto verdict = [](const Judged& j, std::size_t box) {
    return verdict_names[static_cast<std::size_t>(j.judgement.boxes[box].verdict)];
  };
  const auto built = judge(design, {}, visit());
  CHECK(verdict(*built, 0) == "accept");
  CHECK(verdict(*built, 1) == "not-visited");
  CHECK(built->judgement.verdict == Verdict::not_visited);
  CHECK(built->judgement.boxes[0].visited == 0U);
  CHECK_FALSE(built->judgement.boxes[1].visited.has_value());
  CHECK(told(*built, "tally/not-visited") == Words{"as-built query visit"});
  // A correction on its plan weighs more.
  design["combiners"][1]["disconnect"]["distance_m"] = 4;
  CHECK(verdict(*judge(design, {}, visit()), 1) == "correct");
  // A plan check knows no such verdict.
  CHECK(verdict(*judge(sound_design()), 0) == "accept");
}

TEST_CASE("an entry without a word on the box leaves the box to be clarified") {
  const auto built = judge(sound_design(), {}, visit(Json::object()));
  CHECK(told(*built, "tally/not-visited") == Words{"as-built query visit"});
  CHECK(built->summary().size() == 1);
  CHECK(built->judgement.boxes[0].verdict == Verdict::clarify);
  CHECK(built->judgement.boxes[0].visited == 0U);
  const Finding& f = built->findings().front();
  CHECK(f.message == "The field record's entry for A-01 says nothing of the box; was it visited?");
  CHECK(f.place.file == "record.json");
  CHECK(f.place.pointer == "/boxes/0");
  // An empty list of labels says that there are none.
  CHECK(told(*judge(sound_design(), {}, visit({{"labels", Json::array()}})), "tally/not-visited").empty());
  // The same as CSV.
  const Document csv{"visit.csv", "id,positive,seen\nA-01,,\n"};
  const RecordFile record = read_field_record(csv);
  const auto plan = judge(sound_design());
  const Judgement from_csv = check(plan->design, plan->edition, &record, {});
  REQUIRE(from_csv.findings.size() == 1);
  CHECK(from_csv.findings[0].rule->id == "tally/not-visited");
  CHECK(from_csv.verdict == Verdict::clarify);
}

TEST_CASE("a visited box that the plan does not have stands last and weighs on the site alone") {
  const auto built = judge(sound_design(), {}, record({{{"id", "A-O1"}}, visit()["boxes"][0]}));
  REQUIRE_FALSE(built->findings().empty());
  const Finding& last = built->findings().back();
  CHECK(last.rule->id == "tally/not-on-plan");
  CHECK(last.box_id == "A-O1");
  CHECK_FALSE(last.box.has_value());
  CHECK(built->judgement.boxes.size() == 1);
  CHECK(built->judgement.boxes[0].verdict == Verdict::accept);
  CHECK(built->judgement.verdict == Verdict::correct);
  CHECK(judge(sound_design(), {}, record({{{"id", "A-O1"}}, visit()["boxes"][0]}), {{"A-01"}, false})
            ->findings()
            .empty());
}

TEST_CASE("totals are those of the site as built") {
  const Json design = with({{"site", {{"permit", {{"strings", 9}, {"modules", 162}}}}}});
  const auto plan = judge(design);
  CHECK(plan->judgement.totals.strings == 9);
  CHECK(plan->judgement.totals.modules == 162);
  CHECK(plan->find("site/totals") == nullptr);
  // Ten strings of 17: 170 modules of 225 W.
  const auto built =
      judge(design, {}, visit({{"count", {{"positive", 10}, {"negative", 10}, {"series", 17}}}}));
  CHECK(built->judgement.totals.combiners == 1);
  CHECK(built->judgement.totals.strings == 10);
  CHECK(built->judgement.totals.modules == 170);
  CHECK(*built->judgement.totals.dc_kilowatts == Approx(170 * 0.225));
  CHECK(told(*built, "site/totals") == Words{"as-built correction strings", "as-built correction modules"});
}

TEST_CASE("the current of an inverter is added up as built") {
  // 9 strings of 9.6 A: 108 A; ten: 120 A.
  const Json design = with({{"inverters", {{"I", {{"max_dc_isc_a", 110}}}}}});
  CHECK(told(*judge(design), "current/inverter-input").empty());
  const auto built = judge(design, {}, visit({{"count", {{"positive", 10}, {"negative", 10}}}}));
  CHECK(told(*built, "current/inverter-input") == Words{"as-built correction inverter I"});
}
