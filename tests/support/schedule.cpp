#include "tests/support/schedule.hpp"

namespace boxproof::test {

std::string schedule_of(void (*writer)(const report::LabelReport&, const Write&), const Json& design,
                        std::string_view edition, bool whole_site) {
  const auto judged = judge(design, edition);
  report::LabelReport r{judged->design.design, judged->edition, {}, whole_site};
  for (const Combiner& box : judged->design.design.combiners) r.boxes.push_back(&box);
  std::string out;
  writer(r, [&out](std::string_view text) { out += text; });
  return out;
}

}  // namespace boxproof::test
