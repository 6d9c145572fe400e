// Strings of one box among themselves, and in the inverter's tracking window.
#include <algorithm>

#include "src/rules/common.hpp"
#include "src/rules/list.hpp"

namespace boxproof {
namespace {

Volts operating(const Circuit& c) {
  return static_cast<double>(c.series) * *c.module->vmp;
}

// Vmp of a string with its cells at the given temperature.
Volts at_cell(const Circuit& c, Celsius cell, Working* working = nullptr, std::string_view section = {}) {
  constexpr double stc = 25;  // °C
  const double n = c.series;
  const Volts v = operating(c) * c.module->vmp_coefficient->factor(cell - Celsius(stc));
  if (working)
    working->push_back(computed("Vmp_T", "n · Vmp · (1 + γ / 100 · (Tc − 25))",
                                {{"n", n},
                                 {"Vmp", c.module->vmp->value()},
                                 {"γ", c.module->vmp_coefficient->percent()},
                                 {"Tc", cell.value()}},
                                v.value(), "V", section));
  return v;
}

}  // namespace

const Rule voltage_unequal_strings{
    .id = "voltage/unequal-strings",
    .severity = Severity::correction,
    .title = "Unequal strings in parallel on one box",
    .explain =
        {"Compares the strings that share the box's bus: modules in series, and operating voltage where "
         "the modules are of different kinds.",
         "Strings in parallel are forced to one voltage. The shorter one is driven off its working point, "
         "loses energy every hour, and in open circuit takes current backwards from the longer ones.",
         "A finding where the series counts differ, or where n times Vmp of the groups differs by more "
         "than the share that the edition's data states, taken of the highest."},
    .remedy =
        "Give every string on the box the same number of like modules, or bring the odd ones to another "
        "input.",
    .uses = {"voltage.unequal_strings"},
    .judge = [](const BoxCase& c, Notes& out) {
      const auto& groups = c.box.circuits;
      if (groups.size() < 2) return;
      const auto [fewest, most] =
          std::minmax_element(groups.begin(), groups.end(),
                              [](const Circuit& a, const Circuit& b) { return a.series < b.series; });
      if (fewest->series != most->series) {
        out.find("series")
            .found(static_cast<double>(fewest->series))
            .required(static_cast<double>(most->series))
            .unit("modules in series")
            .at(fmt::format("/circuits/{}/series", fewest - groups.begin()))
            .say("{} joins strings of {} modules (circuit {}) and of {} (circuit {}).", c.box.id,
                 most->series, most->id, fewest->series, fewest->id);
        return;
      }
      bool known = true;
      for (const Circuit& g : groups)
        if (g.module != groups.front().module && (!g.module->vmp || !groups.front().module->vmp))
          known = false;
      if (!known) {
        for (const Circuit& g : groups)
          if (!g.module->vmp) out.lacks(key_of(*g.module, "vmp_v"));
        return;
      }
      if (!groups.front().module->vmp) return;  // all of one kind: alike whatever their Vmp
      const auto [lowest, highest] =
          std::minmax_element(groups.begin(), groups.end(),
                              [](const Circuit& a, const Circuit& b) { return operating(a) < operating(b); });
      const double pct = 100 * (1 - operating(*lowest) / operating(*highest));
      if (!exceeds(pct, c.edition.unequal_vmp_pct)) return;
      out.find("operating voltage")
          .found(pct)
          .required(c.edition.unequal_vmp_pct)
          .unit("%")
          .at(fmt::format("/circuits/{}/module", lowest - groups.begin()))
          .say("{} joins strings that work at {} V (circuit {}) and at {} V (circuit {}), {} % apart.",
               c.box.id, shown(operating(*highest)), highest->id, shown(operating(*lowest)), lowest->id,
               shown(pct, c.edition.unequal_vmp_pct));
    }};

const Rule voltage_tracking_window{
    .id = "voltage/tracking-window",
    .severity = Severity::advice,
    .title = "Operating voltage outside the inverter's tracking window",
    .explain = {"Compares the operating voltage of the strings on the hottest day with the lower end of "
                "the inverter's tracking window, and on the coldest with the upper end.",
                "Outside the window the inverter cannot follow the array's best point: it clips on hot "
                "afternoons or starts late on cold mornings. It is a loss of energy, not a danger.",
                "n times Vmp times (1 + coefficient of Vmp times (T − 25)). Hot: the site's high "
                "temperature plus the cells' rise over it; cold: the site's low. Without a coefficient of "
                "Vmp the rule stays silent: that of Voc is no substitute, it is smaller."},
    .remedy = "Choose the number of modules in series so that both ends fall inside the window.",
    .uses = {"voltage.tracking", "voltage.design_low"},
    .judge = [](const BoxCase& c, Notes& out) {
      const Inverter& inverter = *c.box.inverter;
      const std::string_view section = "common practice";
      std::optional<std::size_t> lowest, highest;  // circuits at the hot and at the cold end
      const auto hot =
          c.design.site.high ? std::optional(*c.design.site.high + c.edition.cell_rise) : std::nullopt;
      const auto cold = design_low(c);
      for (std::size_t i = 0; i < c.box.circuits.size(); ++i) {
        const Circuit& g = c.box.circuits[i];
        if (!g.module->vmp_coefficient) continue;
        if (!g.module->vmp) {
          out.lacks(key_of(*g.module, "vmp_v"));
          continue;
        }
        if (!inverter.tracking_min) out.lacks(key_of(inverter, "mppt_min_v"));
        if (!inverter.tracking_max) out.lacks(key_of(inverter, "mppt_max_v"));
        if (!hot) out.lacks("/site/high_c");
        if (!cold) out.lacks("/site/low_c");
        if (hot && (!lowest || at_cell(g, *hot) < at_cell(c.box.circuits[*lowest], *hot))) lowest = i;
        if (cold && (!highest || at_cell(g, *cold) > at_cell(c.box.circuits[*highest], *cold))) highest = i;
      }
      if (lowest && inverter.tracking_min) {
        const Circuit& g = c.box.circuits[*lowest];
        const Celsius cell = *c.design.site.high + c.edition.cell_rise;
        const Volts v = at_cell(g, cell);
        if (exceeds(*inverter.tracking_min, v))
          out.find("hot end")
              .found(v.value())
              .required(inverter.tracking_min->value())
              .unit("V")
              .at(fmt::format("/circuits/{}/series", *lowest))
              .say("Strings of {} (circuit {}) work at {} V with cells at {} °C; {} tracks from {} V.",
                   c.box.id, g.id, shown(v, *inverter.tracking_min), shown(cell), inverter.id,
                   shown(*inverter.tracking_min, v))
              .work([&](Working& w) { at_cell(g, cell, &w, section); });
      }
      if (highest && inverter.tracking_max) {
        const Circuit& g = c.box.circuits[*highest];
        const Celsius cell = *design_low(c);
        const Volts v = at_cell(g, cell);
        if (exceeds(v, *inverter.tracking_max))
          out.find("cold end")
              .found(v.value())
              .required(inverter.tracking_max->value())
              .unit("V")
              .at(fmt::format("/circuits/{}/series", *highest))
              .say("Strings of {} (circuit {}) work at {} V at {} °C; {} tracks up to {} V.", c.box.id, g.id,
                   shown(v, *inverter.tracking_max), shown(cell), inverter.id,
                   shown(*inverter.tracking_max, v))
              .work([&](Working& w) { at_cell(g, cell, &w, section); });
      }
    }};

}  // namespace boxproof
