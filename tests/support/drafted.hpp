// A design taken apart into schedule and site, and made again, as the commands do it.
#pragma once

#include <string>

#include "boxproof/read.hpp"
#include "tests/support/command.hpp"

namespace boxproof::test {

struct Halves {
  std::string schedule, site;
  std::string told;  // on standard error
};

// Both commands must succeed.
Halves take_apart_design(const Folder& folder, const std::string& design);
std::string drafted(const Folder& folder, const std::string& schedule, const std::string& site);

// A site file with module M, inverters I and J, conductors string and feeder.
std::string small_site();

// What is told of a schedule of that site, one line a problem, without the file's name and the colon behind
// it; empty where it makes a design.
std::vector<std::string> schedule_problems(const std::string& csv);

// The design that a schedule of that site makes, as read.
struct Made {
  Document document;
  DesignFile file;
};
std::unique_ptr<Made> made_design(const std::string& csv);

}  // namespace boxproof::test
