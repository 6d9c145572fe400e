// Visited boxes that are not on the plan: no BoxResult speaks of them, only findings do.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "boxproof/check.hpp"

namespace boxproof::report {

struct Stranger {
  std::string_view id;
  Verdict verdict = Verdict::accept;
  std::optional<Disposition> disposition;  // the weightiest of its findings
  std::vector<const Finding*> findings;
};
// In the order of their ids.
std::vector<Stranger> strangers(const Judgement& judgement);

}  // namespace boxproof::report
