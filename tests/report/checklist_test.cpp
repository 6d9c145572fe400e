// The checklist in Markdown: complete, every cell as in the data, and no word of ours read as markup.
#include <cctype>
#include <set>

#include "src/report/markdown_text.hpp"
#include "src/report/rules.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/page.hpp"
#include "tests/support/rule_cells.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Strings = std::vector<std::string>;

std::string checklist(const Strings& more = {}) {
  Strings arguments{"rules", "--format", "markdown"};
  arguments.insert(arguments.end(), more.begin(), more.end());
  const Called c = call(arguments);
  REQUIRE(c.status == 0);
  return c.out;
}

// What a reader of Markdown shows: a backslash in front of punctuation is dropped.
std::string shown_text(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\\' && i + 1 < text.size() && std::ispunct(static_cast<unsigned char>(text[i + 1]))) ++i;
    out += text[i];
  }
  return out;
}

// Cells of a table's row, as shown.
Strings cells(const std::string& row) {
  Strings out;
  std::string cell;
  for (std::size_t i = 1; i < row.size(); ++i) {
    if (row[i] == '|' && row[i - 1] != '\\') {
      REQUIRE(cell.size() > 2);  // a blank on either side
      out.push_back(shown_text(cell.substr(1, cell.size() - 2)));
      cell.clear();
    } else {
      cell += row[i];
    }
  }
  CHECK(cell.empty());  // the row ends with a stroke
  return out;
}

// The lines below an item's first, without their labels.
Strings item(const Strings& lines, std::string_view id) {
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (!lines[i].starts_with("- [ ] ") || !lines[i].ends_with(", `" + std::string(id) + "`)")) continue;
    Strings out{lines[i]};
    const char* labels[] = {"  - *Check:* ", "  - *Why:* ", "  - *How:* ", "  - *Do:* ", "  - *Section:* "};
    for (const std::string label : labels) {
      REQUIRE(lines.at(++i).starts_with(label));
      out.push_back(shown_text(lines[i].substr(label.size())));
    }
    return out;
  }
  return {};
}

std::string write(void (*writer)(std::span<const Rule* const>, std::span<const Edition>, const Write&),
                  const Rule& rule, const Edition& edition) {
  std::string out;
  const Rule* const one[] = {&rule};
  writer({one, 1}, {&edition, 1}, [&](std::string_view text) { out += text; });
  return out;
}

}  // namespace

TEST_CASE("every rule is an item with its whole text and its sections") {
  const auto lines = lines_of(checklist());
  std::size_t items = 0;
  for (const std::string& line : lines) items += line.starts_with("- [ ] ");
  CHECK(items == all_rules().size());
  for (const Rule* rule : all_rules()) {
    CAPTURE(std::string(rule->id));
    const Strings said = item(lines, rule->id);
    REQUIRE(said.size() == 6);
    CHECK(shown_text(said[0]).starts_with(
        "- [ ] **" + std::string(rule->title) + "** (" +
        std::string(severity_names[static_cast<std::size_t>(rule->severity)]) + ", "));
    CHECK(said[1] == rule->explain[0]);
    CHECK(said[2] == rule->explain[1]);
    CHECK(said[3] == rule->explain[2]);
    CHECK(said[4] == rule->remedy);
    CHECK(cells_of_row(said[5]) == cells_of_data(rule->id));
  }
}

TEST_CASE("the matrix has a row for every rule and a cell for every edition") {
  const std::string page = checklist();
  const auto lines = lines_of(page.substr(page.find("## Sections by edition")));
  std::set<std::string> seen;
  for (const std::string& line : lines) {
    if (!line.starts_with("| `")) continue;
    const Strings row = cells(line);
    REQUIRE(row.size() == 1 + edition_names.size());
    const std::string id = row[0].substr(1, row[0].size() - 2);
    CAPTURE(id);
    CHECK(find_rule(id) != nullptr);
    CHECK(seen.insert(id).second);
    for (std::size_t i = 0; i < edition_names.size(); ++i) CHECK(row[i + 1] == cell_of(edition_names[i], id));
  }
  CHECK(seen.size() == all_rules().size());
}

TEST_CASE("every row of a table has as many cells as its head") {
  std::size_t width = 0, tables = 0;
  for (const std::string& line : lines_of(checklist())) {
    if (!line.starts_with("|")) {
      width = 0;
      continue;
    }
    const Strings row = cells(line);
    if (width == 0) ++tables;
    if (width != 0) CHECK(row.size() == width);
    width = row.size();
  }
  CHECK(tables == 3);  // whose it is, severities, matrix
}

