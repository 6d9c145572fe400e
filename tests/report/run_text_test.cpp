// The reports of many designs for people: text with a table, and Markdown.
#include <algorithm>

#include "boxproof/run_report.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/hostile.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/page.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Strings = std::vector<std::string>;

// Designs to be told together.
struct Told {
  std::vector<std::unique_ptr<Judged>> judged;
  std::vector<InputError> errors;
  struct Row {
    std::string path;
    const Judged* judged;
    std::size_t error;
    Strings overrides;
  };
  std::vector<Row> rows;
  RunTotals totals;

  Judged& add(const std::string& path, const Json& design, Strings overrides = {}) {
    judged.push_back(judge(design));
    rows.push_back({path, judged.back().get(), 0, std::move(overrides)});
    return *judged.back();
  }
  void add_unread(const std::string& path, std::size_t problems) {
    std::vector<Problem> some(std::min<std::size_t>(problems, 50),
                              Problem{path, 3, 4, "/site", "found *it*"});
    errors.emplace_back(std::move(some), problems);
    rows.push_back({path, nullptr, errors.size() - 1, {}});
    ++totals.unread;
  }

  std::string page(std::unique_ptr<RunReport> report, bool show_work = false) {
    std::string out;
    const Write write = [&out](std::string_view text) { out += text; };
    RunTotals all = totals;
    for (const Row& row : rows) {
      if (row.judged == nullptr) {
        report->take(report->piece({row.path, nullptr, &errors[row.error]}), write);
        continue;
      }
      const Judged& j = *row.judged;
      const ReportInput input{j.design, nullptr, j.edition, j.judgement, row.overrides, show_work};
      report->take(report->piece({row.path, &input, nullptr}), write);
      ++all.designs;
      ++all.verdicts[static_cast<std::size_t>(j.judgement.verdict)];
      for (std::size_t i = 0; i < all.counts.size(); ++i) all.counts[i] += j.judgement.counts[i];
      for (const Finding& f : j.judgement.findings)
        all.known[static_cast<std::size_t>(f.severity)] += f.known;
    }
    report->finish(all, write);
    return out;
  }
};

// A hazard and a correction.
const Json hazard = with_box({{"fuse", {{"a", 30}}}, {"disconnect", {{"distance_m", 30}}}});

// The rows of the table, each on one line.
Strings table(const std::string& page) {
  Strings out;
  bool in_table = false;
  for (const std::string& line : lines_of(page)) {
    if (line.empty()) in_table = false;
    if (in_table) out.push_back(line);
    if (line == "DESIGNS") in_table = true;
  }
  return out;
}

bool has(const std::string& page, std::string_view text) {
  return page.find(text) != std::string::npos;
}

}  // namespace

TEST_CASE("the table has every design with its verdict and counts, and the sums") {
  Told t;
  t.add("a.json", sound_design());
  t.add("s/b.json", hazard);
  t.add("c.json", with({{"site", {{"temperature_source", nullptr}}}}));
  t.add_unread("d.json", 3);
  t.totals.skipped = 1;
  const std::string page = t.page(text_report(false));
  CAPTURE(page);
  const Strings rows = table(page);
  REQUIRE(rows.size() == 7);
  CHECK(rows[0] == "  verdict     hazard  corr.  query advice  design");
  CHECK(rows[1] == "  accept           0      0      0      0  a.json");
  CHECK(rows[2] == "  stop             1      1      0      0  s/b.json");
  CHECK(rows[3] == "  clarify          0      0      1      0  c.json");
  CHECK(rows[4] == "  not judged       –      –      –      –  d.json");
  CHECK(rows[5] == "  in all           1      1      1      0");
  CHECK(rows[6] == "  not judged: what is wrong stands on standard error");
  CHECK(has(page,
            "\nDesigns: 1 to stop, 1 to clarify, 1 to accept; 1 not judged; 1 file skipped,\n"
            "         which is no design\n"));
  CHECK(has(page, "\nFindings: 1 hazard, 1 correction, 1 query, 0 pieces of advice\n"));
  CHECK(page.starts_with("boxproof 0.1.0"));
  CHECK(lines_of(page)[0].ends_with(" 4 designs, 1 not judged"));
  CHECK(columns_of(lines_of(page)[0]) == 80);
  CHECK(too_wide(page) == Strings{});
}

TEST_CASE("the entries of a design are those of its own report") {
  Told t;
  const Judged& j = t.add("b.json", hazard);
  for (const bool show_work : {false, true}) {
    const std::string page = t.page(text_report(false), show_work);
    std::string alone;
    write_text({j.design, nullptr, j.edition, j.judgement, {}, show_work},
               [&](std::string_view text) { alone += text; });
    const std::string entries =
        alone.substr(alone.find("HAZARDS:"), alone.find("This is an aid") - alone.find("HAZARDS:"));
    CHECK(entries.size() > 500);
    CHECK(has(page, entries));
    CHECK(has(page, alone.substr(alone.find("VERDICT"),
                                 alone.find("\n\n", alone.find("VERDICT")) - alone.find("VERDICT"))));
  }
}

TEST_CASE("findings on the baseline are counted with the others, and how many they are is said") {
  Told t;
  Judged& j = t.add("b.json", hazard);
  REQUIRE_FALSE(has(t.page(text_report(false)), "baseline"));
  for (Finding& f : j.judgement.findings) f.known = f.severity != Severity::hazard;
  CHECK(has(t.page(text_report(false)),
            "\nFindings: 1 hazard, 1 correction, 0 queries, 0 pieces of advice (of them 1 on\n"
            "          the baseline)\n"));
  CHECK(has(t.page(markdown_report()), "0 pieces of advice (of them 1 on the baseline)\n"));
}

