// Designs judged, one after the other or side by side, and told in one or more formats.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "boxproof/check.hpp"
#include "src/cli/case.hpp"
#include "src/cli/commands.hpp"
#include "src/cli/inputs.hpp"
#include "src/cli/outputs.hpp"
#include "src/cli/progress.hpp"

namespace boxproof::cli {

// Whether a report of this format wants the workings in any case: a page holds them, closed.
bool wants_work(const Options& o, const std::vector<Output>& outputs);

// The judgement of a case: what is agreed set aside, what is on the baseline marked.
Judgement judge(const Options& o, const Case& c, bool show_work, const ProgressHook& progress = {});

// Reads and judges one design of a run, on whatever thread, and hands it over. Why not, where a file that was
// found in a folder is no design.
std::string judge_input(const Options& o, const DesignInput& input, const std::shared_ptr<Others>& others,
                        const Console& console, bool show_work,
                        const std::function<void(const Case&, Judgement)>& take);

// Throws WrongUse where no design is named.
void expect_designs(const Options& o);

// Whether it is one design, named on the command line.
bool is_one(const Options& o, const std::vector<DesignInput>& designs);

// Throws WrongUse where an option is of one site.
void expect_many(const Options& o);

// One design, named on the command line: a long report is streamed.
int check_one(const Options& o, const std::vector<Output>& outputs, Console& console);

// Any number of designs, on all cores, told in the order in which they were found. One that cannot be read
// does not stop the others; the status is then `bad_input`.
int check_many(const Options& o, const std::vector<DesignInput>& designs, const std::vector<Output>& outputs,
               Console& console);

}  // namespace boxproof::cli
