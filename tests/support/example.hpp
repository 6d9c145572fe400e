// The example files, judged and reported as the command line does it.
#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "boxproof/report.hpp"
#include "tests/support/judge.hpp"

namespace boxproof::test {

// The text of a file; fails the test if it cannot be read.
std::string read_file(const std::string& path);

// A file of examples/ ("saltmarsh.json") and its content.
std::string example_text(std::string_view name);
Json example_json(std::string_view name);

// Judges an example as it stands in the folder, under the name that the command line shows from the project's
// top.
std::unique_ptr<Judged> judge_example(std::string_view design, std::string_view record = {},
                                      const CheckOptions& options = {});

// The three examples: the clean plan, the plan with planted faults, the clean plan with its visit.
struct Example {
  std::string_view name, design, record;
};
inline constexpr Example examples[] = {{"saltmarsh", "saltmarsh.json", ""},
                                       {"saltmarsh-faults", "saltmarsh-faults.json", ""},
                                       {"saltmarsh-visit", "saltmarsh.json", "saltmarsh-visit.json"}};

// Judges one of them.
std::unique_ptr<Judged> judge_example(const Example& example, const CheckOptions& options = {});

struct Layout {
  bool show_work = false, colour = false;
};
std::string json_report(const Judged& judged, bool show_work = false);
std::string text_report(const Judged& judged, Layout layout = {});
std::string box_report(const Judged& judged, std::size_t box, Layout layout = {});

}  // namespace boxproof::test
