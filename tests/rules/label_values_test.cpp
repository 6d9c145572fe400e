// What labels of the plan state against what is computed. By hand for the sound design: 596.7 V and 108 A at
// most, 86.4 A short-circuit (without the 1.25), 450 V and 81 A operating. Too little is a correction; over
// 10 % above it, by our judgement, the label describes another circuit: advice.
#include <cmath>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/labels.hpp"
#include "tests/support/limit_case.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::string_view values = "label/values";
using Words = std::vector<std::string>;

// The sound design where a label of this kind, in place of the plan's, states this.
Json stating(const std::string& kind, const Json& stated) {
  Json labels = labels_without(sound_design()["combiners"][0]["labels"], {kind});
  const Json label = {{"kind", kind}, {"values", stated}};
  labels.insert(labels.begin(), label);
  return with_labels(sound_design(), labels);
}
// The voltage label with one value changed.
Json stating_one(const std::string& key, double value) {
  Json all = {{"max_v", 597}, {"max_a", 108}, {"isc_a", 86.4}, {"vmp_v", 450}, {"imp_a", 81}};
  all[key] = value;
  return stating("max-voltage", all);
}

struct Value {
  std::string key;
  double least, most;  // that nothing is said about
  std::string unit;
};
const std::vector<Value> five{{"max_v", 596.7, 596.7 * 1.1, "V"},
                              {"max_a", 108, 108 * 1.1, "A"},
                              {"isc_a", 86.4, 108 * 1.1, "A"},  // with or without the 1.25
                              {"vmp_v", 449.5, 495, "V"},       // printed as a whole number
                              {"imp_a", 80.5, 89.1, "A"}};

}  // namespace

TEST_CASE("each value of a label, from too little to another circuit's") {
  constexpr double inside = 5e-10, outside = 2e-9;  // of the slack of 1e-9
  struct Row {
    double factor;
    bool on_least;
    const char* severity;
  };
  for (const Value& v : five)
    for (const Row& r :
         {Row{0.9, true, "correction"}, Row{1 - outside, true, "correction"}, Row{1 - inside, true, "none"},
          Row{1, true, "none"}, Row{1.01, true, "none"}, Row{0.99, false, "none"}, Row{1, false, "none"},
          Row{1 + inside, false, "none"}, Row{1 + outside, false, "advice"}, Row{2, false, "advice"}}) {
      const double stated = (r.on_least ? v.least : v.most) * r.factor;
      CAPTURE(v.key, stated);
      CHECK(severity_of(stating_one(v.key, stated), values) == r.severity);
    }
}

TEST_CASE("what a value that is too low says, in every edition") {
  struct Row {
    std::string key;
    double stated, computed;
    std::string message;
  };
  const std::string lead = "The max-voltage label of A-01 states ";
  for (const Row& r :
       std::vector<Row>{{"max_v", 596, 596.7, "596 V as the highest voltage; 596.7 V is computed."},
                        {"max_a", 100, 108, "100 A as the highest current; 108 A is computed."},
                        {"isc_a", 80, 86.4, "80 A as the short-circuit current; 86.4 A is computed."},
                        {"vmp_v", 440, 450, "440 V as the operating voltage; 450 V is computed."},
                        {"imp_a", 72, 81, "72 A as the operating current; 81 A is computed."}})
    for (const std::string_view edition : edition_names) {
      CAPTURE(r.key, edition);
      const auto judged = judge(stating_one(r.key, r.stated), edition);
      const Finding* f = judged->find(values);
      check_numbers(f, r.stated, r.computed, r.key.back() == 'v' ? "V" : "A",
                    edition == "2023" ? "690.7(D)" : "690.53");
      CHECK(f->severity == Severity::correction);
      CHECK(f->part == "label max-voltage " + r.key);
      CHECK(f->message == lead + r.message);
      CHECK(f->place.pointer == "/combiners/0/labels/0/values/" + r.key);
      CHECK(f->place.file == "design.json");
      CHECK(judged->judgement.verdict == Verdict::correct);
    }
}

