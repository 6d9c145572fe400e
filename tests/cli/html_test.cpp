// check --format html: the page on the command line.
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/web_page.hpp"

using namespace boxproof::test;

namespace {

const std::string faults = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh-faults.json";

}  // namespace

TEST_CASE("check --format html writes one page, to a file or to standard output, with the verdict's status") {
  const Folder folder;
  const std::string file = folder.path("report.html");
  const Called to_file = call({"check", faults, "--format", "html", "--output", file});
  CHECK(to_file.status == 1);
  CHECK(to_file.out.empty());
  CHECK(folder.names() == std::vector<std::string>{"report.html"});
  const Called to_out = call({"check", faults, "--format", "html"});
  CHECK(to_out.status == 1);
  CHECK(to_out.out == folder.get("report.html"));
  CHECK(take_apart(to_out.out).problems.empty());
}

TEST_CASE("the page has its workings without --show-work, and open with it") {
  for (const bool work : {false, true}) {
    std::vector<std::string> arguments{"check", faults, "--format", "html"};
    if (work) arguments.emplace_back("--show-work");
    const WebPage page = take_apart(call(arguments).out);
    const auto workings = page.all("details", "working");
    REQUIRE_FALSE(workings.empty());
    for (const WebElement* w : workings) CHECK(w->attributes.contains("open") == work);
  }
  CHECK_FALSE(call({"check", faults}).says("working"));  // the others show them when asked
}

TEST_CASE("help lists the page; colour has no part in it") {
  CHECK(call({"check", "--help"}).says("html for a page with drawings"));
  const Called page = call({"check", faults, "--format", "html", "--color", "always"});
  CHECK(page.out.find('\x1b') == std::string::npos);
}
