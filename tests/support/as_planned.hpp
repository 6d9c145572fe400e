// A field record that says what the plan says.
#pragma once

#include "tests/support/judge.hpp"

namespace boxproof::test {

// What the record has of labels: one posted as the program would have it made; or the labels that the plan
// calls for, each with its values.
enum class Posted { computed, as_listed };

// What somebody writes down who finds everything as planned, in every box. Nothing is written of what the
// plan does not state.
Json record_as_planned(const Judged& plan, Posted posted);

}  // namespace boxproof::test
