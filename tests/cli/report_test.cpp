// What the command line adds to a report: overrides, a choice of boxes, colour; and what it keeps out of one.
#include "boxproof/report.hpp"

#include <algorithm>

#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

const std::string clean = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh.json";

bool coloured(const Called& c) {
  return c.out.find('\x1b') != std::string::npos;
}

// Whether a text holds something that moves a cursor or turns the direction of writing: C0 other than the end
// of a line, DEL, C1, and the marks of Unicode's bidirectional algorithm.
bool safe(const std::string& text) {
  for (const char c : text)
    if ((static_cast<unsigned char>(c) < 0x20 && c != '\n') || c == 0x7F) return false;
  for (const char* mark : {"\u0085", "\u009b", "\u200e", "\u200f", "\u061c", "\u202a", "\u202e", "\u2066",
                           "\u2069", "\u2028", "\ufeff"})
    if (text.find(mark) != std::string::npos) return false;
  return true;
}

// Texts as they would come from a design, with all of that in them.
const std::string nasty = "a\u001b[31m\u0007\r\nb\u202ec\u200f\u009bd\u0085\u2066e\u007f\ufeff";

Json nasty_design() {
  Json design = sound_design();
  design["site"]["name"] = nasty;
  design["site"]["temperature_source"] = nasty;
  design["site"]["permit"] = {{"number", nasty}, {"strings", 8}};
  Json& box = design["combiners"][0];
  box["id"] = nasty + "1";
  box["sheet"] = nasty;
  box["location"] = nasty;
  box["fuse"]["dc"] = false;
  box["enclosure"]["type"] = nasty;
  box["circuits"][0]["id"] = nasty;
  box["circuits"][0]["series"] = 40;
  design["conductors"]["string"]["insulation"] = nasty;
  return design;
}

}  // namespace

TEST_CASE("overrides are named in the report") {
  const Called c = call({"check", clean, "--edition", "2014", "--low-c", "-3", "--high-c", "41.5"});
  CHECK(c.says("code.edition is 2014 (the file says 2017)"));
  CHECK(c.says("site.low_c is −3 °C (the file says −9 °C)"));
  CHECK(c.says("site.high_c is 41.5 °C (the file says 36 °C)"));
  CHECK(c.says("NEC 2014"));
  const Json report = Json::parse(call({"check", clean, "--low-c", "-3", "--format", "json"}).out);
  CHECK(report.dump().find("site.low_c is −3 °C (the file says −9 °C)") != std::string::npos);
  CHECK_FALSE(call({"check", clean, "--edition", "2017"}).says("code.edition is"));  // that is the file's own
  Json design = sound_design();
  design["site"].erase("low_c");
  CHECK(call({"check", "-", "--low-c", "-10"}, {design.dump(), false, {}})
            .says("site.low_c is −10 °C (the file states none)"));
  CHECK(call({"box", clean, "A-01", "--low-c", "-3"}).says("site.low_c is −3 °C"));
}

TEST_CASE("an override is judged by") {
  // 18 · 30 V · (1 + 0.3 % · (25 − t)): 596.7 V at −10 °C, 618.3 V at −23.4 °C; a dwelling allows 600 V.
  Json design = sound_design();
  design["site"]["use"] = "dwelling";
  CHECK(call({"check", "-"}, {design.dump(), false, {}}).status == 0);
  CHECK(call({"check", "-", "--low-c", "-23"}, {design.dump(), false, {}}).status == 1);
}

TEST_CASE("a choice of boxes") {
  const Called some = call({"check", clean, "--box", "A-0[1-3]", "--box", "B-0?"});
  CHECK(some.status == 0);
  CHECK(some.says("A-01"));
  CHECK_FALSE(some.says("A-10"));
  CHECK(some.says("Only "));
  const Called all = call({"check", clean, "--box", "*"});
  CHECK(all.status == 0);
  const std::string faults = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh-faults.json";
  const auto judged = judge_example("saltmarsh-faults.json");
  std::vector<bool> hit(judged->design.design.combiners.size());
  for (const Finding& f : judged->findings())
    if (f.box && f.severity <= Severity::correction) hit[*f.box] = true;
  for (std::size_t i = 0; i < hit.size(); i += 7) {
    const std::string& id = judged->design.design.combiners[i].id;
    CAPTURE(id);
    CHECK(call({"check", faults, "--box", id}).status == (hit[i] ? 1 : 0));
  }
}

