// The file of a baseline, and a baseline in the report for programs.
#include "boxproof/baseline.hpp"

#include <algorithm>

#include "boxproof/check.hpp"
#include "src/report/json_text.hpp"
#include "src/report/known.hpp"

namespace boxproof {
namespace report {
namespace {

void put_entry(Buffer& out, const BaselineEntry& e, bool with_design) {
  put(out, "    {");
  if (with_design) {
    put(out, R"("design": )");
    put_text(out, e.design);
    put(out, ", ");
  }
  put(out, R"("fingerprint": )");
  put_text(out, e.fingerprint);
  put(out, R"(, "rule": )");
  put_text(out, e.rule);
  put(out, R"(, "box": )");
  put_text_or_null(out, e.box);
  put(out, R"(, "part": )");
  put_text_or_null(out, e.part);
  put(out, R"(, "severity": )");
  put_text(out, severity_names[static_cast<std::size_t>(e.severity)]);
  put(out, "}");
}

}  // namespace

void put_known_counts(Buffer& out, const Judgement& j) {
  if (!j.baseline) return;
  put_counts(out, R"(, "fresh": )", fresh_counts(j));
  put_counts(out, R"(, "known": )", known_counts(j));
}

void put_baseline(Buffer& out, const Judgement& j) {
  if (!j.baseline) return;
  const BaselineUse& use = *j.baseline;
  put(out, "  \"baseline\": {\"name\": ");
  put_text(out, use.name);
  put(out, R"(, "date": )");
  put_text(out, to_text(use.date));
  put(out, R"(, "reason": )");
  put_text(out, use.reason);
  put(out, R"(, "caution": )");
  put_text(out, baseline_caution());
  const auto list = [&](std::string_view key, const std::vector<BaselineEntry>& entries) {
    put(out, fmt::format(", \"{}\": [", key));
    for (const BaselineEntry& e : entries) {
      put(out, &e == &entries.front() ? "\n" : ",\n");
      put_entry(out, e, false);
    }
    put(out, entries.empty() ? "]" : "\n  ]");
  };
  list("stale", use.stale);
  list("graver", use.graver);
  put(out, "},\n");
}

}  // namespace report

void write_baseline(const Baseline& baseline, const Write& write) {
  using namespace report;
  std::vector<BaselineEntry> entries = baseline.entries;
  std::sort(entries.begin(), entries.end(), comes_before);
  Buffer out;
  put(out, "{\n  \"format\": \"boxproof-baseline/1\",\n  \"date\": ");
  put_text(out, to_text(baseline.date));
  put(out, ",\n  \"reason\": ");
  put_text(out, baseline.reason);
  put(out, ",\n  \"findings\": [");
  for (const BaselineEntry& e : entries) {
    put(out, &e == &entries.front() ? "\n" : ",\n");
    put_entry(out, e, true);
  }
  put(out, entries.empty() ? "]\n}\n" : "\n  ]\n}\n");
  write({out.data(), out.size()});
}

}  // namespace boxproof
