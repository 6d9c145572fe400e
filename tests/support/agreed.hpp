// Agreed exceptions, put over a judgement.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "tests/support/judge.hpp"

namespace boxproof::test {

// An entry on box A-01 from 2027-01-10 to 2027-02-20, with a merge patch over it.
Json an_exception(std::string_view rule, const Json& patch = Json::object());

// The judgement with these entries applied as on this day.
void agree(Judged& judged, const Json& entries, std::string_view day = "2027-02-01");
std::unique_ptr<Judged> judge_agreed(const Json& design, const Json& entries,
                                     std::string_view day = "2027-02-01");

// "state, n set aside, n standing" of the entry.
std::string what_became(const Judged& judged, std::size_t entry = 0);

}  // namespace boxproof::test
