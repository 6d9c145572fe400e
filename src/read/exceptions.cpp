// Agreed exceptions: which rule, on which boxes, why, by whom, from when and until when.
#include "boxproof/exceptions.hpp"

#include <fmt/format.h>

#include "boxproof/read.hpp"
#include "boxproof/rule.hpp"
#include "src/read/object.hpp"
#include "src/text/nearest.hpp"
#include "src/text/place.hpp"

namespace boxproof {
namespace read {
namespace {

constexpr std::string_view format_name = "boxproof-exceptions/1";

class ExceptionsReader : public Sink {
 public:
  explicit ExceptionsReader(const Document& document)
      : document_(document),
        problems_(document.name, document.text),
        reading_{problems_, nullptr, nullptr},
        lines_(document.text) {}

  ExceptionsFile read() {
    file_.name = document_.name;
    if (const std::optional<Tree> tree = parse_whole(document_.text, *this)) top(Value(*tree, 0));
    problems_.raise();
    return std::move(file_);
  }

  void problem(std::uint32_t offset, std::string pointer, std::string message) override {
    problems_.add(offset, std::move(pointer), std::move(message));
  }

 private:
  void top(const Value& value) {
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return;
    r.text_view("$schema");
    if (const Field format = r.required("format"))
      check_format(format.top(), format_name, "file of agreed exceptions", reading_);
    if (const Field list = r.required("exceptions"); list && expect(list.top(), Kind::array, reading_))
      for (Value v = list.top().first(); v; v = v.next_within(list.top())) entry(v);
    r.finish();
  }

  void entry(const Value& value) {
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return;
    Exception& e = file_.entries.emplace_back();
    const text::LineColumn at = lines_.at(value.offset());
    const text::LineColumn end = lines_.at(first_line_end(document_.text, value.offset()));
    e.place = {document_.name, pointer_of(value), at.line, at.column, end.line, end.column};
    if (const Field id = r.required("rule")) e.rule = rule(id.top());
    if (const Field boxes = r.required("boxes")) e.boxes = ids(boxes.top());
    if (const Field reason = r.required("reason"))
      e.reason = words(reason.top(), "why another method is accepted");
    if (const Field agreed_by = r.required("agreed_by"))
      e.agreed_by = words(agreed_by.top(), "who agreed to it");
    std::optional<Date> date, expires;
    if (const Field from = r.required("date")) date = to_date(from.top(), reading_);
    if (const Field until = r.take("expires")) {
      expires = to_date(until.top(), reading_);
      if (date && expires && *expires < *date)
        reading_.problem(until.top(),
                         fmt::format("found {}, expected no day before {}, the date of the entry; check both",
                                     describe(until.top()), to_text(*date)));
    }
    e.date = date.value_or(Date());
    e.expires = expires;
    e.hazard = r.boolean("hazard").value_or(false);
    r.finish();
  }

  const Rule* rule(const Value& value) {
    const auto id = to_text_value(value, reading_);
    if (!id) return nullptr;
    if (const Rule* found = find_rule(*id)) return found;
    std::vector<std::string_view> known;
    for (const Rule* r : all_rules()) known.push_back(r->id);
    reading_.problem(value, fmt::format("found {}, expected the id of a rule{}; boxproof rules lists them",
                                        describe(value), text::did_you_mean(*id, known)));
    return nullptr;
  }

  std::vector<std::string> ids(const Value& list) {
    std::vector<std::string> out;
    if (!expect(list, Kind::array, reading_)) return out;
    if (!list.first())
      reading_.problem(
          list,
          "found an empty list, expected at least one id or pattern of boxes; \"*\" is every box "
          "and the site itself");
    for (Value v = list.first(); v; v = v.next_within(list))
      out.push_back(words(v, "the id of a box or a pattern (* ? [a-z] as in a shell)"));
    return out;
  }

  // Text that must say something.
  std::string words(const Value& value, std::string_view what) {
    const auto found = to_text_value(value, reading_);
    if (found && found->find_first_not_of(" \t\r\n") == std::string_view::npos)
      reading_.problem(value, fmt::format("found an empty text, expected {}", what));
    return std::string(found.value_or(""));
  }

  const Document& document_;
  Problems problems_;
  Reading reading_;
  text::LineIndex lines_;
  ExceptionsFile file_;
};

}  // namespace
}  // namespace read

ExceptionsFile read_exceptions(const Document& document) {
  return read::ExceptionsReader(document).read();
}

}  // namespace boxproof
