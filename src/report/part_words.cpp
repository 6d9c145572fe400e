#include "src/report/part_words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <map>
#include <vector>

#include "src/report/layout.hpp"
#include "src/rules/common.hpp"

namespace boxproof::report {

std::string yes_no(const std::optional<bool>& value, std::string_view yes, std::string_view no) {
  return std::string(!value ? "?" : *value ? yes : no);
}

unsigned fuse_count(const BoxFacts& f) {
  if (!f.box->fuse) return 0;
  return f.box->fuse->poles == Poles::both ? 2 * f.inputs : f.inputs;
}

std::string circuit_words(const Circuit& c) {
  std::string text = fmt::format("circuit {}: {} of {} modules {}", plain(c.id),
                                 counted(c.strings, "string", "strings"), c.series, plain(c.module->id));
  if (c.strings_per_fuse > 1) text += fmt::format(", {} joined on each fuse", c.strings_per_fuse);
  return text;
}

std::string strings_words(const Combiner& box) {
  std::map<std::uint32_t, std::uint32_t> by_series;
  for (const Circuit& c : box.circuits) by_series[c.series] += c.strings;
  std::vector<std::string> strings;
  for (const auto& [series, count] : by_series)
    strings.push_back(fmt::format("{} of {}", counted(count, "string", "strings"), series));
  return fmt::format("{}", fmt::join(strings, ", "));
}

std::string fuse_words(const Fuse& fuse) {
  return fmt::format("{}, {}, {}, {}{}", or_unknown(fuse.rating, "A"), or_unknown(fuse.voltage, "V"),
                     yes_no(fuse.dc, "DC", "NOT FOR DC"),
                     yes_no(fuse.pv_listed, "listed for PV", "not listed for PV"),
                     fuse.poles ? (*fuse.poles == Poles::one ? ", one pole" : ", both poles") : ", poles ?");
}

std::string distance_words(const Disconnect& d) {
  if (!d.distance) return "distance ?";
  return d.distance->value() == 0 ? "in the box" : boxproof::shown(*d.distance) + " m away";
}

std::string wire_words(const Run* run) {
  if (run == nullptr || run->conductor == nullptr) return "not stated";
  std::string text = wire(*run->conductor);
  if (!run->conductor->insulation.empty()) text += " " + plain(run->conductor->insulation);
  if (run->parallel > 1) text += fmt::format(", {} in parallel", run->parallel);
  return text;
}

}  // namespace boxproof::report