TEST_CASE("what a run says of the files beside it stands with the sums") {
  Told t;
  t.add("a.json", sound_design());
  t.totals.remarks = {"agreed.json: 1 entry matches nothing\x1b[2J", "second"};
  CHECK(has(t.page(text_report(false)),
            "pieces of advice\nagreed.json: 1 entry matches nothing\\u{1B}[2J\nsecond\n\nThis is"));
  CHECK(has(t.page(markdown_report()), "\n- agreed.json: 1 entry matches nothing"));
}

TEST_CASE("a long path keeps all its names, on lines of its own") {
  Told t;
  const std::string deep =
      "sites/a-northern-county/a-town-with-a-long-name/the-third-phase/hall-2/combiners-as-submitted.json";
  const std::string one = std::string(200, 'x') + ".json", fits = std::string(32, 'y') + ".json";
  t.add(deep, hazard);
  t.add(one, hazard);
  t.add(fits, sound_design());
  t.add(fits + "z", sound_design());
  t.add_unread(deep + "2", 1);
  const std::string page = t.page(text_report(false));
  CAPTURE(page);
  CHECK(too_wide(page) == Strings{});
  const Strings rows = table(page);
  CHECK(rows[1] == "  stop             1      1      0      0");
  CHECK(rows[2] == "    sites/a-northern-county/a-town-with-a-long-name/the-third-phase/hall-2/");
  CHECK(rows[3] == "    combiners-as-submitted.json");
  CHECK(rows[4] == rows[1]);
  std::string joined = rows[5].substr(4) + rows[6].substr(4) + rows[7].substr(4);
  CHECK(joined == one);
  CHECK(rows[8] == "  accept           0      0      0      0  " + fits);
  CHECK(columns_of(rows[8]) == 80);
  CHECK(rows[9] == "  accept           0      0      0      0");
  CHECK(rows[10] == "    " + fits + "z");
}

TEST_CASE("hostile paths: harmless, whole, and taken for no mark of the table") {
  for (const Hostile& hostile : hostile_texts()) {
    CAPTURE(std::string(hostile.what));
    Told t;
    t.add("s/" + hostile.text + ".json", hazard);
    t.add_unread(hostile.text, 1);
    for (const bool colour : {false, true}) {
      const std::string page = without_colour(t.page(text_report(colour)));
      CHECK(harm_in(page) == "");
      CHECK(too_wide(page) == Strings{});
    }
    CHECK(harm_in(t.page(markdown_report())) == "");
  }
  Told t;
  t.add("a*.json", sound_design());
  t.add("b†.json", sound_design());
  CHECK_FALSE(has(t.page(text_report(false)), "* judged with"));
  CHECK_FALSE(has(t.page(text_report(false)), "† with"));
}

TEST_CASE("a design that was judged by other values is marked, with a finding or without") {
  Told t;
  t.add("a.json", sound_design(), {"site.low_c is −5 °C (the file says −10 °C)"});
  t.add("b.json",
        with({{"code", {{"amendments", {{"conductor", {{"voltage_drop", {{"max_pct", 1.5}}}}}}}}}}));
  t.add("c.json", sound_design());
  const Strings rows = table(t.page(text_report(false)));
  CHECK(rows[1].starts_with("  accept *  "));
  CHECK(rows[3].starts_with("  accept    "));
  CHECK(rows[5].starts_with("  * judged with values"));
  CHECK(has(t.page(markdown_report()),
            "- `a.json`: **ACCEPT**, 0 hazards, 0 corrections, 0 queries, 0 pieces of "
            "advice; judged with changed values\n"));
}

TEST_CASE("colour says nothing that words do not") {
  Told t;
  t.add("a.json", sound_design());
  t.add("b.json", hazard);
  t.add_unread("c.json", 1);
  const std::string page = t.page(text_report(true));
  CHECK(has(page, "\x1b["));
  CHECK(without_colour(page) == t.page(text_report(false)));
}

TEST_CASE("Markdown: a list of all, a section a design that has something, headings one level down") {
  Told t;
  t.add("a.json", sound_design());
  Judged& j = t.add("s/`b`.json", hazard);
  t.add_unread("c.json", 60);
  const std::string page = t.page(markdown_report());
  CAPTURE(page);
  Strings headings;
  for (const std::string& line : lines_of(page))
    if (line.starts_with("#")) headings.push_back(line);
  CHECK(headings == Strings{"# Correction lists: 3 designs, 1 not judged", "## All designs",
                            "## Correction list: Test site", "### Hazards: stop, unsafe as it stands",
                            "### Corrections: to be corrected before approval", "## Not judged: `c.json`"});
  CHECK(has(page, "\n- `a.json`: **ACCEPT**, 0 hazards,"));
  CHECK(has(page, "\n- ``s/`b`.json``: **STOP**, 1 hazard, 1 correction,"));
  CHECK(has(page, "\n- `c.json`: **NOT JUDGED**, 60 problems with the input\n"));
  CHECK(has(page, "\nFile: ``s/`b`.json``\n"));
  CHECK(has(page, "\n- c.json:3:4: /site: found \\*it\\*\n"));
  CHECK(has(page, "\n- … and 10 more\n"));
  CHECK(page.find("**Caution.**") == page.rfind("**Caution.**"));
  // But for the depth of headings, the section is what the design's own list says.
  std::string alone;
  write_markdown({j.design, nullptr, j.edition, j.judgement, {}},
                 [&](std::string_view text) { alone += text; });
  const auto from = alone.find("Plan check"), to = alone.find("> **Caution");
  std::string section = alone.substr(from, to - from);
  for (std::size_t at = section.find("\n## "); at != std::string::npos; at = section.find("\n## ", at + 4))
    section.insert(at + 1, "#");
  CHECK(has(page, section));
}
