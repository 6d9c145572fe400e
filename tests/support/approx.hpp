// Comparison of numbers with a tolerance, under the one name in both versions of Catch2.
#pragma once

#include "tests/support/catch.hpp"

namespace boxproof::test {

#if __has_include(<catch2/catch_test_macros.hpp>)
using Catch::Approx;
#else
using Catch::Detail::Approx;
#endif

}  // namespace boxproof::test
