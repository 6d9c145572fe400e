// What an edition says of enclosures: fitness by type, the air space behind them, their listing.
#include "src/edition/read_groups.hpp"

namespace boxproof::read {

namespace {

constexpr std::array<std::string_view, 3> wet_words{"no", "ask", "yes"};

}  // namespace

void read_enclosure(const Group& g, EnclosureRules& rules) {
  const Group types = g.group("types");
  rules.types_section = types.text("section");
  const Group fit = types.group("fit");
  for (std::string_view name : fit.field().keys()) {
    const Group type = fit.group(name);
    rules.types.push_back({std::string(name), type.boolean("outdoor"), type.boolean("lid_up"),
                           static_cast<EnclosureType::Wet>(type.word("wet_indoors", wet_words))});
  }
  const Group gap = g.group("air_gap");
  rules.least_air_gap = Millimetres(gap.number("least_mm"));
  rules.air_gap_section = gap.text("section");
  const Group listing = g.group("listing");
  rules.or_field_labelled = listing.boolean("or_field_labelled");
  rules.listing_section = listing.text("section");
}

}  // namespace boxproof::read
