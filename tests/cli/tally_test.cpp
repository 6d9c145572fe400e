// The command tally: which boxes are on the sheet, what the head says of the choice, wrong use, and a sheet
// that comes back filled in.
#include <algorithm>
#include <map>

#include "boxproof/report.hpp"
#include "tests/support/as_planned.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/page.hpp"
#include "tests/support/rfc4180.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Arguments = std::vector<std::string>;
const std::string clean = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh.json";

Called tally(Arguments more, const Surroundings& around = {}) {
  more.insert(more.begin(), {"tally", clean});
  return call(more, around);
}

// The text with each run of white space made one space, so that a sentence can be found however it is laid
// out.
std::string flowing(const std::string& text) {
  std::string out;
  for (const char c : text)
    if (c != ' ' && c != '\n')
      out += c;
    else if (!out.ends_with(' '))
      out += ' ';
  return out;
}
bool tells(const std::string& text, std::string_view sentence) {
  return flowing(text).find(sentence) != std::string::npos;
}

std::vector<std::string> ids_in(const std::string& csv) {
  std::vector<std::string> out;
  for (const Cells& row : read_csv(csv)) out.push_back(row.front());
  out.erase(out.begin());
  return out;
}
std::vector<std::string> ids_of(Arguments more) {
  more.insert(more.end(), {"--format", "csv"});
  const Called c = tally(more);
  REQUIRE(c.status == 0);
  return ids_in(c.out);
}

std::vector<std::string> all_ids() {
  std::vector<std::string> out;
  const Json design = example_json("saltmarsh.json");
  for (const Json& box : design["combiners"]) out.push_back(box["id"]);
  return out;
}

void check_wrong(const Arguments& more, const std::string& said) {
  CAPTURE(more);
  const Called c = tally(more);
  CHECK(c.status == 2);
  CHECK(c.out.empty());
  CAPTURE(c.err);
  CHECK(c.complains(said));
}

}  // namespace

TEST_CASE("tally: all boxes in the plan's order unless others are asked for") {
  CHECK(ids_of({}) == all_ids());
  CHECK(ids_of({"--box", "A-0[13]", "--box", "B-20"}) == std::vector<std::string>{"A-01", "A-03", "B-20"});
  const Called text = tally({});
  CHECK(text.status == 0);
  CHECK(text.err.empty());
  CHECK(tells(text.out, "All of the 50 boxes of the plan."));
  CHECK_FALSE(text.says("chosen"));
  CHECK(tells(tally({"--box", "A-0[13]", "--box", "B-20"}).out,
              "All of the 3 boxes of --box A-0[13] --box B-20, of 50 on the plan."));
}

TEST_CASE("tally: a sample, the same for the same seed, half of it by thin margins") {
  const std::vector<std::string> one = ids_of({"--sample", "9"});
  CHECK(one.size() == 9);
  CHECK(one == ids_of({"--sample", "9", "--seed", "1", "--thinnest", "5"}));
  CHECK(one != ids_of({"--sample", "9", "--seed", "2"}));
  const std::vector<std::string> all = all_ids();
  std::size_t at = 0;  // in the plan's order, none twice
  for (const std::string& id : one)
    at = static_cast<std::size_t>(std::find(all.begin() + static_cast<std::ptrdiff_t>(at), all.end(), id) -
                                  all.begin()) +
         1;
  CHECK(at <= all.size());
  for (const std::string& id : ids_of({"--box", "B-*", "--sample", "7"})) CHECK(id.starts_with("B-"));

  const Called text = tally({"--sample", "9"});
  CHECK(tells(text.out,
              "A sample of 9 out of the 50 boxes of the plan: 5 for the thinnest margins, 4 at random from "
              "the seed 1."));
  CHECK(tells(text.out, "A sample shows nothing about boxes that were not opened."));
  CHECK(tells(text.out, "the authority having jurisdiction to decide"));
  CHECK(tells(text.out, "lists the others as not visited"));
  const auto count = [&](std::string_view what) {
    std::size_t n = 0;
    for (auto p = text.out.find(what); p != std::string::npos; p = text.out.find(what, p + 1)) ++n;
    return n;
  };
  CHECK(count("\n  chosen  thin margin, ") == 5);
  CHECK(count("\n  chosen  at random\n") == 4);
}

