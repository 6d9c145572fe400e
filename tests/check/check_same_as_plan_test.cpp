// A record that says what the plan says, for every box of the examples; and the plan's findings under any
// record.
#include <algorithm>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

template <class T>
void put(Json& out, const char* key, const std::optional<T>& value) {
  if (!value) return;
  if constexpr (requires { value->value(); })
    out[key] = value->value();
  else
    out[key] = *value;
}

Json wire_as_planned(const Conductor& c) {
  Json out = Json::object();
  if (c.size) out["size"] = c.size->name();
  if (c.material) out["material"] = material_names[static_cast<std::size_t>(*c.material)];
  if (c.stranding) out["stranding"] = stranding_names[static_cast<std::size_t>(*c.stranding)];
  if (!c.insulation.empty()) out["insulation"] = c.insulation;
  return out;
}

Json fuse_as_planned(const Fuse& f) {
  Json out = Json::object();
  put(out, "a", f.rating);
  put(out, "v", f.voltage);
  put(out, "dc", f.dc);
  put(out, "pv_listed", f.pv_listed);
  if (f.poles) out["poles"] = poles_names[static_cast<std::size_t>(*f.poles)];
  return out;
}

Json parts_as_planned(const Combiner& box) {
  Json out = Json::object();
  if (box.fuse) out["fuse"] = fuse_as_planned(*box.fuse);
  if (box.enclosure) {
    out["enclosure"]["type"] = box.enclosure->type;
    put(out["enclosure"], "listed", box.enclosure->listed);
  }
  if (box.mounting) {
    put(out["enclosure"], "air_gap_mm", box.mounting->air_gap);
    if (box.mounting->cover)
      out["enclosure"]["cover"] = cover_names[static_cast<std::size_t>(*box.mounting->cover)];
  }
  out["disconnect"]["present"] = box.disconnect != nullptr;
  if (box.disconnect) {
    put(out["disconnect"], "rated_v", box.disconnect->rated_voltage);
    put(out["disconnect"], "rated_a", box.disconnect->rated_current);
    put(out["disconnect"], "load_break", box.disconnect->load_break);
    put(out["disconnect"], "distance_m", box.disconnect->distance);
  }
  if (box.output && box.output->run && box.output->run->conductor != nullptr)
    out["output"] = wire_as_planned(*box.output->run->conductor);
  const auto& first = box.circuits.front().run;
  const bool one_wire = std::all_of(box.circuits.begin(), box.circuits.end(), [&](const Circuit& c) {
    return c.run && first && c.run->conductor != nullptr && c.run->conductor == first->conductor;
  });
  if (one_wire) out["source"] = wire_as_planned(*first->conductor);
  if (box.egc && box.egc->size) out["egc"]["size"] = box.egc->size->name();
  if (box.egc && box.egc->material)
    out["egc"]["material"] = material_names[static_cast<std::size_t>(*box.egc->material)];
  return out;
}

// What somebody writes down who finds everything as planned, with a label as the program would have it.
Json box_as_planned(const Judged& plan, const Combiner& box) {
  BoxFacts facts;
  box_facts(plan.design.design, box, plan.edition, facts);
  Json out = parts_as_planned(box);
  out["id"] = box.id;
  std::vector<std::uint32_t> series;
  for (const Circuit& c : box.circuits) series.insert(series.end(), c.strings, c.series);
  out["count"] = {{"positive", facts.strings},
                  {"negative", facts.strings},
                  {"series", series},
                  {"modules", facts.modules}};
  const bool both = box.fuse && box.fuse->poles == Poles::both;
  out["count"]["fuses"] = box.fuse ? facts.inputs * (both ? 2 : 1) : 0;
  out["posted"] = {{"id", box.id}, {"strings", facts.strings}, {"max_a", facts.output_max.value()}};
  if (facts.max_voltage) out["posted"]["max_v"] = facts.max_voltage->value();
  if (std::adjacent_find(series.begin(), series.end(), std::not_equal_to<>()) == series.end())
    out["posted"]["series"] = series.front();
  if (box.fuse && box.fuse->rating) out["posted"]["fuse_a"] = box.fuse->rating->value();
  return out;
}

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
    Json boxes = Json::array();
    for (const Combiner& box : plan->design.design.combiners) boxes.push_back(box_as_planned(*plan, box));
    REQUIRE(boxes.size() == 50);
    const Document text{"record.json", Json{{"format", "boxproof-asbuilt/1"}, {"boxes", boxes}}.dump(1)};
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
