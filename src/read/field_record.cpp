// Field records: what was seen, box by box.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "boxproof/read.hpp"
#include "src/read/field_box.hpp"
#include "src/read/field_csv.hpp"
#include "src/read/list.hpp"
#include "src/read/object.hpp"
#include "src/read/source_map.hpp"
#include "src/text/nearest.hpp"

namespace boxproof {
namespace read {
namespace {

constexpr std::string_view record_format = "boxproof-asbuilt/1";
constexpr std::array<std::string_view, 4> record_keys{"$schema", "format", "visit", "boxes"};

class RecordReader : public Sink {
 public:
  RecordReader(std::string_view source, Problems problems, std::shared_ptr<SourceMap> places,
               const ProgressHook& progress)
      : source_(source),
        problems_(std::move(problems)),
        reading_{problems_, nullptr, nullptr},
        places_(std::move(places)),
        progress_(progress) {}

  RecordFile read() {
    const ListSpan span = find_list(source_, "boxes");
    if (parse_members(source_, span, *this)) {
      boxes(span);
      if (!has_format_) missing("format");
      if (!has_boxes_) missing("boxes");
    }
    problems_.raise();
    return {std::move(record_), places_};
  }

  void member(std::string_view key, const Tree& tree) override {
    const Value value(tree, 0);
    places_->add_member(key, value.offset());
    if (key == "format") {
      has_format_ = true;
      check_format(value, record_format, "field record", reading_);
    } else if (key == "visit") {
      visit(value);
    } else if (key == "boxes") {
      has_boxes_ = true;
      expect(value, Kind::array, reading_);
    } else if (key == "$schema") {
      to_text_value(value, reading_);
    } else if (key != "note") {
      unknown_key(value, record_keys, reading_);
    }
  }
  void problem(std::uint32_t offset, std::string pointer, std::string message) override {
    problems_.add(offset, std::move(pointer), std::move(message));
  }

 private:
  void missing(std::string_view key) {
    problems_.add(
        0, "", fmt::format("found no \"{}\" at the top of the document, expected it; it is required", key));
  }

  void visit(const Value& value) {
    ObjectReader r(Field(value), reading_);
    if (const Field day = r.take("date"); day && to_date(day.top(), reading_))
      record_.date = std::string(day.top().text());
    record_.by = r.text("by").value_or("");
    record_.weather = r.text("weather").value_or("");
    record_.kind = r.choice<VisitKind>("kind", visit_kind_names);
    r.finish();
  }

  void boxes(const ListSpan& span) {
    if (!span.found) return;
    record_.boxes.resize(span.elements.size());
    for (std::uint32_t offset : span.elements) places_->add_element(offset);
    const bool parsed = read_list(
        source_, "boxes", span, problems_,
        [&](std::uint32_t index, const Tree& tree, Problems& problems) {
          record_.boxes[index] = read_visited_box(Value(tree, 0), problems);
        },
        progress_);
    if (parsed) unique_ids(record_.boxes, source_, "boxes", span, problems_);
  }

  std::string_view source_;
  Problems problems_;
  Reading reading_;
  std::shared_ptr<SourceMap> places_;
  FieldRecord record_;
  bool has_format_ = false, has_boxes_ = false;
  const ProgressHook& progress_;
};

}  // namespace
}  // namespace read

RecordFile read_field_record(const Document& document, const ProgressHook& progress) {
  const std::string& name = document.name;
  read::Problems problems(name, document.text);
  if (!read::is_field_csv(document))
    return read::RecordReader(document.text, std::move(problems),
                              std::make_shared<read::SourceMap>(name, document.text, "boxes"), progress)
        .read();
  const auto made = read::json_of_field_csv(document.text, problems);
  read::Problems all(name, *made);
  all.take(std::move(problems));
  return read::RecordReader(made->text, std::move(all),
                            std::make_shared<read::SourceMap>(name, made, "boxes"), progress)
      .read();
}

}  // namespace boxproof