TEST_CASE("tally: what the head says of other shares") {
  CHECK(tells(tally({"--sample", "3", "--thinnest", "0", "--seed", "44"}).out,
              ": all at random from the seed 44."));
  CHECK(tells(tally({"--sample", "3", "--thinnest", "3"}).out, ": all for the thinnest margins."));
  CHECK(tells(
      tally({"--sample", "3", "--box", "A-*"}).out,
      "A sample of 3 out of the 28 boxes of --box A-*, of 50 on the plan: 2 for the thinnest margins, 1 "
      "at random"));
  for (const char* size : {"50", "51", "4294967295"}) {
    CAPTURE(size);
    const Called whole = tally({"--sample", size});
    CHECK(tells(whole.out,
                "All of the 50 boxes of the plan: the sample of " + std::string(size) + " leaves none out."));
    CHECK_FALSE(whole.says("chosen"));
    CHECK(ids_of({"--sample", size}) == all_ids());
  }
}

TEST_CASE("tally: the thinnest are those that the rows of the check's report show as thinnest") {
  // In tenths of a per cent, as printed: "  A-01 E-201   16   288   968.9  232.0    2.6 % fuse   accept".
  std::map<std::string, double> margins;
  for (const std::string& line : lines_of(call({"check", clean}).out)) {
    const auto sign = line.find(" % ");
    if (sign != std::string::npos && (line.starts_with("  A-") || line.starts_with("  B-")))
      margins[line.substr(2, 4)] = std::stod(line.substr(line.rfind(' ', sign - 1)));
  }
  REQUIRE(margins.size() == 50);
  for (const std::size_t size : {1U, 6U, 20U, 49U}) {
    const std::string number = std::to_string(size);
    const std::vector<std::string> ids = ids_of({"--sample", number, "--thinnest", number});
    REQUIRE(ids.size() == size);
    double widest = -1, least_left = 101;
    for (const auto& [id, margin] : margins)
      if (std::find(ids.begin(), ids.end(), id) != ids.end())
        widest = std::max(widest, margin);
      else
        least_left = std::min(least_left, margin);
    CHECK(widest <= least_left);
  }
}

TEST_CASE("tally: margins go by the edition and the temperatures asked for") {
  const std::string before = tally({"--sample", "6", "--thinnest", "6"}).out;
  const std::string colder = tally({"--sample", "6", "--thinnest", "6", "--low-c", "-15"}).out;
  CHECK(tells(colder, "over a limit, "));
  CHECK(tells(colder, "Changed on the command line: site.low_c is −15 °C"));
  CHECK_FALSE(tells(before, "over a limit, "));
  CHECK(tells(tally({"--high-c", "50"}).out, "site.high_c is 50 °C"));
  CHECK(tally({"--edition", "2020"}).says("field sheet, NEC 2020\n"));
}

TEST_CASE("tally: why a box was chosen, at its limit, over it, and where it cannot be shown to keep it") {
  const auto why = [](const char* rated_v, const char* cold) {
    Json design = sound_design();  // reaches 18 · 30 V · (1 + 0.3 % · 35) = 596.7 V; nothing else is so near
    design["site"]["low_c"] = cold == nullptr ? Json() : Json::parse(cold);
    if (cold == nullptr) design["site"].erase("low_c");
    design["combiners"][0]["disconnect"]["rated_v"] = Json::parse(rated_v);
    Json second = design["combiners"][0];
    second["id"] = "B-02";
    second["disconnect"]["rated_v"] = 1000;
    design["combiners"].push_back(second);
    const Called c = call({"tally", "-", "--sample", "1"}, {design.dump(), false, {}});
    REQUIRE(c.says("A-01, sheet"));
    const auto at = c.out.find("  chosen  ") + 10;
    return c.out.substr(at, c.out.find('\n', at) - at);
  };
  CHECK(why("600", "-10") == "thin margin, 0.5 % to switch voltage");  // 3.3 / 600
  CHECK(why("596.7", "-10") == "thin margin, 0.0 % to switch voltage");
  CHECK(why("500", "-10") == "over a limit, 19.3 % above switch voltage");  // 96.7 / 500
  CHECK(why("600", nullptr) == "cannot be shown safe: not every voltage is known");
}

