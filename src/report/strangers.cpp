#include "src/report/strangers.hpp"

#include <algorithm>
#include <map>

#include "src/check/verdict.hpp"

namespace boxproof::report {

std::vector<Stranger> strangers(const Judgement& j) {
  std::map<std::string_view, Stranger> by_id;
  // They stand last, behind those of the boxes of the plan.
  for (auto f = j.findings.rbegin(); f != j.findings.rend() && !f->box && !f->box_id.empty(); ++f) {
    Stranger& s = by_id[f->box_id];
    s.id = f->box_id;
    s.verdict = std::max(s.verdict, verdict_of(f->severity));
    if (f->disposition && (!s.disposition || *f->disposition < *s.disposition))
      s.disposition = f->disposition;
    s.findings.push_back(&*f);
  }
  std::vector<Stranger> out;
  for (auto& [id, s] : by_id) {
    std::reverse(s.findings.begin(), s.findings.end());  // as in the report
    out.push_back(std::move(s));
  }
  return out;
}

}  // namespace boxproof::report
