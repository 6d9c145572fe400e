// What an inspector saw: every word of the rules page with its severity and its disposition, once more.
#include <array>
#include <set>

#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

struct Word {
  std::string_view what, severity;
  Disposition disposition;
  std::string_view comes;  // what can come of it, as the issue of such boxes names it
};

constexpr auto replace = Disposition::replace, repair = Disposition::repair, correct = Disposition::correct,
               explain = Disposition::explain;

// The rules page, "Conditions".
constexpr std::array<Word, 28> words{{{"burned-terminal", "hazard", replace, "fire"},
                                      {"burned-bus", "hazard", replace, "arc"},
                                      {"arc-marks", "hazard", replace, "strike again"},
                                      {"melted-part", "hazard", replace, "burn"},
                                      {"water-inside", "hazard", replace, "tracks"},
                                      {"handle-leak", "hazard", replace, "shock"},
                                      {"chafed-conductor", "hazard", repair, "shock"},
                                      {"nicked-conductor", "hazard", repair, "run hot"},
                                      {"pinched-conductor", "hazard", repair, "shock"},
                                      {"loose-terminal", "hazard", repair, "fire"},
                                      {"missing-barrier", "hazard", repair, "touch"},
                                      {"corroded-terminal", "correction", repair, "loosens"},
                                      {"cracked-bushing", "correction", replace, "arc"},
                                      {"missing-bushing", "correction", correct, "arc"},
                                      {"conductor-off-center", "correction", correct, "loose"},
                                      {"sharp-bend", "correction", correct, "loose"},
                                      {"gasket-damaged", "correction", replace, "water"},
                                      {"latch-open", "correction", correct, "touched"},
                                      {"unsealed-opening", "correction", correct, "water"},
                                      {"missing-inhibitor", "correction", correct, "loosens"},
                                      {"no-strain-relief", "correction", correct, "loose"},
                                      {"debris-inside", "correction", correct, "bridge"},
                                      {"loose-mounting", "correction", correct, "loose"},
                                      {"standing-water", "correction", correct, "rusts"},
                                      {"label-illegible", "correction", correct, "voltage"},
                                      {"label-missing", "correction", correct, "voltage"},
                                      {"wrong-torque-mark", "query", explain, "loose"},
                                      {"counterfeit-mark", "hazard", replace, "burn"}}};

Json record_of(const Json& seen, std::string_view id = "A-01") {
  return {{"format", "boxproof-asbuilt/1"}, {"boxes", {{{"id", id}, {"seen", seen}}}}};
}
std::unique_ptr<Judged> judge_seen(const Json& seen, std::string_view edition = {}) {
  return judge(sound_design(), edition, record_of(seen));
}

bool has(std::string_view text, std::string_view part) {
  CAPTURE(std::string(text), std::string(part));
  return text.find(part) != std::string_view::npos;
}

}  // namespace

TEST_CASE("every condition word is a finding with its severity, disposition, place and consequence") {
  std::set<std::string_view> listed;
  for (const Word& w : words) {
    CAPTURE(std::string(w.what));
    listed.insert(w.what);
    const auto judged = judge_seen({{{"what", w.what}, {"where", "third row, left"}}});
    REQUIRE(judged->findings().size() == 1);
    const Finding& f = judged->findings().front();
    CHECK(f.rule->id == "condition/" + std::string(w.what));
    CHECK(severity_name(&f) == w.severity);
    CHECK(f.rule->severity == f.severity);
    CHECK(f.disposition == w.disposition);
    CHECK(judged->judgement.boxes[0].disposition == w.disposition);
    CHECK(f.part == "third row, left");
    CHECK(has(f.message, " A-01 (third row, left): "));
    CHECK(has(f.message, w.comes));
    CHECK(f.message.ends_with("."));
    CHECK_FALSE(has(f.message, "maker"));  // nothing of that where the origin is not said
    CHECK(f.ask.empty());
    CHECK(f.basis == Basis::as_built);
    CHECK(f.place.file == "record.json");
    CHECK(f.place.pointer == "/boxes/0/seen/0");
    std::string found(w.what);
    for (char& c : found)
      if (c == '-') c = ' ';
    CHECK(std::get<std::string>(f.found) == found);
  }
  for (const std::string_view word : condition_words) CHECK(listed.contains(word));
}

