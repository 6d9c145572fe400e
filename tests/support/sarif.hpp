// SARIF logs of judgements in memory, and what a consumer does with them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "boxproof/run_report.hpp"
#include "tests/support/judge.hpp"

namespace boxproof::test {

// One run of these judgements, each under the name of its document, and of what could not be read.
struct SarifRun {
  std::vector<const Judged*> judged;
  std::vector<std::pair<std::string, InputError>> unread;
  std::size_t skipped = 0;
  bool show_work = false;

  RunTotals totals() const;
  std::string text() const;
};

// The log of one judgement, whole.
Json sarif_log(const Judged& judged, bool show_work = false);
// Its results.
Json sarif_results(const Judged& judged, bool show_work = false);

// The results of a rule.
std::vector<Json> results_of(const Json& results, std::string_view rule);
// The one of them; fails the test where there are none or several.
Json result_of(const Json& results, std::string_view rule);

// The path that a code host makes of the location's URI: escapes taken back.
std::string path_of(const Json& location);

// What every log must hold to be shown; fails the test where it does not.
void check_log(const Json& log);

}  // namespace boxproof::test
