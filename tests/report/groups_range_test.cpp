// What a group says that it found, and what it says is required: a range, or each value apart.
#include "boxproof/rule.hpp"
#include "src/report/groups.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof;
using namespace boxproof::report;

namespace {

struct Row {
  const char* box;
  double found, required;
};

struct Made {
  std::vector<Finding> findings;
  Group group;
};

Made made(const std::vector<Row>& rows) {
  Made out;
  for (const Row& row : rows) {
    Finding& f = out.findings.emplace_back();
    f.box_id = row.box;
    f.found = row.found;
    f.required = row.required;
    f.unit = "A";
  }
  for (const Finding& f : out.findings) out.group.findings.push_back(&f);
  return out;
}

std::string found(const std::vector<Row>& rows) {
  return range_of(made(rows).group, &Finding::found);
}
std::string required(const std::vector<Row>& rows) {
  return range_of(made(rows).group, &Finding::required);
}

}  // namespace

TEST_CASE("one value that all have is said once") {
  CHECK(required({{"A-06", 20, 30}}) == "30 A");
  CHECK(required({{"A-06", 20, 30}, {"A-21", 25, 30}}) == "30 A");
  CHECK(found({{"A-06", 20, 30}, {"A-21", 20, 15}}) == "20 A");
}

TEST_CASE("what was found may be a range, what is required is none") {
  const std::vector<Row> two{{"A-06", 20, 30}, {"A-21", 21, 15}};
  CHECK(found(two) == "20 to 21 A");
  CHECK(required(two) == "15 A (A-21), 30 A (A-06)");
  const std::vector<Row> three{{"A-01", 20, 30}, {"A-02", 20, 15}, {"A-03", 20, 15}, {"A-04", 20, 10}};
  CHECK(required(three) == "10 A (A-04), 15 A (A-02, A-03), 30 A (A-01)");
}

TEST_CASE("from four values on: the least, the highest, and what decides") {
  CHECK(required({{"A-01", 20, 30}, {"A-02", 20, 15}, {"A-03", 20, 25}, {"A-04", 20, 10}}) ==
        "10 A … 30 A, by box");
  CHECK(required({{"A-01", 20, 30}, {"A-01", 20, 15}, {"A-01", 20, 25}, {"A-01", 20, 10}}) ==
        "10 A … 30 A, by part");
}

TEST_CASE("values of one box are told without it, and where the boxes would fill lines they are not named") {
  CHECK(required({{"A-01", 20, 30}, {"A-01", 20, 15}}) == "15 A, 30 A, by part");
  std::vector<std::string> ids;
  for (int i = 100; i < 130; i += 2) ids.push_back("box " + std::to_string(i));
  std::vector<Row> rows{{"A-01", 20, 30}};
  for (const std::string& id : ids) rows.push_back({id.c_str(), 20, 15});
  CHECK(required(rows) == "15 A, 30 A, by box");
}

TEST_CASE("values that are printed alike are one") {
  CHECK(required({{"A-01", 20, 113.04}, {"A-02", 20, 113.01}}) == "113 A");
}
