#include "src/report/dispositions.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "boxproof/rule.hpp"
#include "src/report/layout.hpp"

namespace boxproof::report {
namespace {

struct Seen {
  std::string_view what;
  Disposition disposition;
  std::size_t times;
};

// "burned-bus, 2 × loose-terminal (repair)": what asks for less than the box says so.
std::string listed(const std::vector<Seen>& seen, Disposition of_box) {
  std::string out;
  for (const Seen& s : seen) {
    if (!out.empty()) out += ", ";
    if (s.times > 1) out += fmt::format("{} × ", s.times);
    out += s.what;
    if (s.disposition != of_box)
      out += fmt::format(" ({})", disposition_names[static_cast<std::size_t>(s.disposition)]);
  }
  return out;
}

void add(std::vector<Seen>& seen, const Finding& f) {
  const std::string_view what = f.rule->id.substr(f.rule->id.find('/') + 1);
  const auto same = std::find_if(seen.begin(), seen.end(), [&](const Seen& s) { return s.what == what; });
  if (same == seen.end())
    seen.push_back({what, *f.disposition, 1});
  else
    ++same->times;
}

}  // namespace

void write_dispositions(const ReportInput& r, const Write& write) {
  const std::vector<Combiner>& plan = r.design.design.combiners;
  std::size_t id_width = 3;
  constexpr std::size_t widest_id = 12, word_width = 7;
  bool any = false;
  for (const BoxResult& b : r.judgement.boxes)
    if (b.disposition) {
      any = true;
      id_width = std::min(widest_id, std::max(id_width, width_of(plain(plan[b.index].id))));
    }
  if (!any) return;
  write("\nDISPOSITIONS, by what was seen in the boxes\n");
  const auto end = r.judgement.findings.end();
  auto f = r.judgement.findings.begin();
  std::vector<Seen> seen;
  for (const BoxResult& b : r.judgement.boxes) {  // in the order of the plan, as the findings are
    if (!b.disposition) continue;
    while (f->box != b.index) ++f;
    seen.clear();
    for (; f != end && f->box == b.index; ++f)
      if (f->disposition) add(seen, *f);
    const std::string lead =
        fmt::format("  {} {}  ", left(plain(plan[b.index].id), id_width),
                    left(disposition_names[static_cast<std::size_t>(*b.disposition)], word_width));
    write(wrap(listed(seen, *b.disposition), width_of(lead), lead));
  }
}

}  // namespace boxproof::report
