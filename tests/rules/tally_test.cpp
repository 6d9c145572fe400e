// Counts of a visit against the plan: strings, polarity, modules in series, and numbers that changed places.
#include <fmt/format.h>

#include "src/rules/tally.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/visit.hpp"

using namespace boxproof;

namespace {

constexpr std::string_view two_groups = R"("circuits": [
  { "id": "near", "module": "M", "series": 18, "strings": 8 },
  { "id": "far", "module": "M-13", "series": 18, "strings": 4 } ])";
constexpr std::string_view unlike_groups = R"("circuits": [
  { "id": "near", "module": "M", "series": 18, "strings": 8 },
  { "id": "far", "module": "M", "series": 16, "strings": 4 } ])";
constexpr std::string_view joined = R"("circuits": [
  { "id": "rows", "module": "M", "series": 10, "strings": 24, "strings_per_fuse": 2 } ])";

using Findings = std::vector<Finding>;

double number(const Amount& amount) {
  REQUIRE(std::holds_alternative<double>(amount));
  return std::get<double>(amount);
}

std::string text(const Amount& amount) {
  REQUIRE(std::holds_alternative<std::string>(amount));
  return std::get<std::string>(amount);
}

bool says(const Finding& f, std::string_view words) {
  return f.message.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("tally/strings: another number than planned") {
  const Findings all = judge_visit(tally_strings, "", R"("count": { "positive": 13, "negative": 13 })");
  const Finding& f = only(all);
  CHECK(f.severity == Severity::correction);
  CHECK(f.basis == Basis::as_built);
  CHECK(f.part == "strings");
  CHECK(number(f.found) == 13);
  CHECK(number(f.required) == 12);
  CHECK(f.unit == "strings");
  CHECK(f.section == "approved plan");
  CHECK(f.in_record);
  CHECK(f.place.pointer == "/boxes/0/count/positive");
  CHECK(f.message == "The inspector counted 13 strings in A-04; the plan has 12.");
}

TEST_CASE("tally/strings: as planned, or not counted") {
  CHECK(judge_visit(tally_strings, "", R"("count": { "positive": 12, "negative": 12 })").empty());
  CHECK(judge_visit(tally_strings, "", R"("count": { "positive": 11, "negative": 12 })")
            .empty());  // the larger
  CHECK(judge_visit(tally_strings, "", R"("count": { "fuses": 13 })").empty());
}

TEST_CASE("tally/strings: the count of negatives alone") {
  const Findings all = judge_visit(tally_strings, "", R"("count": { "negative": 1 })");
  CHECK(only(all).place.pointer == "/boxes/0/count/negative");
  CHECK(only(all).message == "The inspector counted 1 string in A-04; the plan has 12.");
}

TEST_CASE("tally/strings: several groups say where the difference is judged") {
  const Findings more = judge_visit(tally_strings, two_groups, R"("count": { "positive": 14 })");
  CHECK(only(more).message ==
        "The inspector counted 14 strings in A-04; the plan has 12; the surplus is judged as 2 in circuit "
        "far, by the "
        "highest short-circuit current.");
  const Findings fewer = judge_visit(tally_strings, two_groups, R"("count": { "positive": 7 })");
  CHECK(says(only(fewer),
             "the lack is judged as 1 in circuit near and 4 in "
             "circuit far"));
}

TEST_CASE("tally/strings: strings joined two to a fuse") {
  CHECK(judge_visit(tally_strings, joined, R"("count": { "positive": 24 })").empty());
  CHECK(judge_visit(tally_strings, joined, R"("count": { "positive": 12 })").empty());
  // 24 strings on 12 inputs: from 18 down a count is nearer to the inputs (18 is as near to both).
  struct {
    int counted, strings;
    const char* read;
  } const rows[] = {{0, 0, "read as inputs with 0 strings joined on them"},
                    {11, 22, "read as inputs with 22 strings joined on them"},
                    {13, 26, "read as inputs with 26 strings joined on them"},
                    {18, 36, "read as inputs with 36 strings joined on them"},
                    {19, 19, "read as strings"},
                    {23, 23, "read as strings"},
                    {25, 25, "read as strings"}};
  for (const auto& row : rows) {
    CAPTURE(row.counted);
    const Findings all =
        judge_visit(tally_strings, joined, fmt::format(R"("count": {{ "positive": {} }})", row.counted));
    CHECK(number(only(all).found) == row.strings);
    CHECK(number(only(all).required) == 24);
    CHECK(only(all).message == fmt::format("The inspector counted {} in A-04, {}; the plan has 24 strings on "
                                           "12 inputs.",
                                           row.counted, row.read));
  }
}

TEST_CASE("tally/polarity") {
  const Findings all = judge_visit(tally_polarity, "", R"("count": { "positive": 12, "negative": 11 })");
  const Finding& f = only(all);
  CHECK(f.severity == Severity::hazard);
  CHECK(f.part == "polarity");
  CHECK(text(f.found) == "12 positive, 11 negative");
  CHECK(f.place.pointer == "/boxes/0/count/negative");
  CHECK(judge_visit(tally_polarity, "", R"("count": { "positive": 13, "negative": 13 })").empty());
  CHECK(judge_visit(tally_polarity, "", R"("count": { "positive": 12 })").empty());
}

TEST_CASE("tally/series: a hazard where the box then exceeds a voltage limit") {
  const Findings all =
      judge_visit(tally_series, "", R"("count": { "series": 19 })");  // 1022.7 V on a 1000 V inverter
  const Finding& f = only(all);
  CHECK(f.severity == Severity::hazard);
  CHECK(f.part == "series");
  CHECK(number(f.found) == 19);
  CHECK(number(f.required) == 18);
  CHECK(f.place.pointer == "/boxes/0/count/series");
  CHECK(f.message == "The inspector counted 19 modules in series in the strings of A-04; the plan has 18.");
}

TEST_CASE("tally/series: a correction where it does not") {
  const Findings all = judge_visit(tally_series, "", R"("count": { "series": 17 })");
  CHECK(only(all).severity == Severity::correction);
  CHECK(judge_visit(tally_series, "", R"("count": { "series": 18 })").empty());
  CHECK(judge_visit(tally_series, "", R"("count": { "positive": 13 })").empty());
}

TEST_CASE("tally/series: each part's rated voltage is a limit") {
  const auto severity = [](std::string_view box) {
    const Findings all = judge_visit(tally_series, box, R"("count": { "series": 17 })");  // 915.1 V
    return only(all).severity;
  };
  CHECK(severity("") == Severity::correction);
  CHECK(severity(R"("fuse": { "v": 900 })") == Severity::hazard);
  CHECK(severity(R"("disconnect": { "rated_v": 900 })") == Severity::hazard);
  CHECK(severity(R"("enclosure": { "rated_v": 900 })") == Severity::hazard);
  CHECK(severity(R"("output": { "run": { "conductor": "pv-900" } })") == Severity::hazard);
  CHECK(severity(R"("circuits": [ { "id": "rows", "module": "M-900", "series": 18, "strings": 12 } ])") ==
        Severity::hazard);
  CHECK(severity(R"("circuits": [ { "id": "rows", "module": "M", "series": 18, "strings": 12,
                                    "run": { "conductor": "pv-900" } } ])") == Severity::hazard);
}

