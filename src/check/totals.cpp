#include "src/check/totals.hpp"

#include <algorithm>

#include "boxproof/check.hpp"

namespace boxproof {
namespace {

void add(SiteTotals& t, const Combiner& box, const Edition& edition) {
  ++t.combiners;
  for (const Circuit& c : box.circuits) {
    const double modules = static_cast<double>(c.strings) * c.series;
    t.strings += c.strings;
    t.modules += modules;
    if (!c.module->pmax) {
      t.dc_kilowatts.reset();
      if (std::find(t.without_power.begin(), t.without_power.end(), c.module) == t.without_power.end())
        t.without_power.push_back(c.module);
    } else if (t.dc_kilowatts) {
      *t.dc_kilowatts += modules * c.module->pmax->value();  // watts until the sum is whole
    }
  }
  const auto [found, fresh] = t.position.emplace(box.inverter, t.inverters.size());
  if (fresh) t.inverters.push_back({box.inverter, Amps(0), 0, false, 0});
  SiteTotals::PerInverter& inverter = t.inverters[found->second];
  inverter.output_max += output_current(box, edition);
  ++inverter.boxes;
  for (const Circuit& c : box.circuits) inverter.strings += c.strings;
  inverter.fused = inverter.fused || box.fuse != nullptr;
}

}  // namespace

SiteTotals totals_of(const Design& design, const Edition& edition,
                     const std::function<const VisitedBox*(std::size_t)>& visited) {
  SiteTotals totals;
  totals.dc_kilowatts = 0;
  for (std::size_t i = 0; i < design.combiners.size(); ++i) {
    const Combiner& plan = design.combiners[i];
    const VisitedBox* found = visited ? visited(i) : nullptr;
    if (found == nullptr) {
      add(totals, plan, edition);
    } else {
      FoundParts own;
      add(totals, as_built(plan, *found, own), edition);
    }
  }
  constexpr double watts_per_kilowatt = 1000;
  if (totals.dc_kilowatts) *totals.dc_kilowatts /= watts_per_kilowatt;
  return totals;
}

}  // namespace boxproof
