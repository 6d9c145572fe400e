// Where in a field record the value stands that made a finding appear on the box as found.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <initializer_list>
#include <iterator>
#include <string_view>

#include "boxproof/rule.hpp"
#include "src/check/reconcile.hpp"

namespace boxproof {
namespace {

// A key of the record's box, and whether the record states it.
struct Key {
  bool stated;
  std::string_view pointer;
};

// What the record states of one box, by the keys that a finding can come from.
class Stated {
 public:
  explicit Stated(const VisitedBox& visited) : v_(visited) {}

  // The first of the keys that is stated; else the part itself (the nearest value there is found later).
  static std::string first(std::initializer_list<Key> keys, std::string_view otherwise) {
    const auto found = std::find_if(keys.begin(), keys.end(), [](const Key& key) { return key.stated; });
    return std::string(found == keys.end() ? otherwise : found->pointer);
  }

  Key count() const {
    const auto& positive = v_.count.positive;
    const auto& negative = v_.count.negative;
    const bool is_negative = negative && (!positive || *positive < *negative);
    return {positive || negative, is_negative ? "/count/negative" : "/count/positive"};
  }
  Key series() const { return {!v_.count.series.empty(), "/count/series"}; }
  Key fuses() const { return {v_.count.fuses.has_value(), "/count/fuses"}; }
  Key rating() const { return {v_.fuse.rating.has_value(), "/fuse/a"}; }

  std::string fuse(std::string_view key, const Finding& f) const {
    if (key == "/v") return first({{v_.fuse.voltage.has_value(), "/fuse/v"}, series(), fuses()}, "/fuse");
    if (key == "/dc") return first({{v_.fuse.dc.has_value(), "/fuse/dc"}, fuses()}, "/fuse");
    if (key == "/pv_listed")
      return first({{v_.fuse.pv_listed.has_value(), "/fuse/pv_listed"}, fuses()}, "/fuse");
    if (key == "/poles") return first({{v_.fuse.poles.has_value(), "/fuse/poles"}, fuses()}, "/fuse");
    if (key != "/a") return "/fuse";
    // An odd fuse that the finding is about stands before the common rating.
    const auto same = [&](const std::optional<Amps>& rating) {
      return rating && f.found == Amount(rating->value());
    };
    const auto odd = std::find_if(v_.mixed_fuses.begin(), v_.mixed_fuses.end(),
                                  [&](const OddFuse& o) { return same(o.rating); });
    if (odd != v_.mixed_fuses.end() && !same(v_.fuse.rating))
      return fmt::format("/mixed_fuses/{}/a", std::distance(v_.mixed_fuses.begin(), odd));
    return first({rating(), {!v_.mixed_fuses.empty(), "/mixed_fuses"}, count(), fuses()}, "/fuse");
  }

  std::string enclosure(std::string_view key) const {
    const FoundEnclosure& e = v_.enclosure;
    const Key type{!!e.type, "/enclosure/type"}, cover{!!e.cover, "/enclosure/cover"};
    if (key == "/enclosure/secured" || key == "/enclosure/gasket_seated") return std::string(key);
    if (key == "/enclosure/listed") return first({{!!e.listed, key}}, "/enclosure");
    if (key == "/enclosure/rated_a" || key == "/enclosure/inputs") return first({count()}, "/enclosure");
    if (key == "/enclosure/rated_v") return first({series()}, "/enclosure");
    if (key == "/mounting/air_gap_mm") return first({{!!e.air_gap, "/enclosure/air_gap_mm"}}, "/enclosure");
    if (key == "/mounting/cover") return first({cover, type}, "/enclosure");
    return first({type, cover}, "/enclosure");
  }

  std::string disconnect(std::string_view key) const {
    const FoundDisconnect& d = v_.disconnect;
    const Key present{!!d.present, "/disconnect/present"};
    if (key == "/rated_v")
      return first({{!!d.rated_voltage, "/disconnect/rated_v"}, series(), present}, "/disconnect");
    if (key == "/rated_a")
      return first({{!!d.rated_current, "/disconnect/rated_a"}, count(), present}, "/disconnect");
    if (key == "/load_break")
      return first({{!!d.load_break, "/disconnect/load_break"}, present, count()}, "/disconnect");
    if (key == "/distance_m" || key.empty())
      return first({{!!d.distance, "/disconnect/distance_m"}, present, count()}, "/disconnect");
    return first({present, count()}, "/disconnect");
  }

  std::string conductor(std::string_view rule, bool output) const {
    const FoundConductor& c = output ? v_.output : v_.source;
    const auto key = [&](bool stated, std::string_view of_output, std::string_view of_source) {
      return Key{stated, output ? of_output : of_source};
    };
    const Key size = key(!!c.size, "/output/size", "/source/size");
    const Key material = key(!!c.material, "/output/material", "/source/material");
    const Key stranding = key(!!c.stranding, "/output/stranding", "/source/stranding");
    const Key insulation = key(!!c.insulation, "/output/insulation", "/source/insulation");
    const Key lug{!!c.lug_for_fine_strand, "/output/lug_for_fine_strand"};
    const Key antioxidant{!!c.antioxidant, "/output/antioxidant"};
    const std::string_view part = output ? "/output" : "/source";
    if (rule == "conductor/insulation") return first({insulation}, part);
    if (rule == "conductor/fine-strand") return first({lug, stranding}, part);
    if (rule == "conductor/aluminum") return first({antioxidant, material, size}, part);
    if (rule.starts_with("voltage/")) return first({series(), insulation}, part);
    if (output) return first({size, material, insulation, stranding, count()}, part);
    return first({size, material, insulation, stranding, rating(), count(), series()}, part);
  }

