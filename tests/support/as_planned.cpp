#include "tests/support/as_planned.hpp"

#include <algorithm>
#include <functional>

namespace boxproof::test {
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
  Json enclosure = Json::object();
  if (box.enclosure) {
    if (!box.enclosure->type.empty()) enclosure["type"] = box.enclosure->type;
    put(enclosure, "listed", box.enclosure->listed);
  }
  if (box.mounting) {
    put(enclosure, "air_gap_mm", box.mounting->air_gap);
    if (box.mounting->cover) enclosure["cover"] = cover_names[static_cast<std::size_t>(*box.mounting->cover)];
  }
  out["enclosure"] = enclosure;
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

Json labels_as_planned(const std::vector<Label>& labels) {
  Json out = Json::array();
  for (const Label& label : labels) {
    Json& found = out.emplace_back(Json{{"kind", label.kind}, {"legible", true}});
    for (const auto& [key, value] : label.values) found["values"][key] = value;
    for (const auto& [key, text] : label.texts) found["values"][key] = text;
  }
  return out;
}

Json box_as_planned(const Judged& plan, const Combiner& box, Posted posted) {
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
  if (posted == Posted::as_listed) {
    out["posted"] = {{"id", box.id}};
    if (box.labels) out["labels"] = labels_as_planned(*box.labels);
    return out;
  }
  out["posted"] = {{"id", box.id}, {"strings", facts.strings}, {"max_a", facts.output_max.value()}};
  if (facts.max_voltage) out["posted"]["max_v"] = facts.max_voltage->value();
  if (std::adjacent_find(series.begin(), series.end(), std::not_equal_to<>()) == series.end())
    out["posted"]["series"] = series.front();
  if (box.fuse && box.fuse->rating) out["posted"]["fuse_a"] = box.fuse->rating->value();
  return out;
}

}  // namespace

Json record_as_planned(const Judged& plan, Posted posted) {
  Json boxes = Json::array();
  for (const Combiner& box : plan.design.design.combiners) boxes.push_back(box_as_planned(plan, box, posted));
  return {{"format", "boxproof-asbuilt/1"}, {"boxes", boxes}};
}

}  // namespace boxproof::test
