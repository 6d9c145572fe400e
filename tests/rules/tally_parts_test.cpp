// Labels, fuses and parts of a visit against the plan; boxes that only one of plan and record has.
#include "src/rules/notes.hpp"
#include "src/rules/tally.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/visit.hpp"

using namespace boxproof;

namespace {

using Findings = std::vector<Finding>;
using Parts = std::vector<std::string>;

Parts parts_of(const Findings& findings) {
  Parts out;
  for (const Finding& f : findings) out.push_back(f.part);
  return out;
}

// What a rule on the whole record says; ids only.
Findings judge_record(const Rule& rule, const std::vector<std::string>& planned,
                      const std::vector<std::string>& visited) {
  std::string boxes;
  for (const std::string& id : planned)
    boxes += std::string(boxes.empty() ? "" : ", ") + R"({ "type": "T", "id": ")" + id + R"(" })";
  const Document text{"design.json", design_with(boxes)};
  const DesignFile design = read_design(text);
  FieldRecord record;
  for (const std::string& id : visited) {
    record.boxes.emplace_back().id = id;
    record.boxes.back().labels_listed = true;  // there are none
  }
  const Edition& edition = edition_of("2017");
  Notes notes(edition, false);
  notes.speak(rule, edition.rules.find(rule.id)->second);
  rule.judge_record({design.design, edition, record}, notes);
  return std::move(notes.findings());
}

}  // namespace

TEST_CASE("tally/label: entries that differ from the plan") {
  const Findings all =
      judge_visit(tally_label, "",
                  R"("posted": { "id": "A-40", "strings": 11, "series": 17, "fuse_a": 15, "max_v": 2000 })");
  CHECK(parts_of(all) == Parts{"label id", "label strings", "label series", "label fuse_a"});
  CHECK(all[0].message == "The label on A-04 says A-40; the plan has A-04.");
  CHECK(all[1].message == "The label on A-04 says 11 strings; the plan has 12.");
  CHECK(all[1].place.pointer == "/boxes/0/posted/strings");
  CHECK(all[3].message == "The label on A-04 says 15 A fuses; the plan has 20 A.");
  CHECK(all[3].unit == "A");
  for (const Finding& f : all) CHECK(f.severity == Severity::correction);
}

TEST_CASE("tally/label: as planned and as found") {
  CHECK(parts(tally_label, "", R"("posted": { "id": "A-04", "strings": 12, "series": 18, "fuse_a": 20,
      "max_v": 970, "max_a": 174 }, "count": { "positive": 12, "series": 18 }, "fuse": { "a": 20 })")
            .empty());
  CHECK(parts(tally_label, "", R"("count": { "positive": 13 })").empty());  // nobody read the label
}

TEST_CASE("tally/label: as planned, but not as found") {
  const Findings all =
      judge_visit(tally_label, "", R"("posted": { "strings": 12, "series": 18, "fuse_a": 20 },
      "count": { "positive": 11, "series": 17 }, "fuse": { "a": 15 })");
  CHECK(parts_of(all) == Parts{"label strings", "label series", "label fuse_a"});
  CHECK(all[0].message == "The label on A-04 says 12 strings; the inspector found 11.");
}

TEST_CASE("tally/label: never two findings for one entry") {
  CHECK(parts(tally_label, "", R"("posted": { "strings": 11, "fuse_a": 25 }, "count": { "positive": 13 },
      "fuse": { "a": 15 })") == Parts{"label strings", "label fuse_a"});
}

TEST_CASE("tally/label: three accounts") {
  const auto said = [](std::string_view record) {
    const Findings all = judge_visit(tally_label, "", record);
    return only(all).message;
  };
  CHECK(said(R"("posted": { "series": 17 }, "count": { "series": 17 })") ==
        "The label on A-04 says 17 modules in series; the plan has 18.");
  CHECK(said(R"("posted": { "series": 16 }, "count": { "series": 17 })") ==
        "The label on A-04 says 16 modules in series; the plan has 18, and the inspector found 17.");
  CHECK(said(R"("posted": { "series": 16 }, "count": { "series": 18 })") ==
        "The label on A-04 says 16 modules in series; the plan has 18.");
  CHECK(said(R"("posted": { "fuse_a": 25 }, "fuse": { "a": 15 })") ==
        "The label on A-04 says 25 A fuses; the plan has 20 A, and the inspector found 15 A.");
}

TEST_CASE("tally/label: unlike groups leave the label either's modules in series") {
  constexpr std::string_view unlike = R"("circuits": [
      { "id": "near", "module": "M", "series": 18, "strings": 8 },
      { "id": "far", "module": "M", "series": 16, "strings": 4 } ])";
  CHECK(parts(tally_label, unlike, R"("posted": { "series": 16 })").empty());
  const Findings all = judge_visit(tally_label, unlike, R"("posted": { "series": 17 })");
  CHECK(only(all).message == "The label on A-04 says 17 modules in series; the plan has 18 or 16.");
}

