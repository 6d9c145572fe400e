// Every cell of the matrix rule × edition, in each format, against the data files; and how a row is laid out.
#include "src/report/rule_matrix.hpp"

#include <array>
#include <nlohmann/json.hpp>
#include <set>

#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/page.hpp"
#include "tests/support/rule_cells.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Json = nlohmann::json;
using Strings = std::vector<std::string>;

// What stands below the title of a rule in the list, on one line.
std::string row_in_list(const Strings& lines, const Rule& rule) {
  std::size_t at = 0;
  while (at < lines.size() && !lines[at].starts_with(std::string(rule.id) + " ")) ++at;
  REQUIRE(at + 2 < lines.size());
  CHECK(lines[at].ends_with(" " + std::string(severity_names[static_cast<std::size_t>(rule.severity)])));
  REQUIRE(lines[at + 1] == "    " + std::string(rule.title));
  std::string row;
  for (at += 2; at < lines.size() && lines[at].starts_with("    "); ++at)
    row += (row.empty() ? "" : " ") + lines[at].substr(lines[at].find_first_not_of(' '));
  return row;
}

// Editions that state what the test wants of a rule "x/y"; an empty section: they do not have it.
Edition edition(std::string name, std::string section, bool unverified = false) {
  Edition e;
  e.name = std::move(name);
  if (!section.empty()) e.rules["x/y"] = {std::move(section), unverified};
  return e;
}
const Rule xy{.id = "x/y", .severity = Severity::query, .title = "", .explain = {}, .remedy = ""};

}  // namespace

TEST_CASE("text: every cell of the list is that of the data") {
  const Called list = call({"rules"});
  REQUIRE(list.status == 0);
  const auto lines = lines_of(list.out);
  for (const Rule* rule : all_rules()) {
    CAPTURE(std::string(rule->id));
    CHECK(cells_of_row(row_in_list(lines, *rule)) == cells_of_data(rule->id));
  }
}

// The text with every run of spaces and line ends as one space.
static std::string flat(const std::string& text) {
  std::string out;
  for (const char c : text)
    if (c != ' ' && c != '\n')
      out += c;
    else if (out.empty() || out.back() != ' ')
      out += ' ';
  return out;
}

TEST_CASE("text: every cell of each rule's page is that of the data") {
  for (const Rule* rule : all_rules()) {
    const Called page = call({"rules", std::string(rule->id)});
    bool starred = false;
    for (const auto& [name, cell] : cells_of_data(rule->id)) {
      CAPTURE(std::string(rule->id), name, cell);
      CHECK(flat(page.out).find(" " + name + " " + cell + " ") !=
            std::string::npos);  // long ones are wrapped
      starred = starred || cell.ends_with('*');
    }
    CHECK(page.says("* from memory, unverified") == starred);
  }
}

TEST_CASE("JSON: every rule with its texts, and every cell") {
  const Json list = Json::parse(call({"rules", "--format", "json"}).out);
  CHECK(list["format"] == "boxproof-rules/1");
  REQUIRE(list["editions"].size() == edition_names.size());
  for (std::size_t i = 0; i < edition_names.size(); ++i) {
    CHECK(list["editions"][i]["edition"] == edition_names[i]);
    CHECK(list["editions"][i]["title"].get<std::string>().find(edition_names[i]) != std::string::npos);
  }
  CHECK(list["caution"].get<std::string>().find("no approval") != std::string::npos);
  REQUIRE(list["rules"].size() == all_rules().size());
  for (std::size_t i = 0; i < all_rules().size(); ++i) {
    const Rule& rule = *all_rules()[i];
    const Json& said = list["rules"][i];
    CAPTURE(std::string(rule.id));
    CHECK(said["id"] == rule.id);
    CHECK(said["severity"] == severity_names[static_cast<std::size_t>(rule.severity)]);
    CHECK(said["title"] == rule.title);
    CHECK(said["finds"] == rule.explain[0]);
    CHECK(said["why"] == rule.explain[1]);
    CHECK(said["computed"] == rule.explain[2]);
    CHECK(said["remedy"] == rule.remedy);
    std::map<std::string, std::string> cells;
    for (const auto& [name, place] : said["editions"].items())
      cells[name] = place.is_null()
                        ? "–"
                        : place["section"].get<std::string>() + (place["unverified"].get<bool>() ? "*" : "");
    CHECK(cells == cells_of_data(rule.id));
  }
}

TEST_CASE("the list and the pages keep within 80 columns") {
  CHECK(too_wide(call({"rules"}).out) == Strings());
  for (const std::string_view name : edition_names)
    CHECK(too_wide(call({"rules", "--edition", std::string(name)}).out) == Strings());
  for (const Rule* rule : all_rules())
    CHECK(too_wide(call({"rules", std::string(rule->id)}).out) == Strings());
}

TEST_CASE("equal neighbours are run together, and nothing else") {
  const std::vector<Edition> all{edition("2008", "A"), edition("2011", "A"), edition("2014", "A", true),
                                 edition("2017", ""),  edition("2020", ""),  edition("2023", "A")};
  CHECK(report::sections_by_edition(xy, all) == Strings{"2008–2011 A", "2014 A*", "2017–2020 –", "2023 A"});
  // An edition between them was not asked for: nothing is said of it.
  const std::vector<Edition> gap{edition("2008", "A"), edition("2014", "A"), edition("2017", "A")};
  CHECK(report::sections_by_edition(xy, gap) == Strings{"2008 A", "2014–2017 A"});
  CHECK(report::names_of(gap) == "2008, 2014 and 2017");
  CHECK(report::names_of(std::span(gap).first(1)) == "2008");
  CHECK(report::stands_in(xy, all));
  CHECK_FALSE(report::stands_in(xy, std::span(all).subspan(3, 2)));
}

TEST_CASE("topics follow the order of the work, and every rule is in one") {
  const auto topics = report::by_topic(all_rules());
  std::set<const Rule*> seen;
  std::vector<std::string_view> desk, roof;
  for (const auto& topic : topics) {
    (topic.on_roof ? roof : desk).push_back(topic.name);
    if (!topic.on_roof) CHECK(roof.empty());
    for (const Rule* rule : topic.rules) {
      CHECK(rule->id.starts_with(std::string(topic.name) + "/"));
      CHECK(seen.insert(rule).second);
    }
  }
  CHECK(seen.size() == all_rules().size());
  CHECK(desk.front() == "site");
  CHECK(desk[1] == "voltage");
  CHECK(roof.front() == "tally");
  // A topic that nobody gave a heading stands behind those that have one.
  const std::array<const Rule*, 2> two{&xy, all_rules()[0]};
  const auto odd = report::by_topic(two);
  REQUIRE(odd.size() == 2);
  CHECK(odd[1].heading == "x");
  CHECK(odd[1].rules == std::vector<const Rule*>{&xy});
}
