#include "tests/support/random_design.hpp"

#include <algorithm>
#include <cmath>

namespace boxproof::test {
namespace {

const std::vector<std::string> sizes{"14 AWG", "12 AWG",  "10 AWG",  "8 AWG",     "6 AWG",
                                     "2 AWG",  "1/0 AWG", "4/0 AWG", "300 kcmil", "600 kcmil"};
const std::vector<std::string> insulations{"PV wire", "PV wire", "USE-2", "THWN-2",
                                           "XHHW-2",  "THHN",    "rubber"};
const std::vector<std::string> label_keys{"max_v", "max_a",   "isc_a",  "vmp_v",
                                          "imp_a", "strings", "series", "fuse_a"};

double rounded(double value) {
  constexpr double hundredths = 100;
  return std::round(value * hundredths) / hundredths;
}

}  // namespace

void RandomSite::state(Json& where, const char* key, const Json& value, unsigned absent_percent) {
  if (!chance(absent_percent)) where[key] = value;
}

void RandomSite::shuffle(Json& list) {
  for (std::size_t n = list.size(); n > 1; --n) std::swap(list[n - 1], list[below(n)]);
}

std::string RandomSite::any_order(const Json& json) {
  std::vector<std::string> items;
  if (json.is_object()) {
    for (const auto& [key, value] : json.items()) items.push_back(Json(key).dump() + ": " + any_order(value));
    for (std::size_t n = items.size(); n > 1; --n) std::swap(items[n - 1], items[below(n)]);
  } else if (json.is_array()) {
    for (const Json& value : json) items.push_back(any_order(value));
  } else {
    return json.dump();
  }
  std::string out;
  for (const std::string& item : items) out += (out.empty() ? "" : ",\n") + item;
  return json.is_object() ? "{" + out + "}" : "[" + out + "]";
}

Json RandomSite::module() {
  const double voc = 25 + static_cast<double>(below(300)) / 10, isc = 5 + static_cast<double>(below(90)) / 10;
  const double vmp = rounded(voc * 0.83), imp = rounded(isc * 0.94);
  Json m{{"voc_v", voc}, {"isc_a", isc}};
  state(m, "vmp_v", vmp);
  state(m, "imp_a", imp);
  state(m, "pmax_w", std::round(vmp * imp));
  if (chance(50))
    m["voc_coeff_pct_per_c"] = -0.2 - static_cast<double>(below(20)) / 100;
  else if (chance(50))
    m["voc_coeff_v_per_c"] = rounded(-0.003 * voc);
  state(m, "vmp_coeff_pct_per_c", -0.35, 30);
  state(m, "cell", one_of<std::string>({"mono-si", "poly-si", "thin-film"}));
  if (chance(20)) m["isc_rear_a"] = rounded(isc * 1.15);
  state(m, "max_fuse_a", one_of<int>({15, 20, 25, 30}));
  state(m, "max_system_v", one_of<int>({600, 1000, 1500}));
  return m;
}

Json RandomSite::inverter() {
  Json i = Json::object();
  state(i, "max_dc_v", one_of<int>({600, 1000, 1500}));
  state(i, "max_dc_isc_a", 100 + 100 * below(20));
  state(i, "mppt_min_v", 200 + 100 * below(4));
  state(i, "mppt_max_v", 700 + 100 * below(6));
  state(i, "grounding", one_of<std::string>({"solid", "functional", "ungrounded"}));
  for (const char* key : {"ground_fault_protection", "arc_fault_protection", "rapid_shutdown"})
    state(i, key, chance(70));
  state(i, "backfeed_a", one_of<int>({0, 0, 10}));
  return i;
}

Json RandomSite::conductor() {
  Json c = Json::object();
  state(c, "size", one_of(sizes), 4);
  state(c, "material", one_of<std::string>({"copper", "copper", "aluminum"}), 4);
  state(c, "insulation", one_of(insulations));
  state(c, "insulation_c", one_of<int>({60, 75, 90, 90, 105, 125}));
  state(c, "rated_v", one_of<int>({600, 1000, 2000}));
  state(c, "stranding", one_of<std::string>({"solid", "coarse", "coarse", "fine"}));
  return c;
}

Json RandomSite::run() {
  Json r = Json::object();
  state(r, "conductor", one_of<std::string>({"C1", "C2", "C3", "C4"}));
  state(r, "method", one_of<std::string>({"raceway", "free-air"}));
  state(r, "current_carrying", 2 + below(12), 50);
  state(r, "above_roof_mm", one_of<int>({5, 13, 19, 60, 300, 1000}), 60);
  state(r, "ambient_c", 20 + below(50), 70);
  state(r, "terminal_c", one_of<int>({60, 75, 90}), 30);
  state(r, "length_m", 1 + below(150));
  state(r, "parallel", 2, 85);
  return r;
}

Json RandomSite::circuit(const std::string& id) {
  const std::size_t joined = chance(15) ? 2 : 1;
  Json c{{"id", id}, {"module", one_of<std::string>({"M1", "M1", "M2", "M3"})}};
  c["series"] = 8 + below(16);
  c["strings"] = joined * (1 + below(8));
  if (joined > 1) c["strings_per_fuse"] = joined;
  state(c, "run", run(), 5);
  if (chance(15)) c["bond"] = {{"size", one_of(sizes)}, {"material", "copper"}};
  return c;
}

Json RandomSite::labels() {
  Json out = Json::array();
  for (const std::string_view kind : label_kinds) {
    if (chance(25)) continue;
    Json& label = out.emplace_back(Json{{"kind", kind}});
    if (!chance(40)) continue;
    for (const std::string& key : label_keys)
      if (chance(40)) label["values"][key] = 1 + below(key == "max_v" || key == "vmp_v" ? 1500 : 120);
  }
  return out;
}

Json RandomSite::parts() {
  Json b{{"inverter", one_of<std::string>({"I1", "I2"})}, {"circuits", Json::array()}};
  const std::size_t groups = one_of<std::size_t>({1, 1, 2, 3});
  for (std::size_t i = 0; i < groups; ++i)
    b["circuits"].push_back(circuit(std::string(1, static_cast<char>('a' + i))));
  Json mounting = Json::object(), enclosure = Json::object(), fuse = Json::object(), output = Json::object(),
       disconnect = Json::object(), egc = Json::object();
  state(mounting, "place", one_of<std::string>({"roof", "wall", "ground", "indoor"}));
  state(mounting, "cover", one_of<std::string>({"up", "side"}));
  state(mounting, "air_gap_mm", below(12));
  state(mounting, "wet", chance(50));
  state(enclosure, "type", one_of<std::string>({"3R", "4X", "1", "12", "IP65"}));
  state(enclosure, "rated_v", one_of<int>({600, 1000, 1500}));
  state(enclosure, "rated_a", 50 + 50 * below(6));
  state(enclosure, "inputs", 6 + below(20));
  for (const char* key : {"listed", "metal"}) state(enclosure, key, chance(80));
  state(enclosure, "rated_100_pct", chance(30), 60);
  state(enclosure, "inside_c", 30 + below(30));
  state(fuse, "a", one_of<int>({10, 12, 15, 20, 25, 30, 33}));
  state(fuse, "v", one_of<int>({600, 1000, 1500}));
  for (const char* key : {"dc", "pv_listed"}) state(fuse, key, chance(80));
  state(fuse, "poles", one_of<std::string>({"one", "both"}));
  state(fuse, "ambient_factor", 0.9, 80);
  state(output, "run", run());
  state(output, "ocpd_a", one_of<int>({60, 100, 200, 400}), 30);
  state(disconnect, "rated_v", one_of<int>({600, 1000, 1500}));
  state(disconnect, "rated_a", one_of<int>({30, 100, 200, 400}));
  state(disconnect, "distance_m", static_cast<double>(below(40)) / 2);
  for (const char* key : {"load_break", "external_handle", "lockable"}) state(disconnect, key, chance(70));
  state(egc, "size", one_of(sizes));
  state(egc, "material", one_of<std::string>({"copper", "aluminum"}));
  state(b, "mounting", mounting);
  state(b, "enclosure", enclosure, 4);
  state(b, "fuse", fuse, 15);
  state(b, "output", output);
  state(b, "disconnect", disconnect, 15);
  state(b, "egc", egc);
  state(b, "bond", {{"size", one_of(sizes)}, {"material", "copper"}}, 15);
  state(b, "labels", labels(), 10);
  return b;
}

Json RandomSite::box(const std::string& id) {
  if (chance(40)) {
    Json b = parts();
    b["id"] = id;
    return b;
  }
  Json b{{"id", id}, {"type", one_of<std::string>({"T1", "T2"})}};
  const Json other = parts();
  for (const char* key : {"fuse", "disconnect", "circuits", "output", "labels", "mounting"})
    if (chance(12) && other.contains(key)) b[key] = other[key];
  if (chance(8)) b["fuse"] = nullptr;
  if (chance(15)) b["fuse"] = {{"a", 20}};
  if (chance(8)) b["disconnect"]["distance_m"] = nullptr;
  return b;
}

Json RandomSite::design() {
  Json d{{"format", "boxproof-design/1"}, {"combiners", Json::array()}};
  Json site{{"name", "Random site"}, {"use", one_of<std::string>({"dwelling", "building", "ground"})}};
  state(site, "low_c", static_cast<int>(below(55)) - 42, 4);
  state(site, "high_c", 20 + below(30), 4);
  state(site, "temperature_source", "invented");
  if (chance(60)) site["permit"] = {{"strings", 40}, {"modules", 700}, {"combiners", 5}, {"dc_kw", 200}};
  d["site"] = site;
  d["code"] = {{"edition", one_of(std::vector<std::string>(edition_names.begin(), edition_names.end()))}};
  for (const char* id : {"M1", "M2", "M3"}) d["modules"][id] = module();
  for (const char* id : {"I1", "I2"}) d["inverters"][id] = inverter();
  for (const char* id : {"C1", "C2", "C3", "C4"}) d["conductors"][id] = conductor();
  for (const char* id : {"T1", "T2"}) d["box_types"][id] = parts();
  const std::size_t boxes = 3 + below(5);
  for (std::size_t i = 0; i < boxes; ++i) d["combiners"].push_back(box("B-0" + std::to_string(i + 1)));
  return d;
}

Json with_types_resolved(Json design) {
  for (Json& box : design["combiners"]) {
    if (!box.contains("type")) continue;
    Json whole = design["box_types"][box["type"].get<std::string>()];
    whole.merge_patch(box);
    whole.erase("type");
    box = whole;
  }
  design.erase("box_types");
  return design;
}

}  // namespace boxproof::test
