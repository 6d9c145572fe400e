// What must hold for any site: boxes do not see each other, many are judged as one is, cold never lowers a
// voltage.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <random>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

// Everything said of a box, in order.
using ByBox = std::map<std::string, std::vector<std::string>>;
ByBox by_box(const Judgement& j) {
  ByBox out;
  for (const Finding& f : j.findings)
    if (!f.box_id.empty())
      out[f.box_id].push_back(fmt::format("{} {} {} {}", severity_names[static_cast<std::size_t>(f.severity)],
                                          f.rule->id, f.part, f.message));
  return out;
}

// The faulty example's boxes over and over, as B-0000, B-0001 and so on.
Json many(std::size_t count) {
  Json design = example_json("saltmarsh-faults.json");
  design["site"].erase("permit");
  const Json boxes = std::move(design["combiners"]);
  design["combiners"] = Json::array();
  for (std::size_t i = 0; i < count; ++i) {
    Json box = boxes[i % boxes.size()];
    box["id"] = fmt::format("B-{:04}", i);
    if (!box.contains("disconnect") || box["disconnect"].is_object())
      box["disconnect"]["distance_m"] = 5;  // so that each box has something to tell
    design["combiners"].push_back(std::move(box));
  }
  return design;
}

// A module whose voltage rises in the cold, by percent, by volts or by the table.
Module random_module(std::mt19937& random) {
  const auto between = [&](double a, double b) {
    return std::uniform_real_distribution<double>(a, b)(random);
  };
  Module m;
  m.voc = Volts(between(20, 120));
  m.isc = Amps(between(1, 20));
  m.cell = between(0, 1) < 0.5 ? Cell::mono_si : Cell::poly_si;
  const double kind = between(0, 3);
  if (kind < 1) m.voc_coefficient = PercentPerKelvin(-between(0.01, 0.5));
  if (kind > 2) m.voc_coefficient_absolute = VoltsPerKelvin(-between(0.001, 0.3));
  return m;
}

}  // namespace

TEST_CASE("the order of the boxes changes nothing that is said of a box") {
  Json design = example_json("saltmarsh-faults.json");
  const ByBox before = by_box(judge(design)->judgement);
  CHECK(before.size() > 5);
  std::mt19937 random(20270318);
  for (int round = 0; round < 5; ++round) {
    std::vector<Json> boxes = design["combiners"];
    std::shuffle(boxes.begin(), boxes.end(), random);
    design["combiners"] = boxes;
    CHECK(by_box(judge(design)->judgement) == before);
  }
}

TEST_CASE("more cold never lowers the voltage of a string, in any edition") {
  std::mt19937 random(690);
  for (int i = 0; i < 300; ++i) {
    const Module m = random_module(random);
    const auto series = static_cast<unsigned>(std::uniform_int_distribution<int>(1, 40)(random));
    const Edition& edition = edition_of(edition_names[static_cast<std::size_t>(i) % edition_names.size()]);
    double warmer = 0;
    for (double low = 30; low >= -40; low -= 0.5) {
      const StringVoltage v = string_voltage(m, series, Celsius(low), edition);
      CAPTURE(edition.name, low, m.voc.value());
      REQUIRE(v.max.has_value());
      REQUIRE(v.max->value() >= warmer);
      REQUIRE(v.max->value() >= series * m.voc.value() * (1 - 1e-12));
      warmer = v.max->value();
    }
  }
}

TEST_CASE("more cold never lowers the voltage of a box, nor takes a voltage finding away") {
  Json design = example_json("saltmarsh-faults.json");
  std::vector<double> warmer(50, 0);
  std::size_t findings = 0;
  for (const double low : {30.0, 25.0, 10.0, 0.0, -9.0, -15.0, -25.0, -40.0}) {
    design["site"]["low_c"] = low;
    const auto judged = judge(design);
    BoxFacts facts;
    FoundBox own;
    for (std::size_t i = 0; i < 50; ++i) {
      facts_of(judged->design, judged->edition, nullptr, judged->judgement.boxes[i], own, facts);
      REQUIRE(facts.max_voltage.has_value());
      CHECK(facts.max_voltage->value() >= warmer[i]);
      warmer[i] = facts.max_voltage->value();
    }
    const auto over =
        std::count_if(judged->findings().begin(), judged->findings().end(), [](const Finding& f) {
          return f.severity == Severity::hazard && f.rule->id.starts_with("voltage/");
        });
    CHECK(static_cast<std::size_t>(over) >= findings);
    findings = static_cast<std::size_t>(over);
  }
  CHECK(findings > 50);
}

// Above 4,000 boxes the work is shared between threads.
TEST_CASE("thousands of boxes are judged as each of them alone", "[slow]") {
  const Json design = many(4200);
  const auto whole = judge(design);
  REQUIRE(whole->judgement.boxes.size() == 4200);
  const auto said = [](const Judgement& j) {
    std::vector<std::string> out;
    for (const Finding& f : j.findings)
      if (f.box) out.push_back(fmt::format("{} {} {} {}", f.box_id, f.rule->id, f.part, f.message));
    return out;
  };
  // A hundred at a time stay on one thread.
  std::vector<std::string> in_pieces;
  for (int hundred = 0; hundred < 42; ++hundred) {
    const Judgement piece =
        check(whole->design, whole->edition, nullptr, {{fmt::format("B-{:02}??", hundred)}, false});
    REQUIRE(piece.boxes.size() == 100);
    for (std::size_t i = 0; i < 100; ++i)
      CHECK(piece.boxes[i].verdict ==
            whole->judgement.boxes[static_cast<std::size_t>(hundred) * 100 + i].verdict);
    const auto some = said(piece);
    in_pieces.insert(in_pieces.end(), some.begin(), some.end());
  }
  CHECK(in_pieces.size() >= 4200);
  CHECK(said(whole->judgement) == in_pieces);
  // One by one, across the place where the threads' shares meet.
  for (int i = 2090; i < 2110; ++i) {
    const Judgement one = check(whole->design, whole->edition, nullptr, {{fmt::format("B-{}", i)}, false});
    REQUIRE(one.boxes.size() == 1);
    ByBox all = by_box(whole->judgement);
    CHECK(by_box(one)[fmt::format("B-{}", i)] == all[fmt::format("B-{}", i)]);
  }
}