TEST_CASE("tally: as many as the published plan says") {
  const Called text = tally({"--plan", "iso2859"});
  CHECK(tells(text.out,
              "A sample of 8 out of the 50 boxes of the plan: 4 for the thinnest margins, 4 at random"));
  CHECK(tells(text.out,
              "Size by ISO 2859-1:1999, Tables 1 and 2-A *, normal inspection, general inspection level II, "
              "single sampling: a lot of 50 has code letter D, a sample of 8."));
  CHECK(tells(text.out, "its acceptance numbers do not hold for boxes taken for thin margins"));
  CHECK(tells(text.out, "* from memory, unverified; MIL-STD-105E has the same figures"));
  const Called random = tally({"--plan", "iso2859", "--thinnest", "0"});
  CHECK(tells(random.out, "all at random from the seed 1."));
  CHECK_FALSE(tells(random.out, "acceptance numbers"));
  CHECK(ids_of({"--plan", "iso2859", "--box", "A-0*"}).size() == 3);  // a lot of 9
  const Called one = tally({"--plan", "iso2859", "--box", "A-01"});
  CHECK(tells(one.out, "a lot of 1 is below its tables and is looked at whole."));
  CHECK(tells(one.out, "On this sheet: the 1 box of --box A-01, of 50 on the plan"));
}

TEST_CASE("tally: wrong use") {
  check_wrong({"--thinnest", "2"}, "found --thinnest without a sample, expected --sample or --plan with it");
  check_wrong({"--seed", "2"}, "found --seed without a sample, expected --sample or --plan with it");
  check_wrong({"--sample", "4", "--thinnest", "5"},
              "found --thinnest 5, expected no more than the 4 of the sample");
  check_wrong({"--plan", "iso2859", "--thinnest", "9"}, "expected no more than the 8 of the sample");
  check_wrong({"--sample", "4", "--plan", "iso2859"}, "--plan");
  check_wrong({"--plan", "iso2858"}, "did you mean \"iso2859\"?");
  for (const char* bad : {"0", "-1", "1.5", "many", "4294967296", ""})
    check_wrong({"--sample", bad}, "--sample");
  check_wrong({"--sample", "4", "--seed", "-1"}, "--seed");
  check_wrong({"--format", "json"}, "expected one of text, csv, html");
  check_wrong({"--box", "Z*"},
              "found no box that matches \"Z*\", expected at least one; the nearest ids are ");
  check_wrong({"--output", "/nowhere/at/all"}, "/nowhere/at/all");
  CHECK(call({"tally"}).status == 2);
  CHECK(call({"tally", "/nowhere.json"}).status == 3);
}

TEST_CASE("tally: a design from standard input, and one that cannot be read") {
  const Called piped = call({"tally", "-", "--format", "csv"}, {example_text("saltmarsh.json"), false, {}});
  CHECK(piped.status == 0);
  CHECK(ids_in(piped.out) == all_ids());
  const Called bad = call({"tally", "-"}, {"{\"format\": \"boxproof-design/2\"}", false, {}});
  CHECK(bad.status == 3);
  CHECK(bad.out.empty());
  CHECK(bad.complains("<stdin>:1:"));
  CHECK(bad.complains("nothing was judged"));
}

TEST_CASE("tally: a plan without boxes is no plan") {
  Json empty = example_json("saltmarsh.json");
  empty["combiners"] = Json::array();
  const Called c = call({"tally", "-", "--sample", "3"}, {empty.dump(), false, {}});
  CHECK(c.status == 3);
  CHECK(c.out.empty());
  CHECK(c.complains("/combiners: found an empty list"));
}