  std::string grounding() const {
    return first({{!!v_.egc.size, "/egc/size"}, {!!v_.egc.material, "/egc/material"}, count()}, "/egc");
  }
  // The bond is not in the record: its size goes by the fuse ahead of it.
  std::string bond() const { return first({rating(), fuses(), count()}, ""); }

  // What the rule says is not there at all.
  std::string whole_box(std::string_view rule) const {
    const auto& present = v_.disconnect.present;
    if (rule.starts_with("disconnect/"))
      return first({{!!present, "/disconnect/present"}, count(), fuses()}, "");
    if (rule.starts_with("fuse/")) return first({fuses(), count()}, "");
    return {};
  }

  // A conductor as found that lacks a value: the one whose kind nobody knew before.
  std::string found_conductor() const {
    if (v_.output.insulation && !v_.source.insulation) return "/output/insulation";
    if (v_.source.insulation && !v_.output.insulation) return "/source/insulation";
    return {};
  }

 private:
  const VisitedBox& v_;
};

bool below(std::string_view pointer, std::string_view part) {
  return pointer.starts_with(part) && (pointer.size() == part.size() || pointer[part.size()] == '/');
}

std::string key_in_record(const Finding& f, const VisitedBox& visited, std::string_view own) {
  const Stated stated(visited);
  const std::string_view pointer = f.place.pointer, rule = f.rule->id;
  if (pointer.find(" as found/") != std::string_view::npos) return stated.found_conductor();
  if (!below(pointer, own)) return rule.starts_with("voltage/") ? stated.first({stated.series()}, "") : "";
  const std::string_view rest = pointer.substr(own.size());
  if (rest.empty()) return stated.whole_box(rule);
  if (rest == "/labels" && !visited.labels_listed)  // labels that something else found here calls for
    return stated.first({stated.count(), stated.series()}, "");
  if (rest.starts_with("/labels") || rest.starts_with("/posted")) return std::string(rest);
  const auto key_of = [&](std::string_view part) { return rest.substr(part.size()); };
  if (below(rest, "/fuse")) return stated.fuse(key_of("/fuse"), f);
  if (below(rest, "/enclosure") || below(rest, "/mounting")) return stated.enclosure(rest);
  if (below(rest, "/disconnect")) return stated.disconnect(key_of("/disconnect"));
  if (below(rest, "/output")) return stated.conductor(rule, true);
  if (below(rest, "/egc")) return stated.grounding();
  if (below(rest, "/bond") || rest.find("/bond") != std::string_view::npos) return stated.bond();
  if (!below(rest, "/circuits")) return {};
  if (rest.find("/run") != std::string_view::npos) return stated.conductor(rule, false);
  if (rest.ends_with("/series")) return stated.first({stated.series(), stated.count()}, "/count");
  return stated.first({stated.count(), stated.series()}, "/count");
}

// A pointer below the box as found, as one below the plan's: what it has of its own is not on the plan.
std::string below_plan(std::string_view rest, std::string_view rule, const Combiner& plan,
                       const Combiner& found) {
  const auto whole = rest.empty() ? rule.substr(0, rule.find('/')) : std::string_view();
  if (whole == "disconnect" || whole == "fuse") return fmt::format("/{}", whole);
  if (rest.empty() || rest.starts_with("/posted")) return {};
  for (const std::string_view list : {"/labels/", "/circuits/"}) {
    if (!rest.starts_with(list)) continue;
    std::size_t i = 0;
    const char* const end = rest.data() + rest.size();
    const char* const behind = std::from_chars(rest.data() + list.size(), end, i).ptr;
    std::optional<std::size_t> planned = i;
    if (list == "/circuits/") {
      if (i < found.circuits.size() && found.circuits[i].part_of) planned = *found.circuits[i].part_of;
    } else {
      planned.reset();
      if (!plan.labels || !found.labels || i >= found.labels->size()) return {};
      for (std::size_t p = 0; p < plan.labels->size() && !planned; ++p)
        if ((*plan.labels)[p].kind == (*found.labels)[i].kind) planned = p;
    }
    return planned ? fmt::format("{}{}{}", list, *planned, std::string_view(behind, end)) : std::string();
  }
  return std::string(rest);
}

// Where the record lists the label of which the plan's contents are judged.
std::string label_in_record(std::string_view rest, const Combiner& found, std::uint32_t record_index) {
  for (std::size_t i = 0; found.labels && i < found.labels->size(); ++i)
    if (const auto& planned = (*found.labels)[i].planned;
        planned && below(rest, fmt::format("/labels/{}", *planned)))
      return fmt::format("/boxes/{}/labels/{}", record_index, i);
  return {};
}

}  // namespace

std::string place_in_record(const Finding& f, const VisitedBox& visited, std::uint32_t box,
                            std::uint32_t record_index) {
  return fmt::format("/boxes/{}{}", record_index,
                     key_in_record(f, visited, fmt::format("/combiners/{}", box)));
}

std::string other_account(const Finding& f, const Combiner& plan, const Combiner& found,
                          const VisitedBox& visited, std::uint32_t box, std::uint32_t record_index) {
  const std::string_view pointer = f.place.pointer;
  const std::string own = fmt::format("/combiners/{}", box);
  if (f.lacking) return {};
  if (!below(pointer, own)) return std::string(pointer);
  const std::string_view rest = pointer.substr(own.size());
  if (f.in_plan) return visited.labels_listed ? label_in_record(rest, found, record_index) : std::string();
  const std::string on_plan = below_plan(rest, f.rule->id, plan, found);
  return on_plan.empty() ? std::string() : own + on_plan;
}

}  // namespace boxproof
