// Every finding of random sites, judged as planned and with a random field record (seeds 1 to 40): what it
// must have, and that the JSON report holds the same.
#include <fmt/format.h>

#include <set>

#include "boxproof/rule.hpp"
#include "tests/support/as_planned.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/example.hpp"
#include "tests/support/judge_text.hpp"
#include "tests/support/random_design.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::uint32_t seeds = 40;

// Calls `look` with the judgement of each site as planned, then with a random record.
template <class Look>
void each_judgement(Look&& look) {
  for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
    RandomSite random(seed);
    const Json design = random.design();
    const Edition& edition = edition_of(design["code"]["edition"].get<std::string>());
    const auto plan = judge_text(design.dump(1), edition);
    CAPTURE(seed, edition.name);
    look(design, *plan);
    const Json record = random.visit(record_as_planned(*plan, Posted::as_listed));
    look(design, *judge_text(design.dump(1), edition, record.dump(1)));
  }
}

// The value that a query's part names, in the design with its types resolved. Parts are the dotted names of
// messages: below the design, below the box, or "circuits ID/..." below a circuit of the box.
bool is_stated(const Json& design, const Finding& f) {
  Json::json_pointer at("/" + f.part);
  if (design.contains(at)) return true;
  if (!f.box) return false;
  const Json& box = design["combiners"][*f.box];
  if (box.contains(at)) return true;
  for (const Json& circuit : box["circuits"]) {
    const std::string start = "circuits " + circuit["id"].get<std::string>();
    if (f.part.starts_with(start) && circuit.contains(Json::json_pointer(f.part.substr(start.size()))))
      return true;
  }
  return false;
}

}  // namespace

TEST_CASE("every finding has rule, message, section, and a place with file and line", "[slow]") {
  std::set<std::string_view> spoke;
  each_judgement([&](const Json&, const Judged& judged) {
    for (const std::vector<Finding>* findings : {&judged.judgement.findings, &judged.judgement.gone})
      for (const Finding& f : *findings) {
        REQUIRE(f.rule != nullptr);
        spoke.insert(f.rule->id);
        CAPTURE(std::string(f.rule->id), f.part, f.message, f.place.pointer);
        CHECK(judged.edition.rules.contains(f.rule->id));
        CHECK_FALSE(f.part.empty());
        CHECK_FALSE(f.section.empty());
        CHECK((f.message.ends_with('.') || f.message.ends_with('?')));
        CHECK(f.message.find("  ") == std::string::npos);
        for (const char* word : {"nan", "inf ", "{}", "e+", " ,", " .", ",,", "()"}) {
          CAPTURE(word);
          CHECK(f.message.find(word) == std::string::npos);
        }
        CHECK(f.place.file == (f.in_record ? "record.json" : "design.json"));
        CHECK(f.place.line > 0);
        CHECK(f.place.column > 0);
      }
  });
  CHECK(spoke.size() > 75);  // the sites are random enough for nearly every rule
}

TEST_CASE("every fingerprint of a judged plan is unique", "[slow]") {
  each_judgement([&](const Json&, const Judged& judged) {
    if (judged.record) return;
    std::set<std::string> seen;
    for (const Finding& f : judged.findings()) {
      CAPTURE(f.box_id, std::string(f.rule->id), f.part);
      CHECK(seen.insert(fingerprint(f)).second);
    }
  });
}

TEST_CASE("every fingerprint of a judged visit is unique", "[slow]") {
  each_judgement([&](const Json&, const Judged& judged) {
    if (!judged.record) return;
    std::set<std::string> seen;
    for (const Finding& f : judged.findings()) {
      CAPTURE(f.box_id, std::string(f.rule->id), f.part, f.message);
      CHECK(seen.insert(fingerprint(f)).second);
    }
  });
}

TEST_CASE("every query for a missing value names one that is really absent", "[slow]") {
  std::size_t queries = 0;
  each_judgement([&](const Json& design, const Judged& judged) {
    if (judged.record) return;
    const Json resolved = with_types_resolved(design);
    for (const Finding& f : judged.findings()) {
      if (!f.lacking || f.found != Amount("not stated")) continue;
      CAPTURE(f.box_id, f.part, f.message);
      CHECK_FALSE(is_stated(resolved, f));
      ++queries;
    }
  });
  CHECK(queries > 500);
}

TEST_CASE("the JSON report of any site is JSON and has the same findings", "[slow]") {
  each_judgement([&](const Json&, const Judged& judged) {
    {
      const Json report = Json::parse(json_report(judged));
      REQUIRE(report["findings"].size() == judged.findings().size());
      for (std::size_t i = 0; i < judged.findings().size(); ++i) {
        const Finding& f = judged.findings()[i];
        const Json& r = report["findings"][i];
        CHECK(r["rule"] == f.rule->id);
        CHECK(r["severity"] == severity_names[static_cast<std::size_t>(f.severity)]);
        CHECK(r["basis"] == basis_names[static_cast<std::size_t>(f.basis)]);
        CHECK(r["message"] == f.message);
        CHECK(r["section"] == f.section);
        CHECK(r["fingerprint"] == fingerprint(f));
        CHECK(r["line"] == f.place.line);
      }
      CHECK(report["boxes"].size() == judged.judgement.boxes.size());
    }
  });
}