TEST_CASE("tally/label: voltage and current that do not cover what is computed") {
  // 12 inputs of 1.25 · 11.6 A make 174 A; 18 modules at 25 °C and above make 887.4 V.
  CHECK(parts(tally_label, "", R"("posted": { "max_a": 174 })").empty());
  CHECK(parts(tally_label, "", R"("posted": { "max_a": 180 })").empty());
  CHECK(parts(tally_label, "", R"("posted": { "max_a": 173.9 })") == Parts{"label max_a"});
  const Findings current =
      judge_visit(tally_label, "", R"("posted": { "max_a": 174 }, "count": { "positive": 13 })");
  CHECK(only(current).message ==
        "The label on A-04 gives 174 A as the highest current; the box as found reaches 188.5 A.");
  CHECK_FALSE(only(current).working.empty());
  CHECK(parts(tally_label, "", R"("posted": { "max_v": 968.8 })") == Parts{"label max_v"});
  CHECK(parts(tally_label, "", R"("posted": { "max_v": 970 })").empty());
  CHECK(parts(tally_label, "", R"("posted": { "max_v": 970 }, "count": { "series": 19 })") ==
        Parts{"label max_v"});
}

TEST_CASE("tally/label: a posted voltage exactly as computed") {
  const double computed = 18 * 49.3 * (1 + -0.27 / 100 * (-9 - 25));  // V
  const auto posted = [](double v) { return fmt::format(R"("posted": {{ "max_v": {} }})", v); };
  CHECK(parts(tally_label, "", posted(computed)).empty());
  CHECK(parts(tally_label, "", posted(computed - 1e-8)).empty());  // within the slack
  CHECK(parts(tally_label, "", posted(computed - 1e-3)) == Parts{"label max_v"});
}

TEST_CASE("tally/fuse: one finding an item") {
  const Findings all = judge_visit(
      tally_fuse, "", R"("fuse": { "a": 15, "v": 600, "dc": false, "pv_listed": false, "poles": "both" })");
  CHECK(parts_of(all) == Parts{"fuse rating", "fuse voltage", "fuse dc", "fuse pv_listed", "fuse poles"});
  CHECK(all[0].message == "The rating of the fuses of A-04 is 15 A; on the plan it is 20 A.");
  CHECK(all[0].place.pointer == "/boxes/0/fuse/a");
  CHECK(all[2].message == "The kind of fuse of A-04 is one not rated for DC; on the plan it is one for DC.");
}

TEST_CASE("tally/fuse: as planned, or not stated on either side") {
  CHECK(
      parts(tally_fuse, "", R"("fuse": { "a": 20, "v": 1500, "dc": true, "pv_listed": true, "poles": "one" },
                                 "count": { "fuses": 12 })")
          .empty());
  CHECK(parts(tally_fuse, R"("fuse": { "a": null })", R"("fuse": { "a": 15 })").empty());
  CHECK(parts(tally_fuse, "", "").empty());
}

TEST_CASE("tally/fuse: number of fuses") {
  const Findings all = judge_visit(tally_fuse, "", R"("count": { "positive": 13, "fuses": 12 })");
  CHECK(only(all).part == "fuse count");
  CHECK(only(all).message == "The inspector counted 12 fuses in A-04; its 13 inputs need 13.");
  CHECK(parts(tally_fuse, "", R"("count": { "positive": 13, "fuses": 13 })").empty());
  CHECK(parts(tally_fuse, R"("fuse": { "poles": "both" })", R"("count": { "fuses": 24 })").empty());
  CHECK(parts(tally_fuse, R"("fuse": { "poles": "both" })", R"("count": { "fuses": 12 })") ==
        Parts{"fuse count"});
  CHECK(parts(tally_fuse, R"("fuse": { "poles": null })", R"("count": { "fuses": 24 })").empty());
  CHECK(parts(tally_fuse, R"("fuse": { "poles": null })", R"("count": { "fuses": 23 })") ==
        Parts{"fuse count"});
}

