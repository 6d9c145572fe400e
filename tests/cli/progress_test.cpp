// The line that shows how far a long run has come.
#include "src/cli/progress.hpp"

#include <functional>
#include <map>
#include <sstream>
#include <thread>

#include "boxproof/read.hpp"
#include "src/report/layout.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;
using std::chrono::milliseconds;

namespace {

// A terminal whose clock goes on by the same step each time that somebody looks at it.
struct Terminal {
  std::istringstream in;
  std::ostringstream out, err;
  std::map<std::string, std::string> environment{{"LANG", "en_US.UTF-8"}, {"TERM", "xterm"}};
  milliseconds now{5000}, step{0};
  std::size_t columns = 80;
  cli::Console console{in,
                       out,
                       err,
                       false,
                       [this](const char* name) -> std::optional<std::string> {
                         const auto found = environment.find(name);
                         return found == environment.end() ? std::nullopt : std::optional(found->second);
                       },
                       {},
                       true,
                       [this] { return now += step; },
                       [this] { return columns; }};
};

// What stands on the line of a terminal after these bytes; fails on anything but text and carriage returns.
std::string left_on_line(std::string_view bytes) {
  std::vector<std::string> cells;
  std::size_t column = 0;
  for (std::size_t at = 0; at < bytes.size();) {
    if (bytes[at] == '\r') {
      column = 0;
      ++at;
      continue;
    }
    CHECK(static_cast<unsigned char>(bytes[at]) >= 0x20);
    std::size_t end = at + 1;
    while (end < bytes.size() && (bytes[end] & 0xC0) == 0x80) ++end;
    if (column == cells.size()) cells.emplace_back(" ");
    cells[column++] = bytes.substr(at, end - at);
    at = end;
  }
  std::string line;
  for (const std::string& cell : cells) line += cell;
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

const std::string example = BOXPROOF_EXAMPLES "/saltmarsh.json";

}  // namespace

TEST_CASE("the line says stage, share and boxes, in fewer columns than there are") {
  struct Row {
    std::size_t columns;
    bool utf8;
    std::string_view line;
  };
  // 36 600 of 60 000 is 61 %; ten cells of bar: 6.1 full.
  for (const Row& row : std::vector<Row>{
           {120, true, "judging  ██████████████████░░░░░░░░░░░░   61 %  36 600 of 60 000 boxes"},
           {120, false, "judging  ##################------------   61 %  36 600 of 60 000 boxes"},
           {51, true, "judging  ██████░░░░   61 %  36 600 of 60 000 boxes"},
           {46, true, "judging  ███░░   61 %  36 600 of 60 000 boxes"},
           {45, true, "judging  61 %  36 600 of 60 000 boxes"},
           {39, true, "judging  61 %  36 600 of 60 000 boxes"},
           {37, true, "judging  61 %"},
           {14, true, "judging  61 %"},
           {13, true, " 61 %"},
           {5, true, ""},
           {0, true, ""}}) {
    const std::string line = cli::progress_line("judging", 36'600, 60'000, row.columns, row.utf8);
    CAPTURE(row.columns);
    CHECK(line == row.line);
    CHECK((line.empty() || report::width_of(line) < row.columns));
  }
  CHECK(cli::progress_line("reading", 7, 7, 200, false).find("100 %  7 of 7 boxes") != std::string::npos);
  CHECK(cli::progress_line("reading", 0, 0, 200, false).find("100 %") != std::string::npos);
  CHECK(cli::progress_line("reading", 999, 1000, 200, false).find(" 99 %") != std::string::npos);
}

TEST_CASE("nothing for a second, then at most ten lines a second, and nothing left at the end") {
  Terminal t;
  {
    cli::Progress progress(t.console);
    const ProgressHook hook = progress.stage("judging");
    REQUIRE(hook);
    t.now += milliseconds(999);
    hook(1, 4);
    CHECK(t.err.str().empty());
    t.now += milliseconds(1);
    hook(2, 4);
    const std::string first = t.err.str();
    CHECK(left_on_line(first).starts_with("judging  █"));
    CHECK(left_on_line(first).ends_with("50 %  2 of 4 boxes"));
    t.now += milliseconds(99);
    hook(3, 4);
    CHECK(t.err.str() == first);
    t.now += milliseconds(1);
    progress.stage("writing")(3, 4);
    CHECK(left_on_line(t.err.str()).ends_with("75 %  3 of 4 boxes"));
    CHECK(left_on_line(t.err.str()).starts_with("writing"));
  }
  CHECK(left_on_line(t.err.str()).empty());
  CHECK(t.err.str().ends_with('\r'));
}

TEST_CASE("a shorter line leaves nothing of a longer one") {
  Terminal t;
  cli::Progress progress(t.console);
  const ProgressHook hook = progress.stage("judging");
  t.now += milliseconds(1000);
  hook(10'000, 20'000);
  t.columns = 20;
  t.now += milliseconds(1000);
  hook(15'000, 20'000);
  CHECK(left_on_line(t.err.str()) == "judging  75 %");
}

TEST_CASE("no line where nobody could see it, or it could not be taken back") {
  struct Row {
    std::string_view what;
    std::function<void(Terminal&)> change;
  };
  for (const Row& row : std::vector<Row>{
           {"no terminal", [](Terminal& t) { t.console.err_is_terminal = false; }},
           {"no clock", [](Terminal& t) { t.console.elapsed = {}; }},
           {"a terminal that takes nothing back", [](Terminal& t) { t.environment["TERM"] = "dumb"; }}}) {
    CAPTURE(std::string(row.what));
    Terminal t;
    t.step = milliseconds(2000);
    row.change(t);
    cli::Progress progress(t.console);
    CHECK_FALSE(progress.stage("reading"));
    CHECK_FALSE(progress.writing(""));
    CHECK(cli::run({"check", example}, t.console) == cli::done);
    CHECK(t.err.str().empty());
  }
}

TEST_CASE("the locale says whether the bar is drawn in UTF-8") {
  struct Row {
    std::map<std::string, std::string> environment;
    bool utf8;
  };
  for (const Row& row : std::vector<Row>{{{{"LANG", "de_DE.UTF-8"}}, true},
                                         {{{"LANG", "C.utf8"}}, true},
                                         {{{"LANG", "C"}}, false},
                                         {{}, false},
                                         {{{"LC_ALL", "C"}, {"LANG", "en_US.UTF-8"}}, false},
                                         {{{"LC_ALL", ""}, {"LC_CTYPE", "en_US.UTF-8"}, {"LANG", "C"}}, true},
                                         {{{"LC_CTYPE", "POSIX"}, {"LANG", "en_US.UTF-8"}}, false}}) {
    Terminal t;
    t.environment = row.environment;
    CHECK(cli::writes_utf8(t.console) == row.utf8);
  }
}

TEST_CASE("a slow run shows its stages and wipes the line; the report is the same") {
  const std::string quick = call({"check", example, "--format", "json"}).out;
  Terminal t;
  t.step = milliseconds(600);
  CHECK(cli::run({"check", example, "--format", "json"}, t.console) == cli::done);
  CHECK(t.out.str() == quick);
  const std::string drawn = t.err.str();
  CHECK(drawn.find("judging") != std::string::npos);
  CHECK(drawn.find("writing") != std::string::npos);
  CHECK(drawn.find("50 of 50 boxes") != std::string::npos);
  CHECK(left_on_line(drawn).empty());
}

TEST_CASE("a report on the terminal, or in a pager, takes the place of the line") {
  for (bool cli::Console::*shown : {&cli::Console::out_is_terminal, &cli::Console::out_is_pipe}) {
    Terminal t;
    t.console.*shown = true;
    t.step = milliseconds(2000);
    CHECK(cli::run({"check", example}, t.console) == cli::done);
    CHECK(t.err.str().find("judging") != std::string::npos);
    CHECK(t.err.str().find("writing") == std::string::npos);
    CHECK(left_on_line(t.err.str()).empty());
  }

  const Folder folder;
  Terminal into_file;
  into_file.console.out_is_terminal = true;
  into_file.step = milliseconds(2000);
  CHECK(cli::run({"check", example, "--format", "json", "--output", folder.path("report")},
                 into_file.console) == cli::done);
  CHECK(into_file.err.str().find("writing") != std::string::npos);
  CHECK(left_on_line(into_file.err.str()).empty());
}

TEST_CASE("the line is gone before an error is told") {
  Terminal t;
  t.step = milliseconds(2000);
  Json design = sound_design();
  design["combiners"][0]["fuse"]["a"] = "many";
  const Folder folder;
  CHECK(cli::run({"check", folder.put("design.json", design.dump())}, t.console) == cli::bad_input);
  const std::string err = t.err.str();
  const auto told = err.find(folder.path("design.json"));
  REQUIRE(told != std::string::npos);
  CHECK(err.find("reading") < told);
  CHECK(left_on_line(err.substr(0, told)).empty());
  CHECK(err.find('\r', told) == std::string::npos);
}

TEST_CASE("reading and judging tell how far they have come, up to the end, on the caller's thread") {
  Json design = sound_design();
  const Json box = design["combiners"][0];
  constexpr std::size_t boxes = 3000;  // three blocks of judging, six of reading
  for (std::size_t i = 1; i < boxes; ++i) {
    design["combiners"].push_back(box);
    design["combiners"].back()["id"] = "B-" + std::to_string(i);
  }
  const std::thread::id here = std::this_thread::get_id();
  std::vector<std::size_t> seen;
  const ProgressHook hook = [&](std::size_t come, std::size_t total) {
    CHECK(std::this_thread::get_id() == here);
    CHECK(total == boxes);
    CHECK((seen.empty() || come >= seen.back()));
    seen.push_back(come);
  };
  const Document document{"design.json", design.dump()};
  const DesignFile file = read_design(document, hook);
  CHECK_FALSE(seen.empty());
  seen.clear();
  check(file, load_edition("2017"), nullptr, {{}, false, hook});
  CHECK(seen == std::vector<std::size_t>{1000, 2000, 3000});
}
