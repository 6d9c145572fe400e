// A record that says what the plan says, for every box of the examples; and the plan's findings under any
// record.
#include <algorithm>

#include "boxproof/rule.hpp"
#include "tests/support/as_planned.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

// All that is said of the plan, standing or gone; without what a finding adds of the box as found.
std::vector<std::string> everything(const Judgement& j) {
  std::vector<std::string> out;
  for (const std::vector<Finding>* findings : {&j.findings, &j.gone})
    for (const Finding& f : *findings)
      out.push_back(fingerprint(f) + " " + f.message.substr(0, f.message.find(" As found: ")) + " " +
                    f.place.pointer + " " + f.place.file);
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace

TEST_CASE("a record equal to the plan adds nothing, on all 50 boxes, clean or faulty") {
  for (const std::string_view name : {"saltmarsh.json", "saltmarsh-faults.json"}) {
    CAPTURE(std::string(name));
    const auto plan = judge_example(name);
    const Json as_planned = record_as_planned(*plan, Posted::computed);
    REQUIRE(as_planned["boxes"].size() == 50);
    const Document text{"record.json", as_planned.dump(1)};
    const RecordFile record = read_field_record(text);
    const Judgement built = check(plan->design, plan->edition, &record, {});
    CHECK(everything(built) == everything(plan->judgement));
    // The label that is posted states what is computed, also where the plan's states too little.
    for (const Finding& f : built.gone) CHECK(f.rule->id == "label/values");
    CHECK(built.verdict == plan->judgement.verdict);
    CHECK(built.totals.strings == plan->judgement.totals.strings);
    CHECK(built.totals.modules == plan->judgement.totals.modules);
    for (std::size_t i = 0; i < 50; ++i) CHECK(built.boxes[i].verdict == plan->judgement.boxes[i].verdict);
  }
}

TEST_CASE("under a record the plan's own findings stay, and without it nothing of it is left") {
  for (const std::string_view name : {"saltmarsh.json", "saltmarsh-faults.json"}) {
    const auto built = judge_example(name, "saltmarsh-visit.json");
    const auto plan = judge_example(name);
    Judgement planned;
    for (const Finding& f : built->findings())
      if (f.basis == Basis::design) planned.findings.push_back(f);
    planned.gone = built->judgement.gone;
    CHECK(everything(planned) == everything(plan->judgement));
    CHECK(built->findings().size() > plan->findings().size());
    CHECK(everything(check(built->design, built->edition, nullptr, {})) == everything(plan->judgement));
  }
}