TEST_CASE("tally/fuse: two strings to a fuse") {
  constexpr std::string_view joined = R"("circuits": [
      { "id": "rows", "module": "M", "series": 10, "strings": 24, "strings_per_fuse": 2 } ])";
  CHECK(parts(tally_fuse, joined, R"("count": { "positive": 24, "fuses": 12 })").empty());
  CHECK(parts(tally_fuse, joined, R"("count": { "positive": 24, "fuses": 24 })") == Parts{"fuse count"});
  // A list that splits the group up does not make inputs out of its strings.
  CHECK(parts(tally_fuse, joined, R"("count": { "fuses": 12, "series": [11] })").empty());
}

TEST_CASE("tally/fuse: fuses where the plan has none, none where it has some") {
  CHECK(parts(tally_fuse, "", R"("count": { "fuses": 0 })") == Parts{"fuse"});
  CHECK(parts(tally_fuse, R"("fuse": null)", R"("count": { "fuses": 12 })") == Parts{"fuse"});
  CHECK(parts(tally_fuse, R"("fuse": null)", R"("fuse": { "a": 20 })") == Parts{"fuse"});
  CHECK(parts(tally_fuse, R"("fuse": null)", R"("count": { "fuses": 0 })").empty());
}

TEST_CASE("tally/part: conductors") {
  const Findings all = judge_visit(tally_part, "", R"(
      "output": { "size": "250 kcmil", "material": "aluminum", "stranding": "fine", "insulation": "THW" },
      "source": { "size": "12 AWG", "material": "aluminum", "stranding": "fine", "insulation": "THW" },
      "egc": { "size": "6 AWG", "material": "aluminum" })");
  CHECK(parts_of(all) == Parts{"output size", "output material", "output stranding", "output insulation",
                               "source size", "source material", "source stranding", "source insulation",
                               "egc size", "egc material"});
  CHECK(all[0].message ==
        "The size of the output conductor of A-04 is 250 kcmil; on the plan it is 300 kcmil.");
  CHECK(all[0].place.pointer == "/boxes/0/output/size");
  CHECK(std::get<std::string>(all[0].found) == "250 kcmil");
}

TEST_CASE("tally/part: source conductors against every group") {
  constexpr std::string_view groups = R"("circuits": [
      { "id": "near", "module": "M", "series": 18, "strings": 8, "run": { "conductor": "pv-10" } },
      { "id": "far", "module": "M", "series": 18, "strings": 4, "run": { "conductor": "pv-12" } } ])";
  const Findings all = judge_visit(tally_part, groups, R"("source": { "size": "10 AWG" })");
  CHECK(std::get<std::string>(only(all).required) == "12 AWG");
}

TEST_CASE("tally/part: enclosure and disconnect") {
  const Findings all = judge_visit(tally_part, "", R"(
      "enclosure": { "type": "3R", "cover": "up", "listed": false },
      "disconnect": { "rated_v": 1000, "rated_a": 200, "load_break": false, "distance_m": 3 })");
  CHECK(parts_of(all) == Parts{"enclosure type", "enclosure listed", "enclosure cover", "disconnect rated_v",
                               "disconnect rated_a", "disconnect load_break", "disconnect distance_m"});
  CHECK(all[6].message == "The distance to the disconnect of A-04 is 3 m; on the plan it is 1.5 m.");
  CHECK(std::get<double>(all[6].found) == 3);
  CHECK(all[6].unit == "m");
}

