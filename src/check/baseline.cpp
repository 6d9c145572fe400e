#include "boxproof/baseline.hpp"
#include "boxproof/check.hpp"

namespace boxproof {

void mark_known(Judgement&, const Baseline&, std::string_view) {}
std::vector<BaselineEntry> entries_of(const Judgement&, std::string_view) {
  return {};
}

}  // namespace boxproof
