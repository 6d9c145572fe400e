// Reports, read back: the head of the document, then its boxes and findings in stretches side by side.
#include <fmt/format.h>

#include <algorithm>

#include "boxproof/compare.hpp"
#include "src/read/list.hpp"
#include "src/read/report_parts.hpp"

namespace boxproof {
namespace read {
namespace {

constexpr std::string_view report_format = "boxproof-report/1";
constexpr std::string_view make_one = "make one with boxproof check --format json";

std::string about_format(std::string_view found) {
  const std::string_view name = found.substr(0, found.find('/'));
  const std::string lead = fmt::format("found {}, expected \"{}\"; ", in_quotes(found), report_format);
  if (name == "boxproof-report")
    return lead +
           "another version of the program made it: make it anew with this one, by boxproof check "
           "--format json";
  if (name == "boxproof-reports")
    return lead +
           "these are the reports of several designs: make that of one with boxproof check DESIGN --format "
           "json";
  if (name == "boxproof-design") return lead + "this is a design: " + std::string(make_one);
  if (name == "boxproof-asbuilt")
    return lead +
           "this is a field record: make a report with boxproof check DESIGN --asbuilt RECORD --format json";
  return lead + std::string(make_one);
}

class ReportReader : public Sink {
 public:
  explicit ReportReader(const Document& document)
      : source_(document.text),
        problems_(document.name, document.text),
        wrong_format_(problems_.like()),
        reading_{problems_, nullptr, nullptr},
        rules_(report_.strange_rules) {
    report_.name = document.name;
  }

  ReportFile read() {
    expect_json();
    const ListSpan boxes = find_list(source_, "boxes"), findings = find_list(source_, "findings");
    const bool parsed = parse_members(source_, boxes, *this, findings);
    wrong_format_.raise();  // a file of another kind has nothing else to tell
    if (parsed) {
      if (!has("format")) {
        missing("format", fmt::format("; is this a report? {}", make_one));
        problems_.raise();
      }
      for (std::string_view key : {"tool", "code", "basis", "site", "boxes", "findings"})
        if (!has(key)) missing(key, "");
      if (report_.basis == Basis::as_built && !has("visit")) missing("visit", "");
      lists(boxes, findings);
      for (const ReportedFinding& f : report_.agreed)
        if (!f.exception || *f.exception >= report_.exceptions.size()) {
          problems_.add(agreed_at_, "/agreed",
                        "found an agreed finding whose \"exception\" is no entry of "
                        "\"exceptions\", expected the place of one, from 0");
          break;
        }
    }
    problems_.raise();
    return std::move(report_);
  }

  void member(std::string_view key, const Tree& tree) override {
    const Value value(tree, 0);
    seen_.emplace_back(key);
    if (key == "format") {
      const auto format = to_text_value(value, reading_);
      if (format && *format != report_format)
        wrong_format_.add(value.offset(), "/format", about_format(*format));
    } else if (key == "tool") {
      ObjectReader r(Field(value), reading_);
      if (!r.ok()) return;
      report_.version = text_or_null(r, "version", reading_);
      if (const Field data = r.take("data"))  // reports of earlier versions do not state it
        report_.data = to_text_value(data.top(), reading_).value_or("");
    } else if (key == "code") {
      code(value);
    } else if (key == "basis") {
      if (const auto basis = to_word(value, basis_names, reading_))
        report_.basis = static_cast<Basis>(*basis);
    } else if (key == "selected") {
      report_.selected = expect(value, Kind::boolean, reading_) && value.boolean();
    } else if (key == "visit") {
      ObjectReader r(Field(value), reading_);
      if (r.ok()) report_.visit_date = text_or_null(r, "date", reading_);
    } else if (key == "site") {
      site(value);
    } else if (key == "boxes" || key == "findings") {
      expect(value, Kind::array, reading_);
    } else if (key == "gone") {
      each(value,
           [&](const Value& v) { report_.gone.push_back(read_reported_finding(v, rules_, reading_)); });
    } else if (key == "agreed") {
      agreed_at_ = value.offset();
      each(value,
           [&](const Value& v) { report_.agreed.push_back(read_reported_finding(v, rules_, reading_)); });
    } else if (key == "exceptions_on") {
      report_.exceptions_on = to_text_value(value, reading_).value_or("");
    } else if (key == "exceptions") {
      each(value,
           [&](const Value& v) { report_.exceptions.push_back(read_reported_exception(v, reading_)); });
    }
  }
  void problem(std::uint32_t offset, std::string pointer, std::string message) override {
    problems_.add(offset, std::move(pointer), std::move(message));
  }

