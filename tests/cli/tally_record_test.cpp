// A field sheet in CSV that comes back as a field record: as it went out, and filled in.
#include <algorithm>

#include "tests/support/as_planned.hpp"
#include "tests/support/tally_sheet.hpp"

using namespace boxproof;
using namespace boxproof::test;

TEST_CASE("tally: a sheet that comes back empty asks of each box whether it was visited") {
  const Folder folder;
  const std::string record = folder.put("visit.csv", tally({"--format", "csv"}).out);
  const Called c = call({"check", clean_example, "--asbuilt", record, "--format", "json"});
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
    REQUIRE(box["id"] == row[0]);
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
    const Called c =
        call({"check", clean_example, "--asbuilt", folder.put("visit.csv", csv), "--format", "json"});
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