TEST_CASE("what a value of another circuit says") {
  struct Row {
    std::string key;
    double stated, limit;
    std::string above, most;
  };
  for (const Row& r : std::vector<Row>{{"max_v", 700, 656.37, "596.7 V", "656.4 V"},
                                       {"max_a", 216, 118.8, "108 A", "118.8 A"},
                                       {"isc_a", 216, 118.8, "108 A", "118.8 A"},
                                       {"vmp_v", 600, 495, "450 V", "495 V"},
                                       {"imp_a", 162, 89.1, "81 A", "89.1 A"}}) {
    CAPTURE(r.key);
    const auto judged = judge(stating_one(r.key, r.stated));
    const Finding* f = judged->find(values);
    check_numbers(f, r.stated, r.limit, r.key.back() == 'v' ? "V" : "A", "690.53");
    CHECK(f->severity == Severity::advice);
    CHECK(says(*f, "more than 10 % above the " + r.above +
                       (r.key == "isc_a" ? " of the highest current" : " computed") + " (at most " + r.most +
                       "): it describes another circuit."));
    CHECK(judged->judgement.verdict == Verdict::accept);
  }
}

TEST_CASE("two numbers that would print alike are told apart") {
  const auto judged = judge(stating_one("max_v", 596.6999));
  REQUIRE(judged->find(values) != nullptr);
  CHECK(says(*judged->find(values), "states 596.6999 V as the highest voltage; 596.7 V is computed"));
}

TEST_CASE("the arithmetic of each value is shown, down to the value") {
  CheckOptions options;
  options.show_work = true;
  for (const auto& [key, stated, result, symbol, numbers] :
       {std::tuple("max_v", 500.0, 596.7, "Vmax", "18 · 30 · (1 + (−0.3) / 100 · ((−10) − 25))"),
        std::tuple("max_a", 100.0, 108.0, "Iout", "9 · 12"),
        std::tuple("isc_a", 80.0, 86.4, "ΣIsc", "108 / 1.25"),
        std::tuple("vmp_v", 400.0, 450.0, "Vmp", "18 · 25"),
        std::tuple("imp_a", 70.0, 81.0, "ΣImp", "9 · 9")}) {
    CAPTURE(key);
    const auto judged = judge(stating_one(key, stated), {}, nullptr, options);
    const Finding* f = judged->find(values);
    REQUIRE(f != nullptr);
    REQUIRE_FALSE(f->working.empty());
    CHECK(close(f->working.back().value, result));
    CHECK(f->working.back().symbol == symbol);
    CHECK(f->working.back().numbers == numbers);
    CHECK(f->working.back().unit == f->unit);
  }
}

TEST_CASE("every label of the box is looked at, the second of a kind under a name of its own") {
  Json labels = sound_design()["combiners"][0]["labels"];
  labels.push_back({{"kind", "max-voltage"}, {"values", {{"max_v", 500}}}});
  labels.push_back({{"kind", "disconnect"}, {"values", {{"max_a", 90}}}});
  const auto judged = judge(with_labels(sound_design(), labels));
  CHECK(told_by(*judged, values) ==
        Words{"correction label max-voltage (2) max_v", "correction label disconnect (2) max_a"});
  CHECK(judged->find(values, "label max-voltage (2) max_v")->place.pointer ==
        "/combiners/0/labels/8/values/max_v");
}

TEST_CASE("strings, modules in series and fuses must be those of the box") {
  const Json right = {{"strings", 9}, {"series", 18}, {"fuse_a", 15}};
  CHECK(judge(stating("box-identification", right))->summary().empty());
  struct Row {
    std::string key;
    double stated, there;
    std::string unit, says;
  };
  for (const Row& r : std::vector<Row>{{"strings", 8, 9, "", "states 8 strings; the box has 9."},
                                       {"strings", 10, 9, "", "states 10 strings; the box has 9."},
                                       {"series", 19, 18, "", "states 19 modules in series; the box has 18."},
                                       {"fuse_a", 20, 15, "A", "states 20 A fuses; the box has 15 A."}}) {
    CAPTURE(r.key);
    Json wrong = right;
    wrong[r.key] = r.stated;
    const auto judged = judge(stating("box-identification", wrong));
    const Finding* f = judged->find(values);
    check_numbers(f, r.stated, r.there, r.unit, "690.31(B)");
    CHECK(f->severity == Severity::correction);
    CHECK(f->part == "label box-identification " + r.key);
    CHECK(f->place.pointer == "/combiners/0/labels/0/values/" + r.key);
    CHECK(says(*f, "The box-identification label of A-01 " + r.says));
  }
}

