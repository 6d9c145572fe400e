// What a field record says of one box, as keys.
#include <fmt/format.h>

#include "boxproof/asbuilt.hpp"

namespace boxproof {
namespace {

class LookedAt {
 public:
  explicit LookedAt(std::vector<std::string>& out) : out_(out) {}
  void add(bool stated, std::string_view key) {
    if (stated) out_.emplace_back(key);
  }
  template <class T>
  void add(const std::optional<T>& value, std::string_view key) {
    add(value.has_value(), key);
  }
  void conductor(const FoundConductor& c, std::string_view group) {
    const auto part = [&](bool stated, std::string_view key) {
      add(stated, fmt::format("{}/{}", group, key));
    };
    part(c.size.has_value(), "size");
    part(c.material.has_value(), "material");
    part(c.stranding.has_value(), "stranding");
    part(c.insulation.has_value(), "insulation");
    part(c.antioxidant.has_value(), "antioxidant");
    part(c.lug_for_fine_strand.has_value(), "lug_for_fine_strand");
  }
  // A list shorter than the strings is no look at all of them: it is told string by string.
  void series(const Count& count, double strings) {
    const std::size_t told = count.series.size();
    if (!count.series_of_each || static_cast<double>(told) >= strings) return add(told > 0, "count/series");
    for (std::size_t i = 1; i <= told; ++i) add(true, fmt::format("count/series/{}", i));
  }
  void measured(const Measured& m) {
    add(m.irradiance_w_m2, "measured/irradiance_w_m2");
    add(m.cell, "measured/cell_c");
    for (std::size_t i = 0; i < m.strings.size(); ++i) {
      const MeasuredString& s = m.strings[i];
      const std::size_t position = s.position ? *s.position : i + 1;
      const auto reading = [&](bool stated, std::string_view key) {
        add(stated, fmt::format("measured/{}/{}", position, key));
      };
      reading(s.voc.has_value(), "voc_v");
      reading(s.isc.has_value(), "isc_a");
      reading(s.insulation_megohm.has_value(), "insulation_mohm");
      reading(s.reversed.has_value(), "reversed");
    }
  }

 private:
  std::vector<std::string>& out_;
};

}  // namespace

std::vector<std::string> looked_at(const VisitedBox& box, double strings) {
  std::vector<std::string> out;
  LookedAt keys(out);
  keys.add(box.posted.id, "posted/id");
  keys.add(box.posted.strings, "posted/strings");
  keys.add(box.posted.series, "posted/series");
  keys.add(box.posted.max_voltage, "posted/max_v");
  keys.add(box.posted.max_current, "posted/max_a");
  keys.add(box.posted.fuse, "posted/fuse_a");
  keys.add(box.count.positive, "count/positive");
  keys.add(box.count.negative, "count/negative");
  keys.add(box.count.fuses, "count/fuses");
  keys.series(box.count, strings);
  keys.add(box.count.modules, "count/modules");
  keys.add(box.fuse.rating, "fuse/a");
  keys.add(box.fuse.voltage, "fuse/v");
  keys.add(box.fuse.dc, "fuse/dc");
  keys.add(box.fuse.pv_listed, "fuse/pv_listed");
  keys.add(box.fuse.poles, "fuse/poles");
  keys.add(box.mixed_fuses_listed, "mixed_fuses");
  keys.add(box.enclosure.type, "enclosure/type");
  keys.add(box.enclosure.air_gap, "enclosure/air_gap_mm");
  keys.add(box.enclosure.cover, "enclosure/cover");
  keys.add(box.enclosure.listed, "enclosure/listed");
  keys.add(box.enclosure.secured, "enclosure/secured");
  keys.add(box.enclosure.gasket_seated, "enclosure/gasket_seated");
  keys.add(box.disconnect.present, "disconnect/present");
  keys.add(box.disconnect.rated_voltage, "disconnect/rated_v");
  keys.add(box.disconnect.rated_current, "disconnect/rated_a");
  keys.add(box.disconnect.load_break, "disconnect/load_break");
  keys.add(box.disconnect.distance, "disconnect/distance_m");
  keys.add(box.disconnect.works, "disconnect/works");
  keys.conductor(box.output, "output");
  keys.conductor(box.source, "source");
  keys.add(box.egc.size, "egc/size");
  keys.add(box.egc.material, "egc/material");
  keys.add(box.labels_listed, "labels");
  keys.add(box.seen_listed, "seen");
  if (box.measured) keys.measured(*box.measured);
  return out;
}

}  // namespace boxproof
