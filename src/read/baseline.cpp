// A baseline: the findings of a day, with the day and the reason.
#include "boxproof/baseline.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "boxproof/rule.hpp"
#include "src/read/entries_file.hpp"
#include "src/text/path.hpp"

namespace boxproof {
namespace read {
namespace {

constexpr std::string_view baseline_format = "boxproof-baseline/1";
constexpr std::string_view anew = "write the baseline anew with boxproof baseline";

class BaselineReader : public EntriesReader {
 public:
  using EntriesReader::EntriesReader;

  Baseline read() {
    out_.name = document_.name;
    read_document();
    std::stable_sort(out_.entries.begin(), out_.entries.end(),
                     [](const BaselineEntry& a, const BaselineEntry& b) { return a.design < b.design; });
    return std::move(out_);
  }

 private:
  void top(const Value& value) override {
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return;
    r.text_view("$schema");
    if (const Field format = r.required("format"))
      check_format(format.top(), baseline_format, "baseline", reading_);
    if (const Field date = r.required("date")) out_.date = to_date(date.top(), reading_).value_or(Date());
    if (const Field reason = r.required("reason"))
      out_.reason = to_words(reason.top(), "why these findings stay for now", reading_);
    each_entry(r.required("findings"));
    r.finish();
  }

  void entry(const Value& value) override {
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return;
    BaselineEntry& e = out_.entries.emplace_back();
    e.place = place_of(value);
    if (const Field design = r.required("design")) e.design = path(design.top());
    const Field print = r.required("fingerprint");
    const auto number =
        print ? to_fingerprint(print.top(), "findings are known by them; " + std::string(anew), reading_)
              : std::nullopt;
    e.fingerprint = fmt::format("{:016x}", number.value_or(0));
    const Rule* rule = nullptr;
    if (const Field id = r.required("rule"))
      rule = to_rule(id.top(), reading_, fmt::format("; if another version had it, {}", anew));
    const auto box = text_or_null(r, "box"), part = text_or_null(r, "part");
    if (const Field s = r.required("severity")) e.severity = severity(s.top());
    r.finish();
    e.box = box.value_or("");
    e.part = part.value_or("");
    if (rule == nullptr) return;
    e.rule = rule->id;
    if (number && box && part) hold_together(print.top(), *rule, e);
  }

  // What people read in an entry is what it covers.
  void hold_together(const Value& print, const Rule& rule, const BaselineEntry& e) {
    Finding finding;
    finding.rule = &rule;
    finding.box_id = e.box;
    finding.part = e.part;
    if (const std::string own = fingerprint(finding); own != e.fingerprint)
      reading_.problem(print,
                       fmt::format("found {}, expected \"{}\", which is made of this rule, box and part; {}",
                                   describe(print), own, anew));
  }

  std::string path(const Value& value) {
    const std::string words =
        to_words(value, "the path of a design file, from the folder of this baseline", reading_);
    if (words.starts_with('/'))
      reading_.problem(value, fmt::format("found {}, expected a path from the folder of this baseline; {}",
                                          describe(value), anew));
    return text::normal_path(words);
  }

  Severity severity(const Value& value) {
    constexpr std::array names{severity_names[1], severity_names[2], severity_names[3]};
    if (value.kind() == Kind::text && value.text() == severity_names[0]) {
      reading_.problem(
          value,
          "found \"hazard\", expected \"correction\", \"query\" or \"advice\": a hazard is never on a "
          "baseline; only an agreed exception sets one aside (boxproof check --exceptions)");
      return Severity::advice;
    }
    const auto word = to_word(value, names, reading_);
    return static_cast<Severity>(word.value_or(2) + 1);
  }

  // Empty for null; nothing where it is missing or wrong.
  std::optional<std::string> text_or_null(ObjectReader& r, std::string_view key) {
    const Field field = r.required(key);
    if (!field) return std::nullopt;
    if (field.kind() == Kind::null) return "";
    const auto text = to_text_value(field.top(), reading_);
    return text ? std::optional<std::string>(*text) : std::nullopt;
  }

  Baseline out_;
};

}  // namespace
}  // namespace read

Baseline read_baseline(const Document& document) {
  return read::BaselineReader(document).read();
}

}  // namespace boxproof
