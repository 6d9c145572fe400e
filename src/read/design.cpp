// Design files: the top of the document, then its combiner boxes. Site files: the same without boxes.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "boxproof/read.hpp"
#include "src/read/box_reader.hpp"
#include "src/read/list.hpp"
#include "src/read/made_boxes.hpp"
#include "src/read/named_parts.hpp"
#include "src/read/source_map.hpp"
#include "src/text/nearest.hpp"

namespace boxproof {
namespace read {
namespace {

constexpr std::array<std::string_view, 9> top_keys{
    "$schema", "format", "site", "code", "modules", "inverters", "conductors", "box_types", "combiners"};
constexpr std::array<std::string_view, 6> required_keys{"format",  "site",      "code",
                                                        "modules", "inverters", "combiners"};
constexpr std::array<std::string_view, 7> site_keys{"$schema", "format",    "site",      "code",
                                                    "modules", "inverters", "conductors"};
constexpr std::array<std::string_view, 5> site_required_keys{"format", "site", "code", "modules",
                                                             "inverters"};

// A kind of document.
struct Format {
  std::string_view name, what;
  std::span<const std::string_view> keys, required;
};
constexpr Format design_format{"boxproof-design/1", "design file", top_keys, required_keys};
constexpr Format site_format{"boxproof-site/1", "site file", site_keys, site_required_keys};

constexpr Measure low_temperature = between(low_range.least, low_range.most, "degrees Celsius");
constexpr Measure high_temperature = between(high_range.least, high_range.most, "degrees Celsius");

class DesignReader : public Sink {
 public:
  DesignReader(const Document& document, const Format& format, const ProgressHook& progress)
      : format_(format),
        source_(document.text),
        problems_(document.name, document.text),
        reading_{problems_, nullptr, nullptr},
        places_(std::make_shared<SourceMap>(document.name, document.text, "combiners")),
        progress_(progress) {}
  // Of a text that was made out of the file, whose problems so far are these.
  DesignReader(const std::string& file, std::shared_ptr<const MadeText> made, Problems problems,
               Design design, const ProgressHook& progress)
      : format_(design_format),
        source_(made->text),
        problems_(std::move(problems)),
        reading_{problems_, nullptr, nullptr},
        places_(std::make_shared<SourceMap>(file, std::move(made), "combiners")),
        design_(std::move(design)),
        progress_(progress) {}

  DesignFile read() {
    const ListSpan span = find_list(source_, "combiners");
    const bool parsed = parse_members(source_, span, *this);
    if (parsed) {
      if (!is_site() && has("modules") && has("inverters")) {  // else every reference would be told as well
        box_types();
        boxes(span);
      }
      for (std::string_view key : format_.required)
        if (!has(key))
          problems_.add(
              0, "",
              fmt::format("found no \"{}\" at the top of the document, expected it; it is required", key));
    }
    problems_.raise();
    return {std::move(design_), places_};
  }

  Design read_only_boxes() {
    boxes(find_list(source_, "combiners"));
    problems_.raise();
    return std::move(design_);
  }

  void member(std::string_view key, const Tree& tree) override {
    const Value value(tree, 0);
    places_->add_member(key, value.offset());
    seen_.emplace_back(key);
    if (key == "format")
      format(value);
    else if (is_site() && (key == "combiners" || key == "box_types"))
      reading_.problem(value, fmt::format("found \"{}\", expected none in a site file: its boxes come from a "
                                          "schedule; remove it",
                                          key));
    else if (key == "site")
      site(value);
    else if (key == "code")
      code(value);
    else if (key == "modules")
      each(value, design_.modules, read_module);
    else if (key == "inverters")
      each(value, design_.inverters, read_inverter);
    else if (key == "conductors")
      each(value, design_.conductors, read_conductor);
    else if (key == "box_types")
      types_ = tree;  // boxes are patches onto it, so it stays until the last box is read
    else if (key == "combiners")
      expect_list(value);
    else if (key == "$schema")
      to_text_value(value, reading_);
    else if (key != "note")
      unknown_key(value, format_.keys, reading_);
  }

  void problem(std::uint32_t offset, std::string pointer, std::string message) override {
    problems_.add(offset, std::move(pointer), std::move(message));
  }

 private:
  bool is_site() const { return format_.name == site_format.name; }
  void format(const Value& value) {
    if (is_site() && value.kind() == Kind::text && value.text() == design_format.name)
      return reading_.problem(
          value,
          fmt::format("found {}, expected \"{}\"; boxproof schedule DESIGN --site FILE writes the site "
                      "part of a design",
                      describe(value), format_.name));
    check_format(value, format_.name, format_.what, reading_);
  }

