#include "src/report/markdown_question.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <vector>

#include "boxproof/rule.hpp"
#include "src/report/layout.hpp"
#include "src/report/markdown_text.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {
namespace {

// Queries whose message states and does not ask: what there is to answer.
struct Asked {
  std::string_view rule, part;  // the part starts so
  std::string_view required;    // what is required starts so; empty: whatever it is
  std::string_view question;
};
constexpr Asked questions[] = {
    {"site/temperature-source", "", "", "Where do the design temperatures come from?"},
    {"fuse/heat", "", "", "What is the fuse maker's re-rating factor at the temperature inside the box?"},
    {"enclosure/type", "enclosure", "a type of the table",
     "Which type of the edition's table is the enclosure?"},
    {"conductor/insulation", "", "a known insulation", "Does the insulation suit where the conductor lies?"},
    {"conductor/insulation", "", "marked", "Is the conductor marked sunlight resistant?"},
    {"conductor/aluminum", "", "", "Is the size of the aluminum conductor right?"},
    {"conductor/unprotected", "output device", "",
     "Which overcurrent device stands at the far end of the output, and what is its rating?"},
    {"label/values", "", "a number", "Which number stands on the label?"},
    {"label/values", "", "id, max_v", "What does this value on the label mean?"},
    {"tally/not-visited", "", "", "Was the box visited, and what was seen there?"},
    {"tally/series", "series list", "", "Which of the strings has how many modules in series?"},
    {"tally/series", "modules and strings", "", "Which of the two counts is right?"},
    {"tally/part", "disconnect record", "", "Is there a disconnect at the box, or is there none?"},
    {"tally/part", "", "a conductor that the plan states",
     "Which conductor belongs there by the plan, and how is it laid?"},
    {"tally/mixed-fuses", "fuse position", "", "Which of the fuses is meant?"},
    {"measured/series-count", "", "",
     "How many modules in series are there by count, and do the cell temperature and the irradiance belong to "
     "the reading?"},
    {"measured/current", "", "", "Is the irradiance right, or what else puts all these currents off?"},
    {"condition/wrong-torque-mark", "", "",
     "Who tightened the terminal, with which tool and to which value?"},
};

std::string_view made_question(const Finding& f) {
  const std::string* required = std::get_if<std::string>(&f.required);
  for (const Asked& a : questions)
    if (a.rule == f.rule->id && f.part.starts_with(a.part) &&
        (a.required.empty() || (required != nullptr && required->starts_with(a.required))))
      return a.question;
  return {};
}

// Whether the value is the box's own: not the site's, nor that of a part which many boxes name.
bool of_box(std::string_view key) {
  constexpr std::array<std::string_view, 4> shared{"site/", "modules/", "inverters/", "conductors/"};
  return std::none_of(shared.begin(), shared.end(), [&](auto top) { return key.starts_with(top); });
}

// "`fuse/a`, `fuse/dc`"; of many keys the first few.
std::string keys_of(const Group& g, std::size_t& count) {
  std::vector<std::string_view> keys;
  for (const Finding* f : g.findings)
    if (std::find(keys.begin(), keys.end(), f->part) == keys.end()) keys.emplace_back(f->part);
  count = keys.size();
  constexpr std::size_t few = 4;
  std::string out;
  for (std::size_t i = 0; i < std::min(few, count); ++i) out += (i ? ", " : "") + markdown_code(keys[i]);
  return count > few ? out + fmt::format(" and {} more", count - few) : out;
}

std::string named_boxes(const Group& g) {
  return fmt::format("{} {}", box_count(g) == 1 ? "box" : "boxes", markdown_line(boxes_of(g)));
}

// "Without it `fuse/not-dc`, `fuse/poles` cannot be judged." A rule that is itself the query goes without
// saying.
std::string without_it(const Group& g, bool many) {
  std::vector<std::string> rules;
  const auto add = [&](const Rule& rule) {
    std::string name = markdown_name(rule.id);
    if (rule.severity != Severity::query && std::find(rules.begin(), rules.end(), name) == rules.end())
      rules.push_back(std::move(name));
  };
  for (const Finding* f : g.findings) {
    add(*f->rule);
    for (const Rule* rule : f->also) add(*rule);
  }
  if (rules.empty()) return {};
  const Finding& first = g.first();
  const std::string on = of_box(first.part) || first.box_id.empty() ? "" : " for " + named_boxes(g);
  return fmt::format("Without {} {} cannot be judged{}.", many ? "them" : "it", fmt::join(rules, ", "), on);
}

Question of_lacking(const Group& g, const KeyWords& words) {
  const Finding& f = g.first();
  std::size_t count = 0;
  std::string what = keys_of(g, count);
  if (const std::string meaning = words.of(f.part); !meaning.empty())
    what += fmt::format(" ({})", markdown(meaning));
  if (asks_record(f))
    what += " in the field record of " + named_boxes(g);
  else if (of_box(f.part) && !f.box_id.empty())
    what += " of " + named_boxes(g);
  const std::string* stated = std::get_if<std::string>(&f.found);
  if (stated != nullptr && *stated != "not stated") {  // something is, that does not do
    const std::string ask = asks_record(f) ? fmt::format("Can {} be corrected, or measured again?", what)
                                           : fmt::format("What is the right value of {}?", what);
    return {ask, markdown_line(f.message), false};
  }
  const bool itself = f.message.starts_with(f.part + " is not stated");
  return {fmt::format("What {} of {}?", count == 1 ? "is the value" : "are the values", what),
          itself ? without_it(g, count > 1) : markdown_line(f.message), false};
}

}  // namespace

// Only measurements are asked for in the record; of what else was found on site, the plan is to state it.
bool asks_record(const Finding& f) {
  return f.lacking && f.part.starts_with("measured");
}

std::string_view own_words(const Finding& f) {
  const std::string_view message = f.message;
  return f.amended.empty() ? message : message.substr(0, message.rfind(" Amended locally: "));
}

Question question_of(const Group& g, const KeyWords& words) {
  const Finding& f = g.first();
  if (f.lacking) return of_lacking(g, words);
  if (own_words(f).ends_with('?')) return {markdown_line(own_words(f)), "", true};
  const std::string_view question = made_question(f);
  return {question.empty() ? fmt::format("{}: can this be cleared up?", markdown(f.rule->title))
                           : markdown(question),
          markdown_line(f.message), false};
}

}  // namespace boxproof::report