TEST_CASE("tally: with CSV the choice stands on standard error, of a sample alone") {
  CHECK(tally({"--format", "csv"}).err.empty());
  CHECK(tally({"--format", "csv", "--box", "A-*"}).err.empty());
  const Called sample = tally({"--format", "csv", "--sample", "4", "--low-c", "-12"});
  CHECK(tells(sample.err, "A sample of 4 out of the 50 boxes of the plan"));
  CHECK(tells(sample.err, "A sample shows nothing about boxes that were not opened."));
  CHECK(tells(sample.err, "Changed on the command line: site.low_c is −12 °C"));
}

TEST_CASE("tally: to a file") {
  const Folder folder;
  const Called c = tally({"--format", "csv", "--output", folder.path("sheet.csv")});
  CHECK(c.status == 0);
  CHECK(c.out.empty());
  CHECK(ids_in(folder.get("sheet.csv")) == all_ids());
}

TEST_CASE("tally: a sheet that comes back empty asks of each box whether it was visited") {
  const Folder folder;
  const std::string record = folder.put("visit.csv", tally({"--format", "csv"}).out);
  const Called c = call({"check", clean, "--asbuilt", record, "--format", "json"});
  CHECK(c.status == 0);
  CHECK(c.err.empty());
  std::size_t asked = 0;
  const Json report = Json::parse(c.out);
  for (const Json& finding : report["findings"])
    if (finding["rule"] == "tally/not-visited") {
      ++asked;
      CHECK(finding["severity"] == "query");
    }
  CHECK(asked == all_ids().size());
}

TEST_CASE(
    "tally: a sheet filled in with what the plan has gives no tally finding; one other number gives one") {
  const auto plan = judge_example("saltmarsh.json");
  const Json found = record_as_planned(*plan, Posted::computed)["boxes"];
  std::vector<Cells> rows = read_csv(tally({"--format", "csv"}).out);
  REQUIRE(rows.size() == found.size() + 1);
  const Cells header = rows.front();
  const auto fill = [&](Cells& row, const Json& box) {
    REQUIRE(row[0] == box["id"]);
    const auto put = [&](const char* column, const Json& value) {
      if (value.is_null()) return;
      row[static_cast<std::size_t>(std::find(header.begin(), header.end(), column) - header.begin())] =
          value.is_string() ? value.get<std::string>() : value.dump();
    };
    for (const char* key : {"positive", "negative", "fuses"}) put(key, box["count"][key]);
    std::string series;
    for (const Json& n : box["count"]["series"]) series += (series.empty() ? "" : ";") + n.dump();
    put("series", series);
    for (const char* key : {"a", "v", "dc"})
      put(("fuse_" + std::string(key)).c_str(), box.value("fuse", Json::object()).value(key, Json()));
    for (const char* key : {"id", "strings", "series"})
      put(("posted_" + std::string(key)).c_str(), box["posted"].value(key, Json()));
  };
  for (std::size_t i = 0; i < found.size(); ++i) fill(rows[i + 1], found[i]);
  const auto tally_findings = [&] {
    std::string csv;
    for (const Cells& row : rows)
      for (std::size_t i = 0; i < row.size(); ++i) csv += row[i] + (i + 1 < row.size() ? "," : "\r\n");
    const Folder folder;
    const Called c = call({"check", clean, "--asbuilt", folder.put("visit.csv", csv), "--format", "json"});
    CHECK(c.err.empty());
    std::vector<std::string> out;
    const Json report = Json::parse(c.out);
    for (const Json& f : report["findings"])
      if (f["rule"].get<std::string>().starts_with("tally/"))
        out.push_back(f["rule"].get<std::string>() + " " + f["box"].get<std::string>());
    return out;
  };
  CHECK(tally_findings().empty());
  rows[4][6] = "600";  // fuse_v of A-04
  CHECK(tally_findings() == std::vector<std::string>{"tally/fuse A-04"});
}
