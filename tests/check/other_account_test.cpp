// A finding that holds two accounts against each other leads to both places.
#include "boxproof/rule.hpp"
#include "tests/support/as_planned.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/random_design.hpp"
#include "tests/support/region.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

Json record_of(Json box) {
  if (!box.contains("id")) box["id"] = "A-01";
  return {{"format", "boxproof-asbuilt/1"}, {"boxes", Json::array({box})}};
}

struct Row {
  Json seen;
  const char *rule, *part;
  const char* other;  // "file pointer", or empty
};

void check_rows(const Json& design, const std::vector<Row>& rows, std::string_view edition = {}) {
  for (const Row& row : rows) {
    const auto judged = judge(design, edition, record_of(row.seen));
    CAPTURE(row.seen.dump(), row.rule, row.part, judged->summary());
    const Finding* f = judged->find(row.rule, row.part);
    REQUIRE(f != nullptr);
    const FilePlace& other = f->other_account;
    CHECK((other.file.empty() ? "" : other.file + " " + other.pointer) == row.other);
    CHECK((other.line == 0) == other.file.empty());
  }
}

const Json two_groups = [] {
  Json design = sound_design();
  Json second = design["combiners"][0]["circuits"][0];
  second["id"] = "2";
  second["strings"] = 3;
  second["series"] = 17;
  design["combiners"][0]["circuits"].push_back(second);
  return design;
}();

}  // namespace

TEST_CASE("what the tally finds leads to the plan's account, or to the record's other one") {
  check_rows(
      sound_design(),
      {{{{"count", {{"positive", 8}, {"negative", 8}}}},
        "tally/strings",
        "strings",
        "design.json /combiners/0/circuits/0/strings"},
       {{{"count", {{"positive", 9}, {"negative", 8}}}},
        "tally/polarity",
        "polarity",
        "record.json /boxes/0/count/positive"},
       {{{"count", {{"positive", 8}, {"negative", 9}}}},
        "tally/polarity",
        "polarity",
        "record.json /boxes/0/count/negative"},
       {{{"count", {{"series", 17}}}},
        "tally/series",
        "series",
        "design.json /combiners/0/circuits/0/series"},
       {{{"count", {{"series", {18, 18, 17, 18, 18, 18, 18, 18, 18}}}}},
        "tally/series",
        "circuit 1",
        "design.json /combiners/0/circuits/0/series"},
       {{{"count", {{"series", {18, 18}}}}},
        "tally/series",
        "series list",
        "design.json /combiners/0/circuits/0/strings"},
       {{{"count", {{"positive", 9}, {"series", {18, 18}}}}},
        "tally/series",
        "series list",
        "record.json /boxes/0/count/positive"},
       {{{"count", {{"positive", 9}, {"series", 18}, {"modules", 160}}}},
        "tally/series",
        "modules and strings",
        "record.json /boxes/0/count/series"},
       {{{"count", {{"modules", 160}}}}, "tally/series", "modules", "design.json /combiners/0/circuits"},
       {{{"fuse", {{"a", 10}}}}, "tally/fuse", "fuse rating", "design.json /combiners/0/fuse/a"},
       {{{"count", {{"fuses", 8}}}},
        "tally/fuse",
        "fuse count",
        "design.json /combiners/0/circuits/0/strings"},
       {{{"count", {{"negative", 9}, {"fuses", 8}}}},
        "tally/fuse",
        "fuse count",
        "record.json /boxes/0/count/negative"},
       {{{"count", {{"fuses", 0}}}}, "tally/fuse", "fuse", "design.json /combiners/0/fuse"},
       {{{"mixed_fuses", {{{"position", 1}, {"a", 10}}}}},
        "tally/mixed-fuses",
        "mixed fuses",
        "design.json /combiners/0/fuse/a"},
       {{{"fuse", {{"a", 15}}}, {"mixed_fuses", {{{"position", 1}, {"a", 10}}}}},
        "tally/mixed-fuses",
        "mixed fuses",
        "record.json /boxes/0/fuse/a"},
       {{{"mixed_fuses", {{{"position", 40}, {"a", 15}}}}}, "tally/mixed-fuses", "fuse position", ""},
       {{{"posted", {{"id", "A-02"}}}}, "tally/label", "label id", "design.json /combiners/0/id"},
       {{{"posted", {{"strings", 8}}}},
        "tally/label",
        "label strings",
        "design.json /combiners/0/circuits/0/strings"},
       {{{"posted", {{"strings", 9}}}, {"count", {{"positive", 8}, {"negative", 8}}}},
        "tally/label",
        "label strings",
        "record.json /boxes/0/count/positive"},
       {{{"posted", {{"series", 18}}}, {"count", {{"series", 17}}}},
        "tally/label",
        "label series",
        "record.json /boxes/0/count/series"},
       {{{"posted", {{"fuse_a", 15}}}, {"fuse", {{"a", 10}}}},
        "tally/label",
        "label fuse_a",
        "record.json /boxes/0/fuse/a"},
       {{{"posted", {{"max_v", 100}}}}, "tally/label", "label max_v", ""},  // held against what is computed
       {{{"posted", {{"strings", 18}, {"series", 9}}}},
        "tally/transposed",
        "counts",
        "design.json /combiners/0/circuits"},
       {{{"output", {{"size", "2/0 AWG"}}}},
        "tally/part",
        "output size",
        "design.json /conductors/feeder/size"},
       {{{"source", {{"insulation", "THHN"}}}},
        "tally/part",
        "source insulation",
        "design.json /conductors/string/insulation"},
       {{{"egc", {{"size", "8 AWG"}}}}, "tally/part", "egc size", "design.json /combiners/0/egc/size"},
       {{{"enclosure", {{"type", "3R"}}}},
        "tally/part",
        "enclosure type",
        "design.json /combiners/0/enclosure/type"},
       {{{"enclosure", {{"cover", "up"}}}},
        "tally/part",
        "enclosure cover",
        "design.json /combiners/0/mounting/cover"},
       {{{"disconnect", {{"present", false}}}},
        "tally/part",
        "disconnect present",
        "design.json /combiners/0/disconnect"},
       {{{"disconnect", {{"present", false}, {"rated_a", 200}}}},
        "tally/part",
        "disconnect record",
        "record.json /boxes/0/disconnect/rated_a"},
       {{{"disconnect", {{"rated_a", 150}}}},
        "tally/part",
        "disconnect rated_a",
        "design.json /combiners/0/disconnect/rated_a"},
       {{{"disconnect", {{"works", false}}}}, "tally/part", "disconnect works", ""},
       {{{"id", "A-01"}}, "tally/not-visited", "visit", "design.json /combiners/0"},
       {{{"id", "A-77"}, {"count", {{"fuses", 9}}}}, "tally/not-on-plan", "id", ""},
       {{{"seen", {{{"what", "burned-bus"}}}}}, "condition/burned-bus", "inside", ""}});
}

