// Random field records: the half of RandomSite that goes on site.
#include <algorithm>
#include <cmath>

#include "tests/support/random_design.hpp"

namespace boxproof::test {

void RandomSite::see(Json& box) {
  for (std::size_t n = below(4); n-- > 0;) {
    Json seen{{"what", condition_words[below(condition_words.size())]}};
    state(seen, "where", one_of<std::string>({"lug 3", "bus", "cover"}), 30);
    state(seen, "origin", one_of<std::string>({"installation", "manufacture", "unknown"}), 40);
    state(seen, "photo", "p-0" + std::to_string(100 + below(900)), 60);
    state(seen, "note", "as on the last visit", 70);
    box["seen"].push_back(seen);
  }
}

void RandomSite::measure(Json& box) {
  Json m{{"strings", Json::array()}};
  state(m, "irradiance_w_m2", 150 + below(1000));
  state(m, "cell_c", below(70));
  const std::size_t strings = 1 + below(8);
  for (std::size_t i = 0; i < strings; ++i) {
    Json s = Json::object();
    state(s, "position", i + 1);
    state(s, "voc_v", 400 + below(500));
    state(s, "isc_a", 3 + static_cast<double>(below(60)) / 10);
    state(s, "insulation_mohm", static_cast<double>(1 + below(40)) / 4);
    if (chance(10)) s["reversed"] = true;
    m["strings"].push_back(s);
  }
  box["measured"] = m;
}

Json RandomSite::visit(Json as_planned) {
  Json boxes = Json::array();
  for (Json& box : as_planned["boxes"]) {
    if (chance(12)) continue;
    for (const char* group :
         {"count", "fuse", "enclosure", "disconnect", "output", "source", "egc", "labels", "posted"})
      if (box.contains(group) && chance(30)) box.erase(group);
    if (chance(30)) box["count"]["positive"] = 1 + below(20);
    if (chance(20)) box["count"]["negative"] = 1 + below(20);
    if (chance(20)) box["count"]["series"] = 8 + below(16);
    if (chance(20)) box["count"]["fuses"] = below(20);
    if (chance(20)) box["fuse"]["a"] = one_of<int>({10, 15, 20, 30});
    if (chance(10)) box["fuse"]["dc"] = chance(50);
    if (chance(15)) box["mixed_fuses"] = {{{"position", 1 + below(9)}, {"a", 10 + below(20)}}, {{"a", 15}}};
    if (chance(20)) box["enclosure"]["type"] = one_of<std::string>({"3R", "4X", "1"});
    if (chance(20)) box["enclosure"]["secured"] = chance(50);
    if (chance(20)) box["disconnect"]["load_break"] = chance(50);
    if (chance(10)) box["disconnect"]["present"] = chance(50);
    if (chance(20)) box["disconnect"]["works"] = chance(50);
    if (chance(20)) box["output"]["size"] = one_of<std::string>({"10 AWG", "4/0 AWG", "600 kcmil"});
    if (chance(15)) box["output"]["insulation"] = one_of<std::string>({"THWN-2", "PV wire"});
    if (chance(20)) box["output"]["stranding"] = one_of<std::string>({"fine", "coarse"});
    if (chance(20)) box["output"]["lug_for_fine_strand"] = chance(50);
    if (chance(20)) box["output"]["antioxidant"] = chance(50);
    if (chance(20)) box["source"]["size"] = one_of<std::string>({"14 AWG", "10 AWG"});
    if (chance(30))
      box["posted"] = {{"strings", 1 + below(20)}, {"series", 8 + below(16)}, {"max_v", 300 + below(1200)}};
    if (chance(30)) see(box);
    if (chance(30)) measure(box);
    boxes.push_back(box);
  }
  if (chance(30)) {
    Json stranger{{"id", "B-1" + std::to_string(below(9))}};
    see(stranger);
    boxes.push_back(stranger);
  }
  return {{"format", "boxproof-asbuilt/1"}, {"boxes", boxes}};
}

}  // namespace boxproof::test
