// The label schedule of a design, as a report writes it.
#pragma once

#include <string>
#include <string_view>

#include "src/report/labels.hpp"
#include "tests/support/judge.hpp"

namespace boxproof::test {

std::string schedule_of(void (*writer)(const report::LabelReport&, const Write&), const Json& design,
                        std::string_view edition = {}, bool whole_site = true);

}  // namespace boxproof::test