  bool has(std::string_view key) const { return std::find(seen_.begin(), seen_.end(), key) != seen_.end(); }

  // Reads each member of a map from an id to a part.
  template <class T>
  void each(const Value& map, Library<T>& library, void (*read_part)(const Value&, T&, const Reading&)) {
    if (!expect(map, Kind::object, reading_)) return;
    for (Value v = map.first(); v; v = v.next_within(map))
      if (v.key() != "note") read_part(v, library.add(v.key()), reading_);
  }

  void site(const Value& value) {
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return;
    Site& site = design_.site;
    if (const Field name = r.required("name"); name && to_text_value(name.top(), reading_))
      site.name = std::string(name.top().text());
    if (const Field use = r.required("use"))
      if (const auto word = to_word(use.top(), use_names, reading_)) site.use = static_cast<Use>(*word);
    site.low = r.quantity<Celsius>("low_c", low_temperature);
    site.high = r.quantity<Celsius>("high_c", high_temperature);
    site.temperature_source = r.text("temperature_source").value_or("");
    if (const Field permit = r.take("permit")) {
      ObjectReader p(permit, reading_);
      site.permit.stated = true;
      site.permit.number = p.text("number").value_or("");
      site.permit.modules = p.number("modules", any_count);
      site.permit.strings = p.number("strings", any_count);
      site.permit.combiners = p.number("combiners", any_count);
      site.permit.dc_kilowatts = p.number("dc_kw", not_negative("kilowatts"));
      p.finish();
    }
    r.finish();
  }

  void code(const Value& value) {
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return;
    if (const Field edition = r.required("edition"))
      if (to_word(edition.top(), edition_names, reading_))
        design_.edition = std::string(edition.top().text());
    if (const Field amendments = r.take("amendments")) {
      const Value& v = amendments.top();
      if (v.kind() == Kind::text && !v.text().empty())
        design_.amendments_path = std::string(v.text());
      else if (v.kind() == Kind::object)
        design_.amendments_offset = v.offset();
      else
        reading_.problem(
            v, fmt::format("found {}, expected an object of amended values or the path of a JSON file",
                           describe(v)));
    }
    r.finish();
  }

  // Types are read when everything that they can name has been.
  void box_types() {
    if (types_.nodes.empty()) return;
    const Value map(types_, 0);
    if (!expect(map, Kind::object, reading_)) return;
    BoxReader reader(design_, types_, problems_);
    for (Value v = map.first(); v; v = v.next_within(map))
      if (v.key() != "note") reader.type(v, design_.box_types.add(v.key()));
  }

  // The list has been passed over, so it comes as an empty one; its elements are read later.
  void expect_list(const Value& value) {
    if (expect(value, Kind::array, reading_) && value.first())
      reading_.problem(value, "found a second list of this name, expected one");
  }

  void boxes(const ListSpan& span) {
    if (!span.found) return;
    if (span.elements.empty())
      problems_.add(span.open, "/combiners", "found an empty list, expected at least one combiner box");
    design_.combiners.resize(span.elements.size());
    for (std::uint32_t offset : span.elements) places_->add_element(offset);
    const bool parsed = read_list(
        source_, "combiners", span, problems_,
        [&](std::uint32_t index, const Tree& tree, Problems& problems) {
          BoxReader(design_, types_, problems).box(tree, design_.combiners[index]);
        },
        progress_);
    if (parsed) unique_ids(design_.combiners, source_, "combiners", span, problems_);
  }

  const Format& format_;
  std::string_view source_;
  Problems problems_;
  Reading reading_;
  std::shared_ptr<SourceMap> places_;
  Design design_;
  Tree types_;
  std::vector<std::string> seen_;
  const ProgressHook& progress_;
};

}  // namespace

void read_made_boxes(Design& design, const std::string& file, std::shared_ptr<const MadeText> made,
                     Problems problems, const ProgressHook& progress) {
  design =
      DesignReader(file, std::move(made), std::move(problems), std::move(design), progress).read_only_boxes();
}

}  // namespace read

DesignFile read_design(const Document& document, const ProgressHook& progress) {
  return read::DesignReader(document, read::design_format, progress).read();
}

Design read_site(const Document& document) {
  const ProgressHook none;
  return read::DesignReader(document, read::site_format, none).read().design;
}

}  // namespace boxproof
