// A field check says which of the visited boxes nobody counted.
#include <fmt/format.h>

#include "src/report/phrases.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"
#include "tests/support/page.hpp"
#include "tests/support/web_page.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

// As many boxes as the record has, A-100 and so on; those of the record that have no id get theirs.
std::unique_ptr<Judged> judged_with(std::vector<Json> boxes) {
  Json design = sound_design();
  const Json box = design["combiners"][0];
  design["combiners"] = Json::array();
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    design["combiners"].push_back(box);
    boxes[i]["id"] = design["combiners"].back()["id"] = fmt::format("A-{}", 100 + i);
  }
  return judge(design, "2017", Json{{"format", "boxproof-asbuilt/1"}, {"boxes", boxes}});
}

std::vector<std::string> remarks_of(const Judged& j) {
  return report::remarks({j.design, j.record ? &*j.record : nullptr, j.edition, j.judgement, {}});
}

const Json counted{{"count", {{"positive", 9}, {"negative", 9}}}};
const Json one_pole{{"count", {{"negative", 9}}}};
const Json fuses{{"count", {{"fuses", 9}}}};
const Json looked{{"seen", Json::array()}};
const Json nothing = Json::object();

using Lines = std::vector<std::string>;

}  // namespace

TEST_CASE("nothing where all visited boxes were counted, nor of the plan alone") {
  CHECK(remarks_of(*judged_with({counted, one_pole})).empty());
  CHECK(remarks_of(*judged_with({counted, nothing})).empty());  // nobody was at the second
  CHECK(remarks_of(*judge(sound_design())).empty());
}

TEST_CASE("boxes of which neither positives nor negatives are stated are named") {
  CHECK(
      remarks_of(*judged_with({counted, looked})) ==
      Lines{
          "Of 2 visited boxes 1 was not counted (A-101): what nobody looked at is judged as the plan has it."});
  CHECK(
      remarks_of(*judged_with({fuses, counted, looked, nothing})) ==
      Lines{
          "Of 3 visited boxes 2 were not counted (A-100, A-102): what nobody looked at is judged as the plan "
          "has it."});
  CHECK(
      remarks_of(*judged_with({looked})) ==
      Lines{
          "Of 1 visited box 1 was not counted (A-100): what nobody looked at is judged as the plan has it."});
}

TEST_CASE("many are run together, or the first of them stand for all") {
  CHECK(
      remarks_of(*judged_with(std::vector<Json>(40, looked))) ==
      Lines{
          "Of 40 visited boxes 40 were not counted (A-100…A-139): what nobody looked at is judged as the plan "
          "has it."});
  std::vector<Json> every_other;
  for (int i = 0; i < 40; ++i) every_other.push_back(i % 2 == 0 ? looked : counted);
  CHECK(
      remarks_of(*judged_with(every_other)) ==
      Lines{
          "Of 40 visited boxes 20 were not counted (A-100, A-102, A-104, A-106, A-108, A-110, A-112, A-114, "
          "…): what nobody looked at is judged as the plan has it."});
}

TEST_CASE("text, page and letter say so") {
  const auto j = judged_with({counted, looked});
  const std::string said = "Of 2 visited boxes 1 was not counted (A-101): what nobody looked at is";
  CHECK(text_report(*j).find("\n  " + said + " judged\n    as the plan has it.\n") != std::string::npos);
  CHECK(html_report(*j).find("<li>" + said + " judged as the plan has it.</li>") != std::string::npos);
  std::string letter;
  write_markdown({j->design, &*j->record, j->edition, j->judgement, {}},
                 [&](std::string_view text) { letter += text; });
  CHECK(letter.find("- " + said + " judged as the plan has it.\n") != std::string::npos);
}