TEST_CASE("tally/series: a limit that is a threshold makes no hazard") {
  // 2008: 600 V off buildings is where other articles begin.
  const VisitedPlan visit("", R"("count": { "series": 17 })", "2008");
  REQUIRE_FALSE(visit.edition.limit(Use::ground).ban);
  REQUIRE(visit.edition.limit(Use::ground).max < Volts(915));
  const Findings all = judge_visit(tally_series, visit);
  CHECK(only(all).severity == Severity::correction);
}

TEST_CASE("tally/series: groups of unlike length are told one by one") {
  const Findings all = judge_visit(tally_series, unlike_groups, R"("count": { "series": 18 })");
  CHECK(only(all).part == "circuit far");
  CHECK(number(only(all).required) == 16);
}

TEST_CASE("tally/series: a list runs through the groups") {
  const Findings all = judge_visit(tally_series, two_groups,
                                   R"("count": { "series": [18,18,18,18,18,18,18,17,18,18,16,17] })");
  REQUIRE(all.size() == 2);
  CHECK(all[0].part == "circuit near");
  CHECK(number(all[0].found) == 17);
  CHECK(all[0].message ==
        "The inspector found 1 with 17 in series among the 8 strings of circuit near of A-04; the plan has "
        "18.");
  CHECK(all[1].part == "circuit far");
  CHECK(text(all[1].found) == "16 and 17");
  CHECK(judge_visit(tally_series, unlike_groups,
                    R"("count": { "series": [18,18,18,18,18,18,18,18,16,16,16,16] })")
            .empty());
}

