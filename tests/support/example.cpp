#include "tests/support/example.hpp"

#include <fstream>
#include <sstream>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

namespace boxproof::test {
namespace {

ReportInput input_of(const Judged& j, Layout layout) {
  return {j.design,     j.record ? &*j.record : nullptr, j.edition, j.judgement, {}, layout.show_work,
          layout.colour};
}

Document example_document(std::string_view name) {
  return {"examples/" + std::string(name), example_text(name)};
}

}  // namespace

std::string read_file(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  CAPTURE(path);
  REQUIRE(in.good());
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

std::string example_text(std::string_view name) {
  return read_file(std::string(BOXPROOF_EXAMPLES "/") + std::string(name));
}

Json example_json(std::string_view name) {
  return Json::parse(example_text(name));
}

std::unique_ptr<Judged> judge_example(std::string_view design, std::string_view record,
                                      const CheckOptions& options) {
  auto out = std::make_unique<Judged>();
  out->document = example_document(design);
  out->design = read_design(out->document);
  if (!record.empty()) {
    out->record_document = example_document(record);
    out->record = read_field_record(out->record_document);
  }
  out->edition = edition_of(out->design.design.edition);
  out->judgement = check(out->design, out->edition, out->record ? &*out->record : nullptr, options);
  return out;
}

std::unique_ptr<Judged> judge_example(const Example& example, const CheckOptions& options) {
  return judge_example(example.design, example.record, options);
}

std::string json_report(const Judged& judged, bool show_work) {
  std::string out;
  write_json(input_of(judged, {show_work, false}), [&](std::string_view piece) { out += piece; });
  return out;
}

std::string text_report(const Judged& judged, Layout layout) {
  std::string out;
  write_text(input_of(judged, layout), [&](std::string_view piece) { out += piece; });
  return out;
}

std::string box_report(const Judged& judged, std::size_t box, Layout layout) {
  std::string out;
  write_box(input_of(judged, layout), judged.judgement.boxes.at(box),
            [&](std::string_view piece) { out += piece; });
  return out;
}

}  // namespace boxproof::test
