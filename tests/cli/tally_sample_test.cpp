// The command tally: which boxes a sample takes, and what the sheet says of the choice.
#include <algorithm>
#include <map>

#include "tests/support/page.hpp"
#include "tests/support/tally_sheet.hpp"

using namespace boxproof;
using namespace boxproof::test;

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
              "A sample of 9 out of the 50 boxes of the plan: 5 for findings on the plan, then for the "
              "thinnest margins; 4 at random from the seed 1."));
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
  CHECK(tells(tally({"--sample", "3", "--thinnest", "3"}).out,
              ": all for findings on the plan, then for the thinnest margins."));
  CHECK(tells(tally({"--sample", "3", "--box", "A-*"}).out,
              "A sample of 3 out of the 28 boxes of --box A-*, of 50 on the plan: 2 for findings on the "
              "plan, then for the thinnest margins; 1 at random"));
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
  for (const std::string& line : lines_of(call({"check", clean_example}).out)) {
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
  CHECK(tells(colder, "hazard on the plan: String voltage above "));
  CHECK(tells(colder, "Changed on the command line: site.low_c is −15 °C"));
  CHECK_FALSE(tells(before, "on the plan: "));
  CHECK(tells(tally({"--high-c", "50"}).out, "site.high_c is 50 °C"));
  CHECK(tally({"--edition", "2020"}).says("field sheet, NEC 2020\n"));
}

TEST_CASE("tally: why a box was chosen, at its limit, over it, and where it cannot be shown to keep it") {
  const auto why = [](const char* rated_v, const char* cold) {
    Json design = sound_design();  // reaches 18 · 30 V · (1 + 0.3 % · 35) = 596.7 V; nothing else is so near
    design["site"]["low_c"] = cold == nullptr ? Json() : Json::parse(cold);
    if (cold == nullptr) design["site"].erase("low_c");
    design["combiners"][0]["fuse"]["a"] = 20;
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
  CHECK(why("500", "-10").starts_with("hazard on the plan: String voltage above the rating"));
  CHECK(why("600", nullptr) == "cannot be shown safe: not every voltage is known");
}

TEST_CASE("tally: boxes with findings on the plan come before thin margins, and the sheet says which") {
  const std::string faults = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh-faults.json";
  const auto taken = [&](const std::string& number) {
    std::map<std::string, std::string> out;  // why, by box
    const Called c = call({"tally", faults, "--sample", number, "--thinnest", number});
    const std::vector<std::string> lines = lines_of(c.out);
    for (std::size_t i = 1; i < lines.size(); ++i)
      if (lines[i].starts_with("  chosen  ")) out[lines[i - 1].substr(0, 4)] = lines[i].substr(10);
    return out;
  };
  const auto ids = [](const std::map<std::string, std::string>& of) {
    std::vector<std::string> out;
    for (const auto& [id, why] : of) out.push_back(id);
    return out;
  };
  // The faults planted in the example: four hazards, seven corrections, two queries.
  CHECK(ids(taken("4")) == std::vector<std::string>{"A-03", "A-06", "B-05", "B-10"});
  CHECK(ids(taken("11")) == std::vector<std::string>{"A-03", "A-06", "A-10", "A-12", "A-17", "A-20", "A-22",
                                                     "B-05", "B-10", "B-15", "B-22"});
  auto all = taken("14");
  CHECK(all["A-06"] == "hazard on the plan: Fuse larger than the module allows");
  CHECK(all["A-17"] == "correction on the plan: More inputs used than the box has");
  CHECK(all["B-02"] == "cannot be shown safe: circuits rows/run/length_m not stated");
  CHECK(all["B-08"] == "cannot be shown safe: fuse/dc not stated");
  CHECK(all["B-21"] == "thin margin, 0.0 % to fuse");
}

TEST_CASE("tally: as many as the published plan says") {
  const Called text = tally({"--plan", "iso2859"});
  CHECK(tells(
      text.out,
      "A sample of 8 out of the 50 boxes of the plan: 4 for findings on the plan, then for the thinnest "
      "margins; 4 at random"));
  CHECK(tells(text.out,
              "Size by ISO 2859-1:1999, Tables 1 and 2-A *, normal inspection, general inspection level II, "
              "single sampling: a lot of 50 has code letter D, a sample of 8."));
  CHECK(tells(text.out, "its acceptance numbers do not hold for boxes taken for findings or thin margins"));
  CHECK(tells(text.out, "* from memory, unverified; MIL-STD-105E has the same figures"));
  const Called random = tally({"--plan", "iso2859", "--thinnest", "0"});
  CHECK(tells(random.out, "all at random from the seed 1."));
  CHECK_FALSE(tells(random.out, "acceptance numbers"));
  CHECK(ids_of({"--plan", "iso2859", "--box", "A-0*"}).size() == 3);  // a lot of 9
  const Called one = tally({"--plan", "iso2859", "--box", "A-01"});
  CHECK(tells(one.out, "a lot of 1 is below its tables and is looked at whole."));
  CHECK(tells(one.out, "On this sheet: the 1 box of --box A-01, of 50 on the plan"));
}
