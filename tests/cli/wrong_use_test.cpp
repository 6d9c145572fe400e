// Wrong use: one line that says what was found and what was meant, nothing on standard output, exit status 2.

#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"

using namespace boxproof::test;

namespace {

using Arguments = std::vector<std::string>;
const std::string known =
    "check, box, labels, tally, compare, baseline, draft, schedule, rules, tables, schema, completion, man";
const std::string clean = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh.json";

void check_wrong(const Arguments& arguments, const std::string& line) {
  CAPTURE(arguments);
  const Called c = call(arguments);
  CHECK(c.status == 2);
  CHECK(c.out.empty());
  CHECK(c.err == "boxproof: " + line + "\n");
}

}  // namespace

TEST_CASE("commands and options that are not known") {
  check_wrong({"chek", clean}, "found the command \"chek\", expected one of " + known +
                                   "; did you mean \"check\"?; see boxproof --help");
  check_wrong({"judge"}, "found the command \"judge\", expected one of " + known + "; see boxproof --help");
  check_wrong({clean}, "found the command \"" + clean + "\", expected one of " + known +
                           "; did you mean boxproof check " + clean + "?; see boxproof --help");
  check_wrong({"--versoin"},
              "found the option \"--versoin\", which is not known here; did you mean \"--version\"?; see "
              "boxproof --help");
  check_wrong({"check", clean, "--frmat", "json"},
              "found the option \"--frmat\", which is not known here; did you mean "
              "\"--format\"?; see boxproof check --help");
  check_wrong({"check", "--fail_on=query", clean},
              "found the option \"--fail_on\", which is not known here; did you mean "
              "\"--fail-on\"?; see boxproof check --help");
  check_wrong({"check", "--zzz"},
              "found the option \"--zzz\", which is not known here; see boxproof check --help");
  check_wrong({"check", "-x", clean},
              "found the option \"-x\", which is not known here; see boxproof check --help");
  check_wrong({"box", clean, "A-01", "--format", "json"},
              "found the option \"--format\", which is not known here; see "
              "boxproof box --help");
}

TEST_CASE("arguments that are missing or too many") {
  check_wrong({"tables", "labels", "--edition", "2020", "--against", "2017"},
              "found the topic \"labels\" with --against, expected one of the two: --against compares whole "
              "editions");
  check_wrong({"check"},
              "found no DESIGN, expected a design file, a folder or a pattern; see boxproof check --help");
  check_wrong({"labels"}, "DESIGN is required; see boxproof labels --help");
  check_wrong({"box", clean}, "ID is required; see boxproof box --help");
  check_wrong({"labels", clean, "more"},
              "found \"more\", which is one argument too many; see boxproof labels --help");
  check_wrong({"check", "-", "--asbuilt", "-"},
              "found - for both the design and the field record, expected it once: "
              "there is one standard input");
  for (const char* option :
       {"--box", "--format", "--fail-on", "--edition", "--low-c", "--output", "--color"}) {
    CAPTURE(option);
    CHECK(call({"check", clean, option}).status == 2);
    CHECK(call({"check", clean, option}).complains(option));
  }
}

TEST_CASE("values that an option does not know are refused") {
  for (const auto& [option, value] :
       std::vector<std::pair<std::string, std::string>>{{"--fail-on", "hazzard"},
                                                        {"--format", "jsn"},
                                                        {"--color", "alwys"},
                                                        {"--edition", "2016"},
                                                        {"--low-c", "40"},
                                                        {"--low-c", "-71"},
                                                        {"--low-c", "cold"},
                                                        {"--high-c", "101"}}) {
    const Called c = call({"check", clean, option + "=" + value});
    CAPTURE(option, value);
    CHECK(c.status == 2);
    CHECK(c.out.empty());
    CHECK(c.complains(option));
    CHECK(c.complains(value));
  }
}

TEST_CASE("a value that an option does not know is told with the nearest one") {
  for (const auto& [arguments, meant] :
       std::vector<std::pair<Arguments, std::string>>{{{"check", clean, "--fail-on", "hazzard"}, "hazard"},
                                                      {{"check", clean, "--format", "jsn"}, "json"},
                                                      {{"check", clean, "--color", "alwys"}, "always"},
                                                      {{"tables", "ampacty"}, "ampacity"},
                                                      {{"schema", "desing"}, "design"}}) {
    const Called c = call(arguments);
    CAPTURE(arguments);
    CHECK(c.status == 2);
    CHECK(c.complains("did you mean \"" + meant + "\"?"));
  }
}

TEST_CASE("a temperature under zero is a value, not an option") {
  CHECK(call({"check", clean, "--low-c", "-15"}).status != 2);
  CHECK(call({"check", clean, "--low-c=-15"}).status != 2);
}

TEST_CASE("a pattern that no box matches") {
  check_wrong({"check", clean, "--box", "A-1"},
              "found no box that matches \"A-1\", expected at least one; the nearest "
              "ids are A-01, A-10, A-11");
  CHECK(call({"check", clean, "--box", "A-01", "--box", "Z*"}).status == 2);
}

TEST_CASE("control characters of an argument do not reach the terminal") {
  for (const Arguments& arguments : std::vector<Arguments>{{"\x1b[31mchek"},
                                                           {"--\x1b[31m"},
                                                           {"check", clean, "\x1b[2J"},
                                                           {"check", clean, "--format", "\x1b[2J"}}) {
    const Called c = call(arguments);
    CHECK(c.status == 2);
    CHECK(c.err.find('\x1b') == std::string::npos);
  }
}
