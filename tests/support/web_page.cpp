#include "tests/support/web_page.hpp"

#include <algorithm>
#include <cctype>
#include <set>

namespace boxproof::test {
namespace {

const std::set<std::string> no_end{"meta", "br", "hr", "input", "img", "link", "col", "wbr"};
const std::set<std::string> raw{"script", "style"};
// What may not stand within a paragraph, of what our pages use.
const std::set<std::string> blocks{"p",       "div",    "ul",     "ol",  "dl",  "table", "section",
                                   "article", "figure", "h1",     "h2",  "h3",  "h4",    "h5",
                                   "details", "header", "footer", "nav", "main"};

class Taker {
 public:
  explicit Taker(std::string_view html) : html_(html) {}

  WebPage take() {
    if (!html_.starts_with("<!doctype html>\n")) problem("no doctype");
    at_ = html_.find('\n');
    while (at_ < html_.size()) {
      if (html_[at_] != '<')
        text(html_.substr(at_, html_.find('<', at_) - at_));
      else if (html_.substr(at_).starts_with("</"))
        end_tag();
      else
        start_tag();
    }
    for (const std::size_t open : open_) problem("not closed: " + page_.elements[open].name);
    return std::move(page_);
  }

 private:
  void problem(const std::string& what) {
    page_.problems.push_back(what + " at \"" + std::string(html_.substr(std::min(at_, html_.size()), 40)) +
                             "\"");
  }

  void add(std::string_view words) {
    for (const std::size_t open : open_) page_.elements[open].text += words;
  }

  void text(std::string_view words) {
    add(decode(words));
    at_ += words.size();
  }

  std::string decode(std::string_view words) {
    static const std::map<std::string_view, std::string_view> known{
        {"amp", "&"}, {"lt", "<"}, {"gt", ">"}, {"quot", "\""}, {"#39", "'"}};
    std::string out;
    for (std::size_t i = 0; i < words.size(); ++i) {
      if (words[i] == '>') problem("stray >");
      if (words[i] != '&') {
        out += words[i];
        continue;
      }
      const auto end = words.find(';', i);
      const auto found =
          end == std::string_view::npos ? known.end() : known.find(words.substr(i + 1, end - i - 1));
      if (found == known.end()) {
        problem("unknown reference");
        continue;
      }
      out += found->second;
      i = end;
    }
    return out;
  }

  std::string word(std::string_view also) {
    const std::size_t start = at_;
    while (at_ < html_.size() && (std::isalnum(static_cast<unsigned char>(html_[at_])) != 0 ||
                                  also.find(html_[at_]) != std::string_view::npos))
      ++at_;
    return std::string(html_.substr(start, at_ - start));
  }

  void start_tag() {
    ++at_;
    WebElement e;
    e.name = word("");
    if (e.name.empty()) return problem("stray <");
    while (at_ < html_.size() && html_[at_] != '>' && !html_.substr(at_).starts_with("/>")) attribute(e);
    const bool closed = html_.substr(at_).starts_with("/>");
    at_ += closed ? 2 : 1;
    for (const std::size_t open : open_) e.inside.push_back(page_.elements[open].name);
    const auto within = [&](std::string_view name) {
      return std::find(e.inside.begin(), e.inside.end(), name) != e.inside.end();
    };
    if (blocks.contains(e.name) && within("p")) problem(e.name + " within a paragraph");
    if (e.name == "a" && within("a")) problem("a link within a link");
    if (closed && !within("svg") && e.name != "svg") problem("/> outside of a drawing");
    page_.elements.push_back(e);
    if (closed || no_end.contains(e.name)) return;
    open_.push_back(page_.elements.size() - 1);
    if (!raw.contains(e.name)) return;
    const auto end = html_.find("</" + e.name, at_);
    if (end == std::string_view::npos) return problem("raw text without an end");
    add(html_.substr(at_, end - at_));
    at_ = end;
  }

  void attribute(WebElement& e) {
    const bool blank = html_[at_] == ' ' || html_[at_] == '\n';
    while (at_ < html_.size() && (html_[at_] == ' ' || html_[at_] == '\n')) ++at_;
    const std::string name = word("-:");
    if (name.empty() || !blank) {
      problem("not an attribute");
      if (name.empty()) ++at_;
      return;
    }
    if (e.attributes.contains(name)) problem("twice: " + name);
    std::string& value = e.attributes[name];
    if (at_ >= html_.size() || html_[at_] != '=') return;  // "hidden"
    const auto end = html_.find('"', at_ + 2);
    if (html_.substr(at_, 2) != "=\"" || end == std::string_view::npos)
      return problem("without quotes: " + name);
    value = decode(html_.substr(at_ + 2, end - at_ - 2));
    at_ = end + 1;
  }

  void end_tag() {
    at_ += 2;
    const std::string name = word("");
    if (at_ >= html_.size() || html_[at_] != '>') problem("end tag");
    ++at_;
    if (open_.empty() || page_.elements[open_.back()].name != name)
      return problem("unexpected end of " + name);
    open_.pop_back();
  }

  std::string_view html_;
  std::size_t at_ = 0;
  std::vector<std::size_t> open_;
  WebPage page_;
};

}  // namespace

std::string WebElement::attribute(const std::string& of) const {
  const auto found = attributes.find(of);
  return found == attributes.end() ? std::string() : found->second;
}

bool WebElement::is(std::string_view of_class) const {
  return (" " + attribute("class") + " ").find(" " + std::string(of_class) + " ") != std::string::npos;
}

const WebElement* WebPage::by_id(std::string_view id) const {
  const auto found = std::find_if(elements.begin(), elements.end(), [&](const WebElement& e) {
    return !id.empty() && e.attribute("id") == id;
  });
  return found == elements.end() ? nullptr : &*found;
}

std::vector<const WebElement*> WebPage::all(std::string_view name, std::string_view of_class) const {
  std::vector<const WebElement*> out;
  for (const WebElement& e : elements)
    if (e.name == name && (of_class.empty() || e.is(of_class))) out.push_back(&e);
  return out;
}

WebPage take_apart(std::string_view html) {
  return Taker(html).take();
}

std::string html_report(const Judged& j, bool show_work, const std::vector<std::string>& overrides) {
  std::string out;
  write_html({j.design, j.record ? &*j.record : nullptr, j.edition, j.judgement, overrides, show_work, false},
             [&](std::string_view piece) { out += piece; });
  return out;
}

}  // namespace boxproof::test