TEST_CASE("where nobody says the place it is inside, or the box for what is on it or under it") {
  const std::set<std::string_view> outside = {"standing-water", "loose-mounting",  "gasket-damaged",
                                              "latch-open",     "label-illegible", "label-missing"};
  for (const Word& w : words) {
    CAPTURE(std::string(w.what));
    const auto judged = judge_seen({{{"what", w.what}}, {{"what", w.what}}});
    const std::string part = outside.contains(w.what) ? "box" : "inside";
    const std::string rule = "condition/" + std::string(w.what);
    CHECK(judged->find(rule, part) != nullptr);
    CHECK(judged->find(rule, part + " (2)") != nullptr);
  }
}

TEST_CASE("every condition is found in every edition") {
  Json seen = Json::array();
  for (const Word& w : words) seen.push_back({{"what", w.what}});
  for (const std::string_view edition : edition_names) {
    const auto judged = judge_seen(seen, edition);
    std::set<std::string_view> found;
    for (const Finding& f : judged->findings())
      if (f.disposition) found.insert(f.rule->id);
    CAPTURE(std::string(edition));
    CHECK(found.size() == words.size());
  }
}

TEST_CASE("a box in which nothing was seen has no finding and no disposition") {
  for (const Json& seen : {Json::array(), Json()}) {
    Json record = record_of(seen);
    if (seen.is_null()) record["boxes"][0].erase("seen");
    record["boxes"][0]["enclosure"]["listed"] = true;  // somebody was there
    const auto judged = judge(sound_design(), {}, record);
    CHECK(judged->summary() == std::vector<std::string>{});
    CHECK_FALSE(judged->judgement.boxes[0].disposition.has_value());
  }
}

TEST_CASE("photo and note stand in the message, if there are any") {
  const auto message = [](const Json& more) {
    Json seen = {{"what", "sharp-bend"}};
    seen.merge_patch(more);
    return judge_seen(Json::array({seen}))->findings().front().message;
  };
  const std::string plain =
      "A conductor is bent too sharply in A-01: insulation cracks on the outside of the bend, and the bend "
      "pulls at the terminal until it is loose";
  CHECK(message(Json::object()) == plain + ".");
  CHECK(message({{"photo", "IMG-12"}}) == plain + " (photo IMG-12).");
  CHECK(message({{"note", "top lug"}}) == plain + " (note: top lug).");
  CHECK(message({{"photo", "IMG-12"}, {"note", "top lug"}}) == plain + " (photo IMG-12; note: top lug).");
}

TEST_CASE("several of one word keep apart by place, and by number at one place") {
  const auto judged =
      judge_seen({{{"what", "loose-terminal"}, {"where", "lug"}},
                  {{"what", "loose-terminal"}},
                  {{"what", "burned-terminal"}, {"where", "lug"}},  // another word counts anew
                  {{"what", "loose-terminal"}, {"where", "lug"}},
                  {{"what", "loose-terminal"}, {"where", "lug (2)"}},
                  {{"what", "loose-terminal"}, {"where", "inside"}},
                  {{"what", "loose-terminal"}, {"where", "lug"}}});
  CHECK(judged->summary() ==
        std::vector<std::string>{
            "condition/burned-terminal hazard lug", "condition/loose-terminal hazard lug",
            "condition/loose-terminal hazard inside", "condition/loose-terminal hazard lug (2)",
            "condition/loose-terminal hazard lug (2) (2)", "condition/loose-terminal hazard inside (2)",
            "condition/loose-terminal hazard lug (3)"});
  std::set<std::string> prints;
  for (const Finding& f : judged->findings()) prints.insert(fingerprint(f));
  CHECK(prints.size() == 7);
  CHECK(judged->find("condition/loose-terminal", "lug (3)")->place.pointer == "/boxes/0/seen/6");
}

TEST_CASE("what was seen in a box that is not on the plan is told too") {
  const auto judged = judge(sound_design(), {}, record_of({{{"what", "burned-bus"}}}, "A-O1"));
  const Finding* f = judged->find("condition/burned-bus");
  REQUIRE(f != nullptr);
  CHECK(f->box_id == "A-O1");
  CHECK_FALSE(f->box.has_value());
  CHECK(has(f->message, "A bus is burned in A-O1: "));
  CHECK(f->place.pointer == "/boxes/0/seen/0");
  CHECK(judged->judgement.verdict == Verdict::stop);
  CHECK(judged->find("tally/not-on-plan") != nullptr);
  const auto elsewhere =
      judge(sound_design(), {}, record_of({{{"what", "burned-bus"}}}, "A-O1"), {{"A-01"}, false});
  CHECK(elsewhere->find("condition/burned-bus") == nullptr);  // only A-01 is asked for
}
