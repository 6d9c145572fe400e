#include "tests/support/drawn.hpp"

#include <algorithm>
#include <set>
#include <sstream>

#include "src/report/groups.hpp"
#include "src/report/schematic.hpp"
#include "src/report/svg_text.hpp"
#include "tests/support/catch.hpp"

namespace boxproof::test {
namespace {

// Strokes of a path: each begins with a capital M.
std::size_t strokes(const std::string& d) {
  return static_cast<std::size_t>(std::count(d.begin(), d.end(), 'M'));
}

std::size_t strokes_of(const WebPage& parts, std::string_view style) {
  std::size_t n = 0;
  for (const WebElement* path : parts.all("path", style)) n += strokes(path->attribute("d"));
  return n;
}

double number(const WebElement& e, const std::string& attribute) {
  return std::stod(e.attribute(attribute));
}

}  // namespace

std::size_t Drawn::inputs() const {
  return strokes_of(parts, "in");
}
std::size_t Drawn::fuses() const {
  return strokes_of(parts, "fuse");
}
bool Drawn::has(std::string_view style) const {
  return !parts.all("path", style).empty();
}

bool Drawn::says(std::string_view text) const {
  const auto all = parts.all("text");
  return std::any_of(all.begin(), all.end(),
                     [&](const WebElement* e) { return e->text.find(text) != std::string::npos; });
}

bool Drawn::is_hit(std::string_view style) const {
  const auto all = parts.all("path", style);
  return std::any_of(all.begin(), all.end(), [](const WebElement* e) { return e->is("hit"); });
}

std::vector<std::string> Drawn::hit() const {
  std::set<std::string> out;
  for (const WebElement* path : parts.all("path", "hit"))
    out.insert(path->attribute("class").substr(0, path->attribute("class").find(' ')));
  return {out.begin(), out.end()};
}

std::vector<std::string> Drawn::marked_numbers() const {
  std::vector<std::string> out;
  for (const WebElement& e : parts.elements)
    if (e.name == "text" && !e.inside.empty() && e.inside.back() == "a") out.push_back(e.text);
  return out;
}

Drawn draw(const Judged& j, std::size_t box) {
  const BoxResult& result = j.judgement.boxes.at(box);
  std::vector<report::Mark> marks;
  const auto groups = report::group(j.judgement.findings);
  for (std::size_t i = 0; i < groups.size(); ++i)
    for (const Finding* f : groups[i].findings)
      if (f->box == result.index) marks.push_back({f, i + 1, "#finding-" + std::to_string(i + 1)});
  BoxFacts facts;
  FoundBox own;
  const RecordFile* record = j.record ? &*j.record : nullptr;
  facts_of(j.design, j.edition, record, result, own, facts);
  Drawn out;
  out.svg = report::schematic({j.design, record, j.edition, j.judgement, {}}, result, facts, marks);
  out.parts = take_apart("<!doctype html>\n" + out.svg);
  out.marks = marks.size();
  return out;
}

Drawn draw(const Json& design, const Json& record) {
  return draw(*judge(design, {}, record));
}

// Letters reach from about 0.8 of their size above the base line to 0.2 below it.
std::vector<Extent> texts_of(const Drawn& drawn) {
  std::vector<Extent> out;
  for (const WebElement& e : drawn.parts.elements) {
    if (e.name != "text" || e.inside.back() == "a") continue;
    const double size = e.is("s") ? 11 : e.is("n") || e.is("h") ? 10 : 12;
    std::string words = e.text;  // with its title before it, where it was cut
    for (const WebElement* title : drawn.parts.all("title"))
      if (words.size() > title->text.size() && words.starts_with(title->text))
        words.erase(0, title->text.size());
    const double width = report::svg_width(words, size, e.is("b")), x = number(e, "x"), y = number(e, "y");
    const double left = e.is("e") ? x - width : x;
    out.push_back({left, left + width, y - 0.8 * size, y + 0.2 * size, words});
  }
  return out;
}

// From the first point and the horizontal strokes of its outline.
std::vector<Extent> callouts_of(const Drawn& drawn) {
  std::vector<Extent> out;
  for (std::size_t i = 0; i + 1 < drawn.parts.elements.size(); ++i) {
    const WebElement& path = drawn.parts.elements[i];
    const WebElement& text = drawn.parts.elements[i + 1];
    if (path.name != "path" || path.inside.back() != "a") continue;
    const std::string d = path.attribute("d");
    double x = 0, y = 0;
    char m = 0;
    REQUIRE((std::istringstream(d) >> m >> x >> y));
    const double half = number(text, "x") - x > 0 ? std::max(13.0, number(text, "x") - x) : 13;
    const double middle = number(text, "x"), base = number(text, "y");
    out.push_back({middle - half, middle + half, base - 14, base + 6, text.text});
  }
  return out;
}

Extent sheet_of(const Drawn& drawn) {
  double x = -1, y = -1, width = 0, height = 0;
  std::istringstream(drawn.parts.elements.at(0).attribute("viewBox")) >> x >> y >> width >> height;
  return {x, x + width, y, y + height, "sheet"};
}

bool overlap(const Extent& a, const Extent& b) {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

}  // namespace boxproof::test