TEST_CASE("tally/series: a list of another length is a query") {
  const Findings shorter = judge_visit(tally_series, "", R"("count": { "series": [18, 18] })");
  CHECK(only(shorter).severity == Severity::query);
  CHECK(only(shorter).part == "series list");
  CHECK(number(only(shorter).required) == 12);
  const Findings counted = judge_visit(tally_series, "", R"("count": { "positive": 2, "series": [18, 18] })");
  CHECK(counted.empty());
  CHECK_FALSE(says(only(shorter), "longest"));
}

TEST_CASE("tally/series: a list of more strings than counted is judged with its longest") {
  // Two strings of three listed: 25 and 18 modules, the longest in a place that is beyond the count.
  const Findings all = judge_visit(tally_series, "", R"("count": { "positive": 2, "series": [18, 18, 25] })");
  REQUIRE(all.size() == 2);
  CHECK(all[0].part == "series list");
  CHECK(says(all[0], "cannot be told, so the box is judged with the longest of them."));
  CHECK(all[1].part == "circuit rows");
  CHECK(all[1].severity == Severity::hazard);
  CHECK(number(all[1].found) == 25);
}

TEST_CASE("tally/series: modules in all that strings and series do not add up to") {
  struct {
    const char *count, *message;  // empty: they agree, or cannot be compared
  } const rows[] = {
      {R"("positive": 12, "series": 18, "modules": 220)",  // 12 · 18 = 216
       "The inspector counted 220 modules on A-04, but 12 strings of 18 have 216: one of the counts is wrong."},
      {R"("positive": 12, "series": 18, "modules": 216)", ""},
      {R"("positive": 12, "negative": 13, "series": 18, "modules": 234)", ""},  // the larger count: 13 · 18
      {R"("series": 18, "modules": 220)", ""},                                  // nobody counted the strings
      {R"("positive": 12, "modules": 216)", ""},                                // nor here the series
      {R"("series": [18,18,18,18,18,18,18,18,18,18,18,18], "modules": 215)",
       "The inspector counted 215 modules on A-04, but the 12 strings listed have 216: one of the counts is "
       "wrong."}};
  for (const auto& row : rows) {
    CAPTURE(row.count);
    std::string message;
    for (const Finding& f : judge_visit(tally_series, "", fmt::format("\"count\": {{ {} }}", row.count)))
      if (f.part == "modules and strings") {
        message = f.message;
        CHECK(f.severity == Severity::query);
        CHECK(f.place.pointer == "/boxes/0/count/modules");
        CHECK(says(f, "wrong"));
      }
    CHECK(message == row.message);
  }
  // Numbers that changed places do not hide it.
  CHECK(
      judge_visit(tally_series, "", R"("count": { "positive": 18, "series": 12, "modules": 300 })").size() ==
      1);
}

TEST_CASE("tally/series: modules counted in all") {
  const Findings all = judge_visit(tally_series, "", R"("count": { "positive": 12, "modules": 215 })");
  CHECK(only(all).part == "modules");
  CHECK(only(all).severity == Severity::correction);
  CHECK(number(only(all).required) == 216);
  CHECK(judge_visit(tally_series, "", R"("count": { "modules": 216 })").empty());
  // 13 strings of 18: tally/strings says it.
  CHECK(judge_visit(tally_series, "", R"("count": { "positive": 13, "modules": 234 })").empty());
  // Counted string by string: the total adds nothing.
  CHECK(judge_visit(tally_series, "", R"("count": { "series": 18, "modules": 215 })").empty());
}

