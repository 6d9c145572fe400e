// How the boxes of a field sheet came onto it, in sentences for its head and a reason a box.
#pragma once

#include <string>
#include <vector>

#include "src/check/sample.hpp"
#include "src/edition/sampling_plan.hpp"

namespace boxproof::report {

struct Choice {
  std::size_t on_plan = 0;
  std::size_t lot = 0;                       // of these, how many to choose from
  const std::vector<std::string>& patterns;  // that say which; empty: all
  bool sampled = false;
  SampleSize size;                     // as asked for
  const SamplingPlan* plan = nullptr;  // which asked for it, if one did

  bool leaves_some_out() const { return sampled && size.boxes < lot; }
};

std::vector<std::string> how_chosen(const Choice& choice);

// "hazard on the plan: Fuse larger than the module allows", "thin margin, 2.6 % to fuse", "at random"
std::string why_chosen(const Picked& picked, const Nearness& nearness);

}  // namespace boxproof::report
