// The manual pages: everything of a command in its page, and no word of it a request of roff. What mandoc and
// man say of them is checked where these are installed: tests/install/manual.sh.
#include "src/cli/man_page.hpp"

#include "boxproof/report.hpp"
#include "src/cli/command_notes.hpp"
#include "src/cli/describe.hpp"
#include "src/cli/roff.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/page.hpp"

using namespace boxproof;
using namespace boxproof::cli;
using namespace boxproof::test;

namespace {

bool has(const std::string& page, const std::string& text) {
  return page.find(text) != std::string::npos;
}

}  // namespace

TEST_CASE("the page of a command has every option, argument, choice and example of it") {
  for (const CommandHelp& c : describe_commands()) {
    const std::string page = man_page(c.name);
    for (const ArgumentHelp& a : c.options) {
      CAPTURE(c.name, a.name);
      CHECK(has(page, "\n.TP\n\\fB" + (a.short_name.empty() ? "" : roff(a.short_name) + ", ") + roff(a.name) +
                          "\\fR" + (a.takes_value() ? " \\fI" + roff(a.type_name) + "\\fR\n" : "\n")));
      for (const std::string& choice : a.choices) CHECK(has(page, roff(choice)));
    }
    for (const ArgumentHelp& a : c.positionals) CHECK(has(page, "\n.TP\n\\fI" + roff(a.name) + "\\fR\n"));
    for (const cli::Example& e : notes_of(c.name).examples) CHECK(has(page, "\n" + roff(e.line) + "\n"));
    for (const StatusNote& s : statuses_of(c.name))
      CHECK(has(page, "\n.TP\n\\fB" + std::to_string(s.status) + "\\fR\n"));
    for (const char* section :
         {"NAME", "SYNOPSIS", "DESCRIPTION", "OPTIONS", "EXIT STATUS", "EXAMPLES", "CAUTION", "SEE ALSO"})
      CHECK(has(page, "\n.SH " + std::string(section) + "\n"));
    CHECK(has(page, "\"boxproof " + std::string(version()) + "\""));
    CHECK(has(page, "energised"));
    const auto arguments =
        c.name.empty() ? std::vector<std::string>{"man"} : std::vector<std::string>{"man", c.name};
    CHECK(call(arguments).out == page);
  }
  CHECK_THROWS_AS(man_page("chek"), std::out_of_range);
  CHECK(call({"man", "chek"}).complains("did you mean \"check\"?"));
}

TEST_CASE("only the pages of commands that read settings or show colour speak of them") {
  CHECK(has(man_page("check"), "\\fB.boxproof.json\\fR"));
  CHECK_FALSE(has(man_page("schema"), ".boxproof.json"));
  CHECK(has(man_page("compare"), "NO_COLOR"));
  CHECK_FALSE(has(man_page("schema"), "NO_COLOR"));
}

TEST_CASE("every line of a page is a known request or text of at most 80 bytes") {
  for (const CommandHelp& c : describe_commands()) {
    bool as_it_is = false;  // an example, whose line nobody breaks
    for (const auto& line : lines_of(man_page(c.name))) {
      CAPTURE(c.name, std::string(line));
      if (line == ".nf" || line == ".fi") as_it_is = line == ".nf";
      CHECK((as_it_is || line.size() <= 80));
      CHECK_FALSE(line.empty());
      CHECK(line.front() != '\'');
      if (line.front() != '.') continue;
      bool known = false;
      for (const char* request : {".TH ", ".SH ", ".SS ", ".PP", ".TP", ".RS 4", ".RE", ".nf", ".fi", ".B ",
                                  ".BR ", ".nh", ".ad l"})
        known = known || line.substr(0, std::string_view(request).size()) == request;
      CHECK(known);
    }
  }
}

TEST_CASE("words that roff would read stay words") {
  CHECK(roff("--low-c \\n 'x' \"y\" `z` ~ ^") ==
        "\\-\\-low\\-c \\en \\(aqx\\(aq \\(dqy\\(dq \\(gaz\\(ga \\(ti \\(ha");
  Roff page;
  page.paragraph(".boxproof.json begins a line");
  page.paragraph("'x' too");
  CHECK(page.page() == ".PP\n\\&.boxproof.json begins a line\n.PP\n\\(aqx\\(aq too\n");
}