TEST_CASE("of several groups the one that is off") {
  check_rows(two_groups, {{{{"count", {{"series", 18}}}},
                           "tally/series",
                           "circuit 2",
                           "design.json /combiners/0/circuits/1/series"},
                          {{{"count", {{"positive", 11}, {"negative", 11}}}},
                           "tally/strings",
                           "strings",
                           "design.json /combiners/0/circuits"}});
}

TEST_CASE("a group that does not state its one string is itself the account") {
  Json design = sound_design();
  design["combiners"][0]["circuits"][0].erase("strings");
  check_rows(design, {{{{"count", {{"positive", 2}, {"negative", 2}}}},
                       "tally/strings",
                       "strings",
                       "design.json /combiners/0/circuits/0"}});
}

TEST_CASE("what breaks a rule as found leads to what the plan has there") {
  check_rows(
      sound_design(),
      {{{{"fuse", {{"a", 30}}}}, "fuse/over-module-limit", "circuit 1", "design.json /combiners/0/fuse/a"},
       {{{"fuse", {{"v", 500}}}}, "voltage/equipment-rating", "fuse", "design.json /combiners/0/fuse/v"},
       {{{"count", {{"series", 31}}}}, "voltage/equipment-rating", "fuse", "design.json /combiners/0/fuse/v"},
       {{{"enclosure", {{"type", "1"}}}},
        "enclosure/type",
        "enclosure",
        "design.json /combiners/0/enclosure/type"},
       {{{"disconnect", {{"present", false}}}},
        "disconnect/missing",
        "disconnect",
        "design.json /combiners/0/disconnect"},
       {{{"count", {{"fuses", 0}}}}, "fuse/missing", "circuit 1", "design.json /combiners/0/fuse"},
       {{{"output", {{"size", "4 AWG"}}}},
        "conductor/after-conditions",
        "output conductor",
        "design.json /combiners/0/output/run/conductor"}});
}

