#include "src/report/box_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "boxproof/labels.hpp"
#include "src/report/layout.hpp"
#include "src/report/part_words.hpp"

namespace boxproof::report {

std::string label_should_say(const BoxFacts& f) {
  return fmt::format("{}: {}; maximum {} V, {} A{}", plain(f.box->id), strings_words(*f.box),
                     f.max_voltage && f.every_voltage_known
                         ? boxproof::shown(printed(LabelValue::max_v, f.max_voltage->value()))
                         : "?",
                     boxproof::shown(printed(LabelValue::max_a, f.output_max.value())),
                     f.box->fuse && f.box->fuse->rating
                         ? fmt::format("; fuses {} A", boxproof::shown(*f.box->fuse->rating))
                         : std::string());
}

std::vector<Margin> nearest_margins(const ReportInput& r, const BoxFacts& f) {
  std::vector<Margin> nearest;
  for (const Margin& m : margins(r.design.design, f, r.edition)) {
    const auto same =
        std::find_if(nearest.begin(), nearest.end(), [&](const Margin& n) { return n.of == m.of; });
    if (same == nearest.end())
      nearest.push_back(m);
    else if (m.share() < same->share())
      *same = m;
  }
  return nearest;
}

std::string what_of(const Margin& m) {
  return m.where.empty() ? std::string(m.of) : fmt::format("{} ({})", m.of, plain(m.where));
}

}  // namespace boxproof::report
