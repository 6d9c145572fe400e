#include "src/report/html_parts.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "src/report/entry.hpp"
#include "src/report/html_text.hpp"
#include "src/report/layout.hpp"
#include "src/report/phrases.hpp"
#include "src/text/id_runs.hpp"

namespace boxproof::report {
namespace {

constexpr std::size_t longest_whole = 20;  // characters of a name that stands on one line

std::string tag_with(std::string_view kind, std::string_view word) {
  return fmt::format("<span class=\"tag {}\">{}</span>", kind, word);
}

// The boxes of a group, each once.
std::vector<const Finding*> one_a_box(const Group& g) {
  std::vector<const Finding*> out;
  for (const Finding* f : g.findings)
    if (out.empty() || out.back()->box_id != f->box_id) out.push_back(f);
  return out;
}

std::string step(const Step& s) {
  const std::string value = html(value_of(s));
  const std::string section =
      s.section.empty() ? "" : fmt::format(" <span class=\"section\">{}</span>", html(s.section));
  if (s.numbers == s.formula)
    return fmt::format("<li><span>{} = <strong>{}</strong></span> from {}{}</li>\n", html(s.symbol), value,
                       html(s.formula), section);
  return fmt::format("<li><span>{} = {}</span> <span>= {} = <strong>{}</strong></span>{}</li>\n",
                     html(s.symbol), html(s.formula), html(s.numbers), value, section);
}

}  // namespace

std::string tag(Severity severity) {
  return tag_with(name_of(severity), name_of(severity));
}

std::string tag(Verdict verdict) {
  return tag_with(name_of(verdict), name_of(verdict));
}

// "correct" is a verdict too, with a frame of its own.
std::string tag(Disposition disposition) {
  return tag_with("disposition", name_of(disposition));
}

std::string name(std::string_view text) {
  const std::string_view kind = width_of(plain(text)) <= longest_whole ? " class=\"id\"" : "";
  return fmt::format("<bdi{}>{}</bdi>", kind, html(text));
}

std::string run_name(std::string_view first, std::string_view last, std::size_t size) {
  if (size == 1) return name(first);
  const std::string whole = fmt::format("{}…{}", first, last);
  if (size > 2 && width_of(plain(whole)) <= longest_whole) return name(whole);
  return text::run_words(name(first), name(last), size);
}

std::string names(const std::vector<std::string_view>& ids) {
  std::string out;
  for (const text::IdRun& run : text::id_runs(ids))
    out += (out.empty() ? "" : ", ") + run_name(ids[run.first], ids[run.last], run.size());
  return out;
}

std::string number(std::size_t n) {
  return fmt::format("<span class=\"no\">{}</span>", n);
}

std::string fact(std::string_view label, std::string_view value) {
  return value.empty() ? std::string() : fmt::format("<dt>{}</dt><dd>{}</dd>\n", label, value);
}

std::string box_links(const PageIndex& page, const Group& g) {
  constexpr std::size_t few = 12;
  const std::vector<const Finding*> boxes = one_a_box(g);
  const auto link = [](const Finding& f, const std::string& text) {
    return fmt::format("<a href=\"#box-{}\">{}</a>", *f.box, text);
  };
  if (boxes.size() > few) {
    const auto first =
        std::find_if(boxes.begin(), boxes.end(), [&](const Finding* f) { return page.has_sheet(f->box); });
    std::vector<std::string_view> all;
    for (const Finding* f : boxes) all.push_back(f->box_id);
    const std::string ids = names(all);
    return fmt::format("{} ({} boxes)", first == boxes.end() ? ids : link(**first, ids), boxes.size());
  }
  std::string out;
  for (const Finding* f : boxes) {
    if (!out.empty()) out += ", ";
    out += page.has_sheet(f->box) ? link(*f, name(f->box_id)) : name(f->box_id);
  }
  return boxes.size() > 1 ? fmt::format("{} ({} boxes)", out, boxes.size()) : out;
}

std::string working(const ReportInput& r, const Finding& f) {
  if (f.working.empty()) return {};
  std::string out =
      fmt::format("<details class=\"working\"{}>\n<summary>Working, for {}</summary>\n<ol>\n",
                  r.show_work ? " open" : "", f.box_id.empty() ? std::string("the site") : name(f.box_id));
  for (const Step& s : f.working) out += step(s);
  return out + "</ol>\n</details>\n";
}

}  // namespace boxproof::report
