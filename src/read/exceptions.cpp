// Agreed exceptions: which rule, on which boxes, why, by whom, from when and until when.
#include "boxproof/exceptions.hpp"

#include <fmt/format.h>

#include "src/read/entries_file.hpp"
#include "src/text/path.hpp"

namespace boxproof {
namespace read {
namespace {

constexpr std::string_view exceptions_format = "boxproof-exceptions/1";

class ExceptionsReader : public EntriesReader {
 public:
  using EntriesReader::EntriesReader;

  ExceptionsFile read() {
    file_.name = document_.name;
    read_document();
    return std::move(file_);
  }

 private:
  void top(const Value& value) override {
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return;
    r.text_view("$schema");
    if (const Field format = r.required("format"))
      check_format(format.top(), exceptions_format, "file of agreed exceptions", reading_);
    each_entry(r.required("exceptions"));
    r.finish();
  }

  void entry(const Value& value) override {
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return;
    Exception& e = file_.entries.emplace_back();
    e.place = place_of(value);
    if (const Field id = r.required("rule")) e.rule = to_rule(id.top(), reading_);
    if (const Field boxes = r.required("boxes"))
      e.boxes = to_word_list(boxes.top(), "the id of a box or a pattern (* ? [a-z] as in a shell)",
                             "at least one id or pattern of boxes; \"*\" is every box and the site itself",
                             reading_);
    if (const Field designs = r.take("designs")) e.designs = paths(designs.top());
    if (const Field reason = r.required("reason"))
      e.reason = to_words(reason.top(), "why another method is accepted", reading_);
    if (const Field agreed_by = r.required("agreed_by"))
      e.agreed_by = to_words(agreed_by.top(), "who agreed to it", reading_);
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

  // Written as the paths that they are held against: without "./" and the like.
  std::vector<std::string> paths(const Value& list) {
    std::vector<std::string> out = to_word_list(
        list, "the path of a design file or a pattern (* ? [a-z] as in a shell)",
        "at least one path or pattern; leave the key out where the entry holds for every design", reading_);
    for (std::string& path : out) path = text::normal_path(path);
    return out;
  }

  ExceptionsFile file_;
};

}  // namespace
}  // namespace read

ExceptionsFile read_exceptions(const Document& document) {
  return read::ExceptionsReader(document).read();
}

}  // namespace boxproof
