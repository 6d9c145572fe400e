// What an edition asks of enclosures and of the protection behind them, laid out like tables in a book.
#include <fmt/format.h>

#include <array>

#include "src/report/layout.hpp"
#include "src/report/tables.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {
namespace {

std::string shutdown_limit(const RapidShutdownRules::Limit& l) {
  return fmt::format("{} V{} within {} s{}", boxproof::shown(l.max),
                     l.max_voltamperes ? fmt::format(" and {} VA", *l.max_voltamperes) : std::string(),
                     l.within_seconds, l.instead.empty() ? "" : ", or " + l.instead);
}

}  // namespace

void write_enclosures(const Edition& e, const Write& write) {
  constexpr std::array<std::string_view, 3> wet{"no", "ask", "yes"};
  write(fmt::format("ENCLOSURE TYPES  [{}]\n  {}{}{}wet, indoors\n", e.enclosure.types_section, left("", 6),
                    left("outdoors", 10), left("lid up", 8)));
  for (const EnclosureType& t : e.enclosure.types)
    write(fmt::format("  {}{}{}{}\n", left(t.name, 6), left(t.outdoor ? "yes" : "no", 10),
                      left(!t.outdoor ? "–"
                           : t.lid_up ? "yes"
                                      : "no",
                           8),
                      wet[static_cast<std::size_t>(t.wet_indoors)]));
  write(fmt::format("  air space behind metal boxes in wet locations: {} mm  [{}]\n",
                    boxproof::shown(e.enclosure.least_air_gap), e.enclosure.air_gap_section));
  write(fmt::format("  combiners: listed{}  [{}]\n",
                    e.enclosure.or_field_labelled ? ", or field labelled" : "", e.enclosure.listing_section));
}

void write_protection(const Edition& e, const Write& write) {
  write("PROTECTION OF THE SYSTEM\n");
  const auto line = [&](std::string_view text, std::string_view section) {
    write(wrap(fmt::format("{}  [{}]", text, section), 4, "  "));
  };
  const GroundFaultRules& g = e.ground_fault;
  line(fmt::format("ground fault: yes; excepted up to {} strings, off buildings, solidly grounded",
                   g.exempt_up_to_strings),
       g.section);
  if (!g.ungrounded_section.empty()) line("ground fault, ungrounded arrays: yes", g.ungrounded_section);
  if (g.larger_grounding_factor)
    line(fmt::format("or, other than on dwellings, grounding conductors of {} times the circuit's ampacity",
                     *g.larger_grounding_factor),
         g.larger_grounding_section);
  const ArcFaultRules& a = e.arc_fault;
  if (a.section.empty())
    write("  arc fault: none asked for\n");
  else
    line(fmt::format("arc fault: from {} V on{}{}", boxproof::shown(a.from),
                     a.on_buildings_only ? ", on or in buildings" : "",
                     a.outputs_off_buildings_exempt
                         ? "; output circuits off buildings in metal raceway or underground excepted"
                         : ""),
         a.section);
  const RapidShutdownRules& r = e.rapid_shutdown;
  if (r.section.empty()) return write("  rapid shutdown: none asked for\n");
  line(fmt::format("rapid shutdown on buildings: more than {} m from the array{} {}{}{}",
                   boxproof::shown(r.beyond),
                   r.beyond_in_building
                       ? fmt::format(" ({} m in the building)", boxproof::shown(*r.beyond_in_building))
                       : std::string(),
                   shutdown_limit(r.outside), r.inside ? "; nearer " + shutdown_limit(*r.inside) : "",
                   r.exempt_structures.empty() ? "" : "; excepted: " + r.exempt_structures),
       r.section);
}

}  // namespace boxproof::report
