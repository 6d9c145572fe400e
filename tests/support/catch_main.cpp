// The main function of the tests, only for packages of Catch2 version 2 that bring none.
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
