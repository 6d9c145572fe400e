// A report over designs that are judged already, as the program asks for it.
#pragma once

#include <string>
#include <vector>

#include "boxproof/run_report.hpp"
#include "tests/support/judge.hpp"

namespace boxproof::test {

// One of these two.
struct OfRun {
  std::string path;
  const Judged* judged = nullptr;
  const InputError* unread = nullptr;
};

RunTotals totals_of(const std::vector<OfRun>& designs, std::size_t skipped = 0);
std::string told_run(RunReport& report, const std::vector<OfRun>& designs, std::size_t skipped = 0);

// What reading such a text as a design throws.
InputError bad_design(const std::string& path, const std::string& text);

}  // namespace boxproof::test