TEST_CASE("tally/transposed: plan and count") {
  constexpr std::string_view seen = R"("count": { "positive": 18, "series": 12 })";
  const Findings all = judge_visit(tally_transposed, "", seen);
  const Finding& f = only(all);
  CHECK(f.severity == Severity::correction);
  CHECK(f.part == "counts");
  CHECK(text(f.found) == "18 strings of 12");
  CHECK(text(f.required) == "12 strings of 18");
  CHECK(f.message ==
        "The plan of A-04 has 12 strings of 18, and the inspector counted 18 strings of 12: the two "
        "numbers changed places.");
  CHECK(judge_visit(tally_strings, "", seen).empty());
  CHECK(judge_visit(tally_series, "", seen).empty());
}

TEST_CASE("tally/transposed: plan and label") {
  constexpr std::string_view seen =
      R"("posted": { "strings": 18, "series": 12 }, "count": { "positive": 12, "series": 18 })";
  const Findings all = judge_visit(tally_transposed, "", seen);
  CHECK(only(all).place.pointer == "/boxes/0/posted/strings");
  CHECK(only(all).message ==
        "The plan of A-04 has 12 strings of 18, and the label on it says 18 strings of 12: the "
        "two numbers changed places.");
  CHECK(judge_visit(tally_label, "", seen).empty());
}

TEST_CASE("tally/transposed: label and count both differ from the plan alike") {
  constexpr std::string_view seen =
      R"("posted": { "strings": 18, "series": 12 }, "count": { "positive": 18, "series": 12 })";
  const Findings all = judge_visit(tally_transposed, "", seen);
  CHECK(says(only(all),
             "has 12 strings of 18, and the label on it and the inspector's count both say 18 strings"));
  CHECK(judge_visit(tally_strings, "", seen).empty());
  CHECK(judge_visit(tally_series, "", seen).empty());
  CHECK(judge_visit(tally_label, "", seen).empty());
}

TEST_CASE("tally/transposed: a label that agrees with the plan is not told again") {
  constexpr std::string_view seen =
      R"("posted": { "strings": 12, "series": 18 }, "count": { "positive": 18, "series": 12 })";
  CHECK(judge_visit(tally_transposed, "", seen).size() == 1);
  CHECK(judge_visit(tally_label, "", seen).empty());
}

TEST_CASE("tally/transposed: label and count, where the plan explains neither") {
  constexpr std::string_view seen =
      R"("posted": { "strings": 15, "series": 14 }, "count": { "positive": 14, "series": 15 })";
  const Findings all = judge_visit(tally_transposed, "", seen);
  CHECK(says(only(all),
             "The label on A-04 has 15 strings of 14, and the "
             "inspector counted 14 strings of 15"));
  CHECK(judge_visit(tally_strings, "", seen).size() == 1);  // the plan's 12 are still another number
  CHECK(judge_visit(tally_series, "", seen).size() == 1);
  CHECK(judge_visit(tally_label, "", seen).size() == 2);
}

TEST_CASE("tally/transposed: accounts that are no swap") {
  const auto silent = [](std::string_view box, std::string_view seen) {
    return judge_visit(tally_transposed, box, seen).empty();
  };
  CHECK(silent("", R"("count": { "positive": 12, "series": 18 })"));
  CHECK(silent("", R"("count": { "positive": 18, "series": 18 })"));
  CHECK(silent("", R"("count": { "positive": 18 })"));
  CHECK(silent("", R"("count": { "positive": 24, "series": 9 })"));  // the same total, but no swap
  CHECK(silent(R"("circuits": [ { "id": "rows", "module": "M", "series": 12, "strings": 12 } ])",
               R"("count": { "positive": 12, "series": 12 })"));
  CHECK(silent(unlike_groups, R"("count": { "positive": 18, "series": 12 })"));
  CHECK_FALSE(silent(two_groups, R"("count": { "positive": 18, "series": 12 })"));
  CHECK_FALSE(
      silent("", R"("count": { "positive": 18, "series": [12,12,12,12,12,12,12,12,12,12,12,12,12,12,12,12,
                                                                  12,12] })"));
}
