#include "src/check/record_keys.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace boxproof {
namespace {

struct KeyWords {
  std::string_view key, words;
};
constexpr std::array<KeyWords, 52> all_keys{{
    {"posted/id", "label: box"},
    {"posted/strings", "label: strings"},
    {"posted/series", "label: modules in series"},
    {"posted/max_v", "label: maximum voltage"},
    {"posted/max_a", "label: maximum current"},
    {"posted/fuse_a", "label: fuses"},
    {"count/positive", "positives"},
    {"count/negative", "negatives"},
    {"count/fuses", "fuses, how many"},
    {"count/series", "modules in series"},
    {"count/modules", "modules on the box"},
    {"fuse", "fuses"},
    {"fuse/a", "fuse A"},
    {"fuse/v", "fuse V"},
    {"fuse/dc", "fuse marked for DC"},
    {"fuse/pv_listed", "fuse listed for PV"},
    {"fuse/poles", "fuses in one pole or both"},
    {"mixed_fuses", "odd fuses, or all alike"},
    {"enclosure", "box"},
    {"enclosure/type", "box type"},
    {"enclosure/air_gap_mm", "air space behind the box"},
    {"enclosure/cover", "which way the lid faces"},
    {"enclosure/listed", "listing mark of the box"},
    {"enclosure/secured", "cover secured"},
    {"enclosure/gasket_seated", "gasket seated"},
    {"disconnect", "disconnect"},
    {"disconnect/present", "disconnect, whether there is one"},
    {"disconnect/rated_v", "disconnect V"},
    {"disconnect/rated_a", "disconnect A"},
    {"disconnect/load_break", "disconnect may be opened under load"},
    {"disconnect/distance_m", "disconnect, distance from the box"},
    {"disconnect/works", "disconnect handle moves and indicates"},
    {"output", "output conductor"},
    {"output/size", "output size"},
    {"output/material", "output material"},
    {"output/stranding", "output stranding"},
    {"output/insulation", "output insulation"},
    {"output/antioxidant", "output oxide inhibitor"},
    {"output/lug_for_fine_strand", "output terminals for fine strands"},
    {"source", "source circuit conductor"},
    {"source/size", "source circuit size"},
    {"source/material", "source circuit material"},
    {"source/stranding", "source circuit stranding"},
    {"source/insulation", "source circuit insulation"},
    {"egc", "grounding conductor"},
    {"egc/size", "grounding conductor size"},
    {"egc/material", "grounding conductor material"},
    {"labels", "labels on the box, or none"},
    {"seen", "conditions seen, or none"},
    {"measured", "measurements"},
    {"measured/irradiance_w_m2", "irradiance"},
    {"measured/cell_c", "cell temperature"},
}};
// Of a string: measured/9/voc_v, measured/*/voc_v.
constexpr std::array<KeyWords, 4> readings{
    {{"voc_v", "Voc"}, {"isc_a", "Isc"}, {"insulation_mohm", "insulation"}, {"reversed", "poles swapped"}}};

template <std::size_t N>
std::string_view find(const std::array<KeyWords, N>& keys, std::string_view key) {
  const auto at = std::find_if(keys.begin(), keys.end(), [&](const KeyWords& k) { return k.key == key; });
  return at == keys.end() ? std::string_view() : at->words;
}

}  // namespace

std::string words_of_key(std::string_view key) {
  if (const std::string_view words = find(all_keys, key); !words.empty()) return std::string(words);
  constexpr std::string_view measured = "measured/";
  const auto slash = key.rfind('/');
  if (!key.starts_with(measured) || slash < measured.size()) return {};
  const std::string_view reading = find(readings, key.substr(slash + 1));
  if (reading.empty()) return {};
  const std::string_view string = key.substr(measured.size(), slash - measured.size());
  return string == "*" ? fmt::format("each string: {}", reading)
                       : fmt::format("string {}: {}", string, reading);
}

}  // namespace boxproof