TEST_CASE("of strings of two lengths a label may state either") {
  Json design = stating("box-identification", {{"series", 16}});
  Json second = design["combiners"][0]["circuits"][0];
  second.merge_patch({{"id", "2"}, {"series", 16}, {"strings", 1}});
  design["combiners"][0]["circuits"].push_back(second);
  const std::string part = "label box-identification series";
  for (const int series : {16, 18})
    CHECK(severity_of(put(design, "/combiners/0/labels/0/values/series", series), values, {}, part) ==
          "none");
  CHECK(severity_of(put(design, "/combiners/0/labels/0/values/series", 17), values, {}, part) ==
        "correction");
}

TEST_CASE("fuses on the label of a box that has none") {
  Json design = stating("box-identification", {{"fuse_a", 15}});
  design["combiners"][0]["circuits"][0]["strings"] = 1;
  design["combiners"][0].erase("fuse");
  CHECK(severity_of(design, values, {}, "label box-identification fuse_a") == "correction");
}

TEST_CASE("a value that is not known here is a query") {
  const auto judged = judge(stating("disconnect", {{"max_w", 5}, {"max_v", 597}}));
  const Finding* f = judged->find(values);
  REQUIRE(f != nullptr);
  CHECK(f->severity == Severity::query);
  CHECK(f->part == "label disconnect max_w");
  CHECK(f->place.pointer == "/combiners/0/labels/0/values/max_w");
  CHECK(std::get<std::string>(f->found) == "max_w");
  CHECK(std::get<std::string>(f->required) ==
        "id, max_v, max_a, isc_a, vmp_v, imp_a, strings, series or fuse_a");
  CHECK(says(*f, "states \"max_w\", which is not known here, so nothing is held against it."));
}

TEST_CASE("what cannot be computed is not judged, and the module's value asked for") {
  const auto asks = [](const Json& design, std::string_view part) {
    const auto judged = judge(design);
    for (const Finding& f : judged->findings())
      if (f.part == part && f.message.find(values) != std::string::npos) return true;
    return false;
  };
  const Json bare = with_labels(sound_design(), labels_without(all_labels(), {"dc-power-source"}));
  for (const char* key : {"vmp_v", "imp_a"}) {
    const std::string part = std::string("modules/M/") + key;
    CHECK(asks(without(sound_design(), "/" + part), part));
    CHECK_FALSE(asks(sound_design(), part));
    CHECK_FALSE(asks(without(bare, "/" + part), part));  // no label states it
  }
  // The highest voltage: voltage/no-factor speaks for all.
  const auto judged = judge(without(sound_design(), "/site/low_c"));
  CHECK(judged->find(values) == nullptr);
  CHECK(judged->find("voltage/no-factor") != nullptr);
}

TEST_CASE("an amended share is applied and named") {
  const Json design = put(stating_one("max_v", 635), "/code/amendments", {{"labels", {{"over_pct", 5}}}});
  const auto judged = judge(design);  // 596.7 · 1.05 = 626.5 V
  const Finding* f = judged->find(values);
  REQUIRE(f != nullptr);
  CHECK(f->severity == Severity::advice);
  CHECK(f->amended == Words{"labels.over_pct"});
  CHECK(says(*f, "more than 5 % above the 596.7 V"));
  CHECK(says(*f, "Amended locally: labels.over_pct (5 in place of 10)."));
  CHECK(severity_of(stating_one("max_v", 635), values) == "none");
}