TEST_CASE("colour: the option, then NO_COLOR, then whether standard output is a terminal that can") {
  const auto with = [](const std::string& when, bool terminal,
                       std::map<std::string, std::string> environment) {
    std::vector<std::string> arguments{"check", clean};
    if (!when.empty()) arguments.push_back("--color=" + when);
    return coloured(call(arguments, {"", terminal, std::move(environment)}));
  };
  for (const std::string auto_or_none : {"", "auto"}) {
    CHECK_FALSE(with(auto_or_none, false, {}));
    CHECK(with(auto_or_none, true, {}));
    CHECK(with(auto_or_none, true, {{"TERM", "xterm"}}));
    CHECK_FALSE(with(auto_or_none, true, {{"TERM", "dumb"}}));
    CHECK_FALSE(with(auto_or_none, true, {{"NO_COLOR", "1"}}));
    CHECK(with(auto_or_none, true, {{"NO_COLOR", ""}}));  // set but empty does not count
  }
  CHECK(with("always", false, {}));
  CHECK(with("always", true, {{"NO_COLOR", "1"}, {"TERM", "dumb"}}));
  CHECK_FALSE(with("never", true, {}));
  CHECK_FALSE(coloured(call({"check", clean, "--format", "json", "--color", "always"})));
  const Folder folder;
  CHECK(call({"check", clean, "--output", folder.path("r")}, {"", true, {}}).status == 0);
  CHECK(folder.get("r").find('\x1b') == std::string::npos);
}

TEST_CASE("colour adds nothing to the words") {
  const std::string plain = call({"check", clean, "--color", "never"}).out;
  std::string stripped;
  const std::string colour = call({"check", clean, "--color", "always"}).out;
  for (std::size_t i = 0; i < colour.size(); ++i) {
    if (colour[i] == '\x1b')
      i = colour.find('m', i);
    else
      stripped += colour[i];
  }
  CHECK(stripped == plain);
}

TEST_CASE("control characters and marks of a design do not reach the text report") {
  REQUIRE_FALSE(safe(nasty));
  const std::string design = nasty_design().dump();
  for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{
           {"check", "-"}, {"check", "-", "--show-work"}, {"box", "-", nasty + "1"}}) {
    const Called c = call(arguments, {design, false, {}});
    CAPTURE(arguments);
    CHECK(c.status <= 1);
    CHECK(c.says("\\u{1B}[31m"));
    CHECK(safe(c.out));
    CHECK(safe(c.err));
  }
}

TEST_CASE("control characters and marks of an input do not reach standard error") {
  Json unknown = nasty_design();
  unknown["combiners"][0]["inverter"] = nasty;
  Json key = nasty_design();
  key["modules"][nasty] = {{nasty, 1}};
  Json word = nasty_design();
  word["site"]["use"] = nasty;
  Json path = nasty_design();
  path["code"]["amendments"] = "none\u001b[2J\u202e.json";
  for (const Json& design : {unknown, key, word, path}) {
    const Called c = call({"check", "-"}, {design.dump(), false, {}});
    CHECK(c.status == 3);
    CHECK(c.out.empty());
    CHECK(safe(c.err));
    CHECK(c.complains("\\u{202E}"));
  }
  CHECK(safe(call({"check", "-"}, {"{\x1b[31m", false, {}}).err));
  CHECK(safe(call({"check", "-"}, {nasty, false, {}}).err));
  CHECK(safe(call({"check", "none\x1b[2J.json"}).err));
  CHECK(safe(call({"check", "-", "--box", "\x1b[2J"}, {nasty_design().dump(), false, {}}).err));
}

TEST_CASE("the JSON report of such a design is JSON without a control character in it") {
  const Called c = call({"check", "-", "--format", "json"}, {nasty_design().dump(), false, {}});
  CHECK(Json::parse(c.out)["site"]["name"] == nasty);
  CHECK(std::all_of(c.out.begin(), c.out.end(),
                    [](char b) { return static_cast<unsigned char>(b) >= 0x20 || b == 10; }));
}