TEST_CASE("what the plan does not state is no account") {
  Json design = sound_design();
  design["combiners"][0]["fuse"].erase("pv_listed");
  check_rows(design, {{{{"fuse", {{"pv_listed", false}}}}, "fuse/not-pv-listed", "fuse", ""}});
}

TEST_CASE("labels found lead to those of the plan, by kind and not by place in the list") {
  const Json labels = {{{"kind", "shock-both-sides"}},
                       {{"kind", "max-voltage"}, {"values", {{"max_v", 400}, {"max_a", 108}}}},
                       {{"kind", "disconnect"}, {"legible", false}}};
  check_rows(
      sound_design(),
      {{{{"labels", labels}},
        "label/values",
        "label max-voltage max_v",
        "design.json /combiners/0/labels/1/values/max_v"},
       {{{"labels", labels}}, "label/missing", "label disconnect", "design.json /combiners/0/labels/7"}});
}

TEST_CASE("a label of which the record gives no contents leads to its entry there") {
  // The plan's contents are judged, at the plan; that such a label is there, the record says.
  const Json record{{"count", {{"series", 20}, {"positive", 9}, {"negative", 9}}},
                    {"labels", {{{"kind", "disconnect"}}, {{"kind", "max-voltage"}}}}};
  const auto judged = judge(sound_design(), {}, record_of(record));
  const Finding* f = judged->find("label/values", "label max-voltage max_v");
  REQUIRE(f != nullptr);
  CHECK(f->place.file == "design.json");
  CHECK(f->other_account.file == "record.json");
  CHECK(f->other_account.pointer == "/boxes/0/labels/1");
}

TEST_CASE("a finding of the plan that is so with other numbers leads to the record") {
  Json design = sound_design();
  design["combiners"][0]["fuse"]["a"] = 25;
  const auto judged = judge(design, {}, record_of({{"fuse", {{"a", 30}}}}));
  const Finding* f = judged->find("fuse/over-module-limit", "circuit 1");
  REQUIRE(f != nullptr);
  CHECK(f->basis == Basis::design);
  CHECK(f->place.pointer == "/combiners/0/fuse/a");
  CHECK(f->other_account.file == "record.json");
  CHECK(f->other_account.pointer == "/boxes/0/fuse/a");

  const auto same = judge(design, {}, record_of({{"fuse", {{"a", 25}}}}));
  const Finding* unchanged = same->find("fuse/over-module-limit", "circuit 1");
  REQUIRE(unchanged != nullptr);
  CHECK(unchanged->other_account.file.empty());
}

TEST_CASE("a plan alone has no other account") {
  const auto judged = judge(with_box({{"fuse", {{"a", 30}}}, {"disconnect", nullptr}}));
  REQUIRE(!judged->findings().empty());
  for (const Finding& f : judged->findings()) CHECK(f.other_account.file.empty());
}

TEST_CASE("whatever was found, the other account is another place, and its own bytes") {
  std::size_t with_other = 0;
  for (std::uint32_t seed = 100; seed < 120; ++seed) {
    RandomSite site(seed);
    const Json design = site.design();
    const auto plan = judge(design);
    const Json record = site.visit(record_as_planned(*plan, Posted::as_listed));
    const auto judged = judge(design, {}, record);
    const Json plan_json = Json::parse(judged->document.text),
               found = Json::parse(judged->record_document.text);
    for (const Finding& f : judged->findings()) {
      const FilePlace& other = f.other_account;
      if (other.file.empty()) continue;
      CAPTURE(seed, f.rule->id, f.part, f.message, other.pointer, f.place.pointer);
      ++with_other;
      CHECK((other.file != f.place.file || other.pointer != f.place.pointer));
      const bool in_record = other.file == "record.json";
      const Document& document = in_record ? judged->record_document : judged->document;
      const Json& whole = in_record ? found : plan_json;
      REQUIRE(whole.contains(Json::json_pointer(other.pointer)));
      check_region(document.text, region_of(other), whole[Json::json_pointer(other.pointer)]);
    }
  }
  CHECK(with_other > 150);
}