 private:
  // A report for people, or none at all.
  void expect_json() {
    const auto at = source_.find_first_not_of(" \t\r\n");
    const std::string_view text = at == std::string_view::npos ? std::string_view() : source_.substr(at);
    if (text.starts_with('{') || text.starts_with("\xEF\xBB\xBF")) return;
    const std::string_view line = text.substr(0, text.find_first_of("\r\n"));
    problems_.add(
        0, "",
        fmt::format("found {}, expected a report in JSON ({}); {}",
                    text.empty() ? "an empty file" : "text " + in_quotes(line), report_format, make_one));
    problems_.raise();
  }

  bool has(std::string_view key) const { return std::find(seen_.begin(), seen_.end(), key) != seen_.end(); }
  void missing(std::string_view key, std::string_view hint) {
    problems_.add(
        0, "",
        fmt::format("found no \"{}\" at the top of the document, expected it; it is required{}", key, hint));
  }

  template <class Read>
  void each(const Value& list, Read&& read) {
    if (!expect(list, Kind::array, reading_)) return;
    for (Value v = list.first(); v; v = v.next_within(list)) read(v);
  }
  void texts(ObjectReader& r, std::string_view key, std::vector<std::string>& out) {
    if (const Field list = r.required(key))
      each(list.top(), [&](const Value& v) { out.emplace_back(to_text_value(v, reading_).value_or("")); });
  }

  void code(const Value& value) {
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return;
    if (const Field edition = r.required("edition");
        edition && to_word(edition.top(), edition_names, reading_))
      report_.edition = edition.top().text();
    texts(r, "overrides", report_.overrides);
    if (const Field list = r.required("amendments"))
      each(list.top(), [&](const Value& v) {
        ObjectReader a(Field(v), reading_);
        if (!a.ok()) return;
        std::string key = text_or_null(a, "key", reading_);
        report_.amendments.emplace_back(std::move(key), text_or_null(a, "to", reading_));
      });
  }

  void site(const Value& value) {
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return;
    report_.site = text_or_null(r, "name", reading_);
    report_.low = number_or_null(r, "low_c", reading_);
    report_.high = number_or_null(r, "high_c", reading_);
    if (const Field permit = r.take("permit")) {  // an older program did not tell
      report_.permit.emplace();
      each(permit.top(),
           [&](const Value& v) { report_.permit->emplace_back(to_text_value(v, reading_).value_or("")); });
    }
    if (const Field verdict = r.required("verdict"))
      if (const auto word = to_word(verdict.top(), verdict_names, reading_))
        report_.verdict = static_cast<Verdict>(*word);
  }

  void lists(const ListSpan& boxes, const ListSpan& findings) {
    report_.boxes.resize(boxes.elements.size());
    const bool visits = report_.basis == Basis::as_built;
    const bool parsed = read_list(source_, "boxes", boxes, problems_,
                                  [&](std::uint32_t index, const Tree& tree, Problems& problems) {
                                    const Reading reading{problems, nullptr, nullptr};
                                    report_.boxes[index] = read_reported_box(Value(tree, 0), visits, reading);
                                  });
    if (parsed) unique_ids(report_.boxes, source_, "boxes", boxes, problems_);
    report_.findings.resize(findings.elements.size());
    read_list(source_, "findings", findings, problems_,
              [&](std::uint32_t index, const Tree& tree, Problems& problems) {
                const Reading reading{problems, nullptr, nullptr};
                report_.findings[index] = read_reported_finding(Value(tree, 0), rules_, reading);
              });
  }

  std::string_view source_;
  Problems problems_, wrong_format_;
  Reading reading_;
  ReportFile report_;
  RuleNames rules_;
  std::vector<std::string> seen_;
  std::uint32_t agreed_at_ = 0;
};

}  // namespace
}  // namespace read

ReportFile read_report(const Document& document) {
  return read::ReportReader(document).read();
}

}  // namespace boxproof
