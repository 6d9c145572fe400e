#include "src/check/verdict.hpp"

#include <algorithm>

namespace boxproof {

Verdict verdict_of(Severity severity) {
  switch (severity) {
    case Severity::hazard: return Verdict::stop;
    case Severity::correction: return Verdict::correct;
    case Severity::query: return Verdict::clarify;
    case Severity::advice: return Verdict::accept;
  }
  return Verdict::stop;
}

void count_and_judge(Judgement& out) {
  out.counts = {};
  out.verdict = Verdict::accept;
  const bool visits = out.basis == Basis::as_built;
  for (BoxResult& box : out.boxes) {
    box.verdict = visits && !box.visited ? Verdict::not_visited : Verdict::accept;
    box.disposition.reset();
  }
  std::size_t at = 0;  // boxes and findings are both in the order of the plan
  for (const Finding& f : out.findings) {
    ++out.counts[static_cast<std::size_t>(f.severity)];
    const Verdict verdict = verdict_of(f.severity);
    out.verdict = std::max(out.verdict, verdict);
    if (!f.box) continue;
    while (out.boxes[at].index != *f.box) ++at;
    BoxResult& box = out.boxes[at];
    box.verdict = std::max(box.verdict, verdict);
    if (f.disposition && (!box.disposition || *f.disposition < *box.disposition))
      box.disposition = f.disposition;
  }
  for (const BoxResult& box : out.boxes) out.verdict = std::max(out.verdict, box.verdict);
}

}  // namespace boxproof
