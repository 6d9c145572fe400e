// Where a finding says that it is, and how it is recognised again when the file around it changes.
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

// The text from a line and column (both from 1, columns in code points) on.
std::string_view from_place(std::string_view text, std::size_t line, std::size_t column) {
  for (; line > 1; --line) text.remove_prefix(text.find('\n') + 1);
  for (; column > 1; --column) {
    text.remove_prefix(1);
    while (!text.empty() && (static_cast<unsigned char>(text[0]) & 0xC0U) == 0x80U) text.remove_prefix(1);
  }
  return text;
}

// The one JSON value that a text begins with.
Json leading_value(std::string_view text) {
  std::istringstream in{std::string(text)};
  Json value;
  in >> value;
  return value;
}

// Checks that every place of a report leads to the value that its pointer names; returns the pointers.
std::set<std::string> check_places(const Judged& judged) {
  std::set<std::string> pointers;
  const Json report = Json::parse(json_report(judged));
  const Json design = Json::parse(judged.document.text);
  const Json record = judged.record ? Json::parse(judged.record_document.text) : Json();
  for (const Json& f : report["findings"]) {
    const bool in_record = f["file"] == judged.record_document.name;
    CAPTURE(f.dump());
    const Document& document = in_record ? judged.record_document : judged.document;
    CHECK(f["file"] == document.name);
    REQUIRE(f["line"].get<std::size_t>() >= 1);
    REQUIRE(f["column"].get<std::size_t>() >= 1);
    const Json::json_pointer pointer(f["pointer"].get<std::string>());
    const Json& whole = in_record ? record : design;
    REQUIRE(whole.contains(pointer));
    const std::string_view text = from_place(document.text, f["line"], f["column"]);
    CHECK(leading_value(text) == whole.at(pointer));
    CHECK(f["end_line"] == f["line"]);
    const std::string_view behind = from_place(document.text, f["end_line"], f["end_column"]);
    CHECK(behind.size() < text.size());
    // The value itself, or its first line where it has more.
    const std::string_view value = text.substr(0, text.size() - behind.size());
    CHECK((value.find('\n') == std::string_view::npos));
    CHECK((behind.starts_with("\n") || leading_value(value) == whole.at(pointer)));
    pointers.insert(f["pointer"]);
  }
  return pointers;
}

// Fingerprints by rule, box and part.
using Prints = std::map<std::string, std::string>;
Prints prints(const Judged& judged) {
  Prints out;
  const Json report = Json::parse(json_report(judged));
  for (const Json& f : report["findings"])
    out[f["rule"].get<std::string>() + " " + f["box"].dump() + " " + f["part"].dump()] = f["fingerprint"];
  return out;
}

}  // namespace

TEST_CASE("pointer, line and column lead to the bytes of the value itself") {
  CHECK(check_places(*judge_example("saltmarsh-faults.json")).size() > 10);
  CHECK(check_places(*judge_example("saltmarsh.json", "saltmarsh-visit.json")).size() > 10);
  CHECK(check_places(*judge_example("saltmarsh.json")).size() == 1);  // one box type for 14 findings
}

TEST_CASE("places count code points, not bytes, and survive names that need escapes") {
  const std::string text =
      R"({"format": "boxproof-design/1", "site": {"name": "Ümläut ½ °C 𝟙", "use": "building", "low_c": -10,
 "high_c": 36, "temperature_source": "x"}, "code": {"edition": "2017"},
 "modules": {"m/1~é": {"voc_v": 30, "isc_a": 9.6, "voc_coeff_pct_per_c": -0.3, "cell": "mono-si", "max_fuse_a": 20, "max_system_v": 400}},
 "inverters": {"I": {"max_dc_v": 1000, "grounding": "solid"}},
 "combiners": [{"id": "Größe °1", "inverter": "I", "circuits": [{"id": "1", "module": "m/1~é", "series": 18, "strings": 2}]}]})";
  Judged judged;
  judged.document = {"place.json", text};
  judged.design = read_design(judged.document);
  judged.edition = load_edition("2017");
  judged.judgement = check(judged.design, judged.edition, nullptr, {});
  const auto pointers = check_places(judged);
  CHECK(pointers.contains("/modules/m~11~0é"));
}

TEST_CASE("fingerprints are 16 hexadecimal digits and differ") {
  for (const Example& example : examples) {
    const Prints all = prints(*judge_example(example));
    std::set<std::string> different;
    for (const auto& [what, print] : all) {
      CHECK(print.size() == 16);
      CHECK(print.find_first_not_of("0123456789abcdef") == std::string::npos);
      different.insert(print);
    }
    CHECK(different.size() == all.size());
  }
}

TEST_CASE("a fingerprint stays when the file around the finding changes") {
  const Json design = example_json("saltmarsh-faults.json");
  const Prints before = prints(*judge(design));
  REQUIRE(before.size() > 20);

  Json inserted = design;  // a clean box above all others
  Json box = design["combiners"][0];
  box["id"] = "A-00";
  inserted["combiners"].insert(inserted["combiners"].begin(), box);
  Prints after = prints(*judge(inserted));
  for (const auto& [what, print] : before) {
    CAPTURE(what);
    CHECK(after[what] == print);
  }

  auto written_otherwise = std::make_unique<Judged>();  // on one line, keys in the order of the alphabet
  written_otherwise->document = {"other.json", design.dump()};
  written_otherwise->design = read_design(written_otherwise->document);
  written_otherwise->edition = load_edition("2017");
  written_otherwise->judgement = check(written_otherwise->design, written_otherwise->edition, nullptr, {});
  CHECK(prints(*written_otherwise) == before);
}

TEST_CASE("a fingerprint stays when the value changes, and differs by rule, box and part") {
  const auto print = [](const Json& design, std::string_view rule) {
    const auto judged = judge(design);
    const Finding* f = judged->find(rule);
    REQUIRE(f != nullptr);
    return fingerprint(*f);
  };
  const std::string at_30 = print(with_box({{"fuse", {{"a", 30}}}}), "fuse/over-module-limit");
  CHECK(print(with_box({{"fuse", {{"a", 25}}}}), "fuse/over-module-limit") == at_30);
  CHECK(print(with_box({{"fuse", {{"a", 30}}}, {"id", "A-02"}}), "fuse/over-module-limit") != at_30);
  Json renamed = with_circuit({{"id", "2"}});
  renamed["combiners"][0]["fuse"]["a"] = 30;
  CHECK(print(renamed, "fuse/over-module-limit") != at_30);
  CHECK(print(with_box({{"fuse", {{"a", 10}}}}), "fuse/too-small") != at_30);
}