TEST_CASE("tally/part: as planned, or not stated on either side") {
  CHECK(parts(tally_part, "", "").empty());
  CHECK(parts(tally_part, "", R"(
      "output": { "size": "300 kcmil", "material": "copper", "stranding": "coarse", "insulation": "rhw-2" },
      "source": { "size": "10 AWG", "material": "copper" }, "egc": { "size": "4 AWG", "material": "copper" },
      "enclosure": { "type": "4x", "cover": "side", "listed": true },
      "disconnect": { "present": true, "rated_v": 1500, "rated_a": 250, "load_break": true, "distance_m": 1.5 })")
            .empty());
  CHECK(parts(tally_part, R"("enclosure": null, "mounting": null)",
              R"("enclosure": { "type": "3R", "cover": "up" })")
            .empty());
}

TEST_CASE("tally/not-visited") {
  const Findings all = judge_record(tally_not_visited, {"A-01", "A-02", "A-03"}, {"A-03", "A-01"});
  const Finding& f = only(all);
  CHECK(f.severity == Severity::query);
  CHECK(f.basis == Basis::as_built);
  CHECK(f.box == 1U);
  CHECK(f.box_id == "A-02");
  CHECK_FALSE(f.in_record);
  CHECK(f.place.pointer == "/combiners/1");
  CHECK(judge_record(tally_not_visited, {"A-01"}, {"A-01", "B-01"}).empty());
}

TEST_CASE("an entry that says nothing but the id") {
  const auto says_nothing = [](std::string_view seen) {
    return VisitedPlan("", seen).visited.says_nothing();
  };
  for (const char* nothing : {"", R"("count": {})", R"("fuse": {}, "enclosure": {}, "disconnect": {})",
                              R"("measured": { "tolerance_pct": 1, "strings": [] })",
                              R"("posted": {}, "output": {}, "source": {}, "egc": {})"}) {
    CAPTURE(nothing);
    CHECK(says_nothing(nothing));
  }
  for (const char* something :
       {R"("labels": [])", R"("seen": [])", R"("mixed_fuses": [])",
        R"("labels": [ { "kind": "disconnect" } ])", R"("count": { "positive": 0 })",
        R"("count": { "series": [] })", R"("posted": { "id": "A-04" })", R"("fuse": { "dc": true })",
        R"("mixed_fuses": [ {} ])", R"("enclosure": { "secured": true })",
        R"("disconnect": { "works": true })", R"("output": { "antioxidant": true })",
        R"("source": { "size": "10 AWG" })", R"("egc": { "size": "6 AWG" })",
        R"("egc": { "material": "copper" })", R"("seen": [ { "what": "latch-open" } ])",
        R"("measured": { "irradiance_w_m2": 900 })", R"("measured": { "cell_c": 40 })",
        R"("measured": { "strings": [ { "voc_v": 800 } ] })"}) {
    CAPTURE(something);
    CHECK_FALSE(says_nothing(something));
  }
}

TEST_CASE("tally/not-on-plan") {
  const Findings all =
      judge_record(tally_not_on_plan, {"B-09", "B-11", "B-10", "C-77"}, {"B-09", "B-11", "B-1O"});
  const Finding& f = only(all);
  CHECK(f.severity == Severity::correction);
  CHECK_FALSE(f.box);
  CHECK(f.box_id == "B-1O");
  CHECK(f.in_record);
  CHECK(f.place.pointer == "/boxes/2/id");
  // B-10 and B-11 are one letter away; nobody visited B-10.
  CHECK(f.message == "Box B-1O of the field record is not on the plan; the nearest there are B-10 and B-11.");
  CHECK(judge_record(tally_not_on_plan, {"A-01", "A-02"}, {"A-02"}).empty());
}

TEST_CASE("tally/not-visited and tally/not-on-plan on a plant of sixty thousand boxes") {
  std::vector<std::string> planned, visited;
  for (int i = 0; i < 60'000; ++i) {
    planned.push_back(fmt::format("A-{:05}", i));
    visited.push_back(fmt::format("B-{:05}", i));
  }
  CHECK(judge_record(tally_not_visited, planned, visited).size() == planned.size());
  CHECK(judge_record(tally_not_on_plan, planned, planned).empty());
  const Findings all = judge_record(tally_not_on_plan, planned, visited);
  REQUIRE(all.size() == visited.size());
  CHECK(all.front().message ==
        "Box B-00000 of the field record is not on the plan; the nearest there is A-00000.");
  CHECK(all.back().message == "Box B-59999 of the field record is not on the plan.");
}