TEST_CASE("it says what it is, and who decides") {
  const std::string page = checklist();
  for (const char* said :
       {"# DC combiner boxes: checklist", "aid to review and no approval", "authority having jurisdiction",
        "stays energised from the array", "Licensed and qualified persons", "\\* from memory, unverified",
        "| **hazard** | stop, unsafe as it stands |", "| **advice** |"})
    CHECK(page.find(said) != std::string::npos);
  CHECK(page.find("## At the desk") < page.find("## On the roof"));
  CHECK(page.find("## On the roof") < page.find("## Sections by edition"));
}

// 2008 asks for no listing of fuses and for no disconnect at a box (the matrix in tests/published).
TEST_CASE("one edition: its own items, and the names of the others") {
  const std::string page = checklist({"--edition", "2008"});
  const auto lines = lines_of(page);
  for (const Rule* rule : all_rules()) {
    CAPTURE(std::string(rule->id));
    const std::string cell = cell_of("2008", rule->id);
    const Strings said = item(lines, rule->id);
    CHECK(said.empty() == (cell == "–"));
    if (!said.empty()) CHECK(said[5] == "2008 " + cell);
    CHECK(page.find("\n| `" + std::string(rule->id) + "` | ") != std::string::npos);
  }
  CHECK(page.find("\nNot asked for in 2008: `fuse/not-pv-listed`.\n") != std::string::npos);
  CHECK(page.find("\n| Rule | 2008 |\n") != std::string::npos);
}

TEST_CASE("characters of Markdown are escaped") {
  for (const auto& [text, expected] : std::vector<std::pair<std::string, std::string>>{
           {"plain words · 1.25 − 9 °C", "plain words · 1.25 − 9 °C"},
           {"a|b", "a\\|b"},
           {"690.7(C)*", "690.7(C)\\*"},
           {"site.low_c", "site.low\\_c"},
           {"<b>", "\\<b\\>"},
           {"[1](x)", "\\[1\\](x)"},
           {"`x`", "\\`x\\`"},
           {"~~x~~ $y$ &amp; \\", "\\~\\~x\\~\\~ \\$y\\$ \\&amp; \\\\"}}) {
    CHECK(report::markdown(text) == expected);
    CHECK(shown_text(report::markdown(text)) == text);
  }
}

TEST_CASE("no text of a rule and no section can break the page") {
  const Rule odd{.id = "x/y",
                 .severity = Severity::query,
                 .title = "A | B and *c*",
                 .explain = {"Takes a_b_c | <i>.", "Why *not* `this`.", "By [x](y)."},
                 .remedy = "Do ~~that~~ | this."};
  Edition edition;
  edition.name = "2017";
  edition.rules["x/y"] = {"1|2_3_", true};
  const std::string page = write(report::write_checklist, odd, edition);
  const Strings said = item(lines_of(page), "x/y");
  REQUIRE(said.size() == 6);
  CHECK(said[0] == "- [ ] **A \\| B and \\*c\\*** (query, each box, `x/y`)");
  CHECK(said[1] == odd.explain[0]);
  CHECK(said[2] == odd.explain[1]);
  CHECK(said[4] == odd.remedy);
  CHECK(page.find("| `x/y` | 1\\|2\\_3\\_\\* |\n") != std::string::npos);
  std::string one;
  report::write_rule_markdown(odd, {&edition, 1}, [&](std::string_view text) { one += text; });
  for (const char* line :
       {"# A \\| B and \\*c\\*\n", "\nTakes a\\_b\\_c \\| \\<i\\>.\n", "\nBy \\[x\\](y).\n",
        "\nDo \\~\\~that\\~\\~ \\| this.\n", "\n| 2017 | 1\\|2\\_3\\_\\* |\n"})
    CHECK(one.find(line) != std::string::npos);
}

TEST_CASE("one rule's page in Markdown has its whole text and every cell") {
  for (const Rule* rule : all_rules()) {
    const std::string page = checklist({std::string(rule->id)});
    CAPTURE(std::string(rule->id));
    CHECK(page.find("[ ]") == std::string::npos);  // a page to read, not a list to tick
    const std::string text = shown_text(page);
    CHECK(text.starts_with("# " + std::string(rule->title) + "\n"));
    for (const std::string_view paragraph : rule->explain)
      CHECK(text.find("\n" + std::string(paragraph) + "\n") != std::string::npos);
    CHECK(text.find("\n" + std::string(rule->remedy) + "\n") != std::string::npos);
    for (const auto& [name, cell] : cells_of_data(rule->id))
      CHECK(text.find("\n| " + name + " | " + cell + " |\n") != std::string::npos);
  }
}
