// Settings: what the command line would say each time.
#include "boxproof/settings.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "boxproof/design.hpp"
#include "boxproof/edition.hpp"
#include "src/read/object.hpp"
#include "src/text/place.hpp"

namespace boxproof {
namespace read {
namespace {

constexpr std::string_view settings_format = "boxproof-settings/1";

// Reports go under the folder of the settings: those of a stranger, in a folder that somebody unpacked, must
// not write over what is elsewhere, nor over what a dot hides (a shell's start file, the inside of a
// repository).
std::string_view wrong_with_target(std::string_view path) {
  if (path.starts_with("/")) return "it starts at the root";
  for (std::size_t at = 0; at <= path.size();) {
    const std::size_t end = std::min(path.find('/', at), path.size());
    const std::string_view part = path.substr(at, end - at);
    if (part == "..") return "it leads out of it";
    if (part.starts_with(".") && part != ".") return "a name in it starts with a dot";
    at = end + 1;
  }
  return {};
}

class SettingsReader : public Sink {
 public:
  explicit SettingsReader(const Document& document)
      : document_(document), problems_(document.name, document.text), reading_{problems_, nullptr, nullptr} {}

  Settings read() {
    if (const std::optional<Tree> tree = parse_whole(document_.text, *this)) top(Value(*tree, 0));
    problems_.raise();
    return std::move(settings_);
  }

  void problem(std::uint32_t offset, std::string pointer, std::string message) override {
    problems_.add(offset, std::move(pointer), std::move(message));
  }

 private:
  void top(const Value& value) {
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return;
    Settings& s = settings_;
    r.text_view("$schema");
    if (const Field format = r.required("format"))
      check_format(format.top(), settings_format, "settings file", reading_);
    if (const auto edition = r.word("edition", edition_names)) s.edition = edition_names[*edition];
    s.low = r.number("low_c", between(low_range.least, low_range.most, "degrees Celsius"));
    s.high = r.number("high_c", between(high_range.least, high_range.most, "degrees Celsius"));
    if (const auto severity = r.word("fail_on", severity_names)) s.fail_on = severity_names[*severity];
    s.exceptions = path(r, "exceptions", "the path of a file of agreed exceptions");
    s.amendments = path(r, "amendments", "the path of a file of local amendments");
    s.baseline = path(r, "baseline", "the path of a baseline");
    if (const Field list = r.take("designs")) designs(list.top());
    if (const Field map = r.take("formats")) formats(map.top());
    s.show_work = r.boolean("show_work");
    r.finish();
  }

  // Text that is not empty.
  std::optional<std::string> stated(const Value& value, std::string_view what) {
    const auto text = to_text_value(value, reading_);
    if (text && text->empty()) reading_.problem(value, fmt::format("found an empty text, expected {}", what));
    if (!text || text->empty()) return std::nullopt;
    return std::string(*text);
  }

  std::optional<std::string> path(ObjectReader& r, std::string_view key, std::string_view what) {
    const Field found = r.take(key);
    return found ? stated(found.top(), what) : std::nullopt;
  }

  void designs(const Value& list) {
    if (!expect(list, Kind::array, reading_)) return;
    if (!list.first())
      reading_.problem(list,
                       "found an empty list, expected at least one design file, folder or pattern; leave the "
                       "key out where the command line names the designs");
    for (Value v = list.first(); v; v = v.next_within(list))
      if (auto design = stated(v, "a design file, a folder or a pattern (* ? [a-z])"))
        settings_.designs.push_back(std::move(*design));
  }

  void formats(const Value& map) {
    if (!expect(map, Kind::object, reading_)) return;
    const text::LineColumn at = text::LineIndex(document_.text).at(map.offset());
    settings_.formats_place = {document_.name, pointer_of(map), at.line, at.column};
    if (!map.first()) reading_.problem(map, R"(found no format, expected at least one, such as "text": "-")");
    for (Value v = map.first(); v; v = v.next_within(map)) {
      if (std::find(report_formats.begin(), report_formats.end(), v.key()) == report_formats.end())
        unknown_key(v, report_formats, reading_);
      else if (const auto path = stated(v, "a path, or \"-\" for standard output"))
        report(v, *path);
    }
  }

  void report(const Value& value, const std::string& path) {
    const auto same = [&](const Settings::Report& r) { return r.path == path && !path.ends_with("/"); };
    const auto before = std::find_if(settings_.formats.begin(), settings_.formats.end(), same);
    if (before != settings_.formats.end())
      reading_.problem(value,
                       fmt::format("found {}, where the {} report goes already, expected a place for each",
                                   describe(value), before->format));
    if (const std::string_view wrong = wrong_with_target(path); path != "-" && !wrong.empty())
      reading_.problem(
          value,
          fmt::format("found {}, expected a path under the folder of this file ({}); name other places on "
                      "the command line",
                      describe(value), wrong));
    settings_.formats.push_back({std::string(value.key()), path});
  }

  const Document& document_;
  Problems problems_;
  Reading reading_;
  Settings settings_;
};

}  // namespace
}  // namespace read

Settings read_settings(const Document& document) {
  return read::SettingsReader(document).read();
}

}  // namespace boxproof
