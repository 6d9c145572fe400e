#include "tests/support/whole_run.hpp"

#include "src/cli/run_reports.hpp"
#include "tests/support/catch.hpp"

namespace boxproof::test {

RunTotals totals_of(const std::vector<OfRun>& designs, std::size_t skipped) {
  RunTotals totals;
  totals.skipped = skipped;
  for (const OfRun& d : designs)
    if (d.judged != nullptr)
      cli::add_to(totals, d.judged->judgement);
    else
      ++totals.unread;
  return totals;
}

std::string told_run(RunReport& report, const std::vector<OfRun>& designs, std::size_t skipped) {
  std::string out;
  const Write write = [&](std::string_view text) { out += text; };
  for (const OfRun& d : designs) {
    if (d.judged == nullptr) {
      report.take(report.piece({d.path, nullptr, d.unread}), write);
      continue;
    }
    const ReportInput input{d.judged->design,
                            d.judged->record ? &*d.judged->record : nullptr,
                            d.judged->edition,
                            d.judged->judgement,
                            {"a change of ours"}};
    report.take(report.piece({d.path, &input, nullptr}), write);
  }
  report.finish(totals_of(designs, skipped), write);
  return out;
}

InputError bad_design(const std::string& path, const std::string& text) {
  const Document document{path, text};
  try {
    read_design(document);
  } catch (const InputError& e) {
    return e;
  }
  FAIL("this is a design: " << text);
  return {{}, 0};
}

}  // namespace boxproof::test
