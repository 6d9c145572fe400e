#include "src/draft/design_schedule.hpp"

#include <set>
#include <string>

#include "src/draft/labels_cell.hpp"
#include "src/read/object.hpp"
#include "src/read/source_map.hpp"
#include "src/read/tree.hpp"

namespace boxproof::draft {
namespace {

using read::Field;
using read::Kind;
using read::Tree;
using read::Value;

// The box types of the document as a tree; empty where it has none.
class Types : public read::Sink {
 public:
  void member(std::string_view key, const Tree& member) override {
    if (key == "box_types") tree = member;
  }
  void problem(std::uint32_t, std::string, std::string) override {}

  Tree tree;
};

// Remarks below a value. What a label states under that name is no remark.
std::size_t notes_in(const Value& value) {
  std::size_t notes = 0;
  for (Value v = value.first(); v; v = v.next_within(value)) {
    const bool key = value.kind() == Kind::object;
    if (key && v.key() == "note")
      ++notes;
    else if (!(key && v.key() == "values"))
      notes += notes_in(v);
  }
  return notes;
}

class BoxesOfDesign {
 public:
  BoxesOfDesign(const Document& document, const ProgressHook& progress)
      : source_(document.text), progress_(progress), problems_(document.name, source_) {}

  DesignSchedule read() {
    const read::ListSpan span = read::find_list(source_, "combiners");
    Types types;
    read::parse_members(source_, span, types);
    types_ = std::move(types.tree);
    out_.schedule.has_types = true;
    for (std::size_t i = 0; i < span.elements.size(); ++i) {
      Tree tree = read::parse_value(source_, span.elements[i]);
      tree.top_key = "combiners";
      tree.index = static_cast<std::int64_t>(i);
      box(Value(tree, 0));
      if (progress_ && i % 512 == 0) progress_(i, span.elements.size());
    }
    problems_.raise();
    if (!types_.nodes.empty()) count_types(Value(types_, 0));
    return std::move(out_);
  }

 private:
  void count_types(const Value& types) {
    out_.notes += notes_in(types);
    for (Value v = types.first(); v; v = v.next_within(types))
      out_.unused_types += v.key() != "note" && !used_types_.contains(std::string(v.key())) ? 1 : 0;
  }

  void box(const Value& value) {
    out_.notes += notes_in(value);
    Field field{value};
    if (const Value type = value.find("type"); type && type.kind() == Kind::text) {
      field = Field(value, Field(Value(types_, 0).find(type.text())));
      used_types_.emplace(type.text());
    }
    Box& box = out_.schedule.boxes.emplace_back();
    members(box.cells, field, 0, circuit_begin);
    members(box.cells, field, circuit_end, columns.size());
    const Value list = field.find("circuits").top();
    for (Value v = list.first(); v; v = v.next_within(list)) {
      Cells& circuit = box.circuits.emplace_back();
      members(circuit, Field(v), circuit_begin, circuit_end);
      // Rows of one box are told apart by their circuits' ids.
      if (std::uint32_t& id = circuit[column("circuit_id")]; id == 0 && list.size() > 1)
        id = out_.schedule.texts.add(std::to_string(box.circuits.size()));
    }
  }

  // What the object states in the columns from `from` on.
  void members(Cells& cells, const Field& object, std::size_t from, std::size_t to) {
    for (std::size_t c = from; c < to; ++c) {
      const Field member = object.find(key_of(c));
      const bool there = member && member.kind() != Kind::null;
      if (columns[c].holds == Holds::part) {
        const std::size_t end = part_end(c);
        if (there) members(cells, member, c + 1, end);
        if (there && !states(cells, c + 1, end)) cells[c] = out_.schedule.texts.add("true");
        c = end - 1;
      } else if (there) {
        cells[c] = out_.schedule.texts.add(value(c, member.top()));
      }
    }
  }

  std::string value(std::size_t c, const Value& value) {
    if (value.kind() == Kind::text) return checked(c, value);
    if (value.kind() == Kind::number) return number_text(value.number());
    if (value.kind() == Kind::boolean) return value.boolean() ? "true" : "false";
    LabelsText text;
    for (Value label = value.first(); label; label = label.next_within(value)) {
      text.label(label.find("kind").text());
      const Value values = label.find("values");
      if (!values) continue;
      for (Value v = values.first(); v; v = v.next_within(values)) {
        check_zero(v, v.key());
        if (v.kind() == Kind::number)
          text.value(v.key(), v.number());
        else
          text.value(v.key(), checked(c, v));
      }
    }
    return text.finish();
  }

  std::string checked(std::size_t c, const Value& value) {
    const std::string_view text = value.text();
    check_zero(value, text);
    const bool free_text = c == column("sheet") || c == column("location") || c == column("enclosure_type") ||
                           columns[c].holds == Holds::labels;
    if (text.empty() && !free_text)  // would come back as not stated
      problems_.add(value.offset(), read::pointer_of(value),
                    "found an empty id, expected one that a cell of a schedule can hold; give it a name");
    return std::string(text);
  }

  void check_zero(const Value& value, std::string_view text) {
    if (text.find('\0') != std::string_view::npos)
      problems_.add(
          value.offset(), read::pointer_of(value),
          "found a character of value zero, expected text that a cell of a schedule can hold; remove "
          "it");
  }

  std::string_view source_;
  const ProgressHook& progress_;
  read::Problems problems_;
  Tree types_;
  std::set<std::string> used_types_;
  DesignSchedule out_;
};

}  // namespace

DesignSchedule schedule_of(const Document& document, const ProgressHook& progress) {
  return BoxesOfDesign(document, progress).read();
}

}  // namespace boxproof::draft
