#include "src/report/dispositions.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "boxproof/rule.hpp"
#include "src/report/layout.hpp"
#include "src/report/strangers.hpp"

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

std::vector<BoxDisposition> dispositions(const ReportInput& r) {
  const Judgement& j = r.judgement;
  const std::vector<Combiner>& plan = r.design.design.combiners;
  std::vector<BoxDisposition> out;
  const auto end = j.findings.end();
  auto f = j.findings.begin();
  std::vector<Seen> seen;
  for (const BoxResult& b : j.boxes) {  // in the order of the plan, as the findings are
    if (!b.disposition) continue;
    while (f->box != b.index) ++f;
    seen.clear();
    for (; f != end && f->box == b.index; ++f)
      if (f->disposition) add(seen, *f);
    out.push_back({b.index, plan[b.index].id, *b.disposition, listed(seen, *b.disposition)});
  }
  for (const Stranger& s : strangers(j)) {
    if (!s.disposition) continue;
    seen.clear();
    for (const Finding* of_it : s.findings)
      if (of_it->disposition) add(seen, *of_it);
    out.push_back({std::nullopt, s.id, *s.disposition, listed(seen, *s.disposition) + "; not on the plan"});
  }
  return out;
}

void write_dispositions(const ReportInput& r, const Write& write) {
  const std::vector<BoxDisposition> boxes = dispositions(r);
  if (boxes.empty()) return;
  std::size_t id_width = 3;
  constexpr std::size_t widest_id = 12, word_width = 7;
  for (const BoxDisposition& b : boxes)
    id_width = std::min(widest_id, std::max(id_width, width_of(plain(b.id))));
  write("\nDISPOSITIONS, by what was seen in the boxes\n");
  for (const BoxDisposition& b : boxes) {
    const std::string lead =
        fmt::format("  {} {}  ", left(plain(b.id), id_width),
                    left(disposition_names[static_cast<std::size_t>(b.disposition)], word_width));
    write(wrap(b.seen, width_of(lead), lead));
  }
}

}  // namespace boxproof::report
