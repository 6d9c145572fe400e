// A page of HTML taken apart, strictly: what a browser would mend is a problem here.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "tests/support/example.hpp"

namespace boxproof::test {

struct WebElement {
  std::string name;
  std::map<std::string, std::string> attributes;  // as a browser reads them
  std::vector<std::string> inside;                // names of the elements around it, outermost first
  std::string text;                               // of it and of all within it; of scripts and styles too

  std::string attribute(const std::string& of) const;  // empty: there is none
  bool is(std::string_view of_class) const;
};

struct WebPage {
  std::vector<WebElement> elements;  // in the order in which they begin
  // Unbalanced tags, attributes without quotes or twice, stray < and &, references that are not known, a
  // block within a paragraph, a link within a link.
  std::vector<std::string> problems;

  const WebElement* by_id(std::string_view id) const;  // null: there is none
  std::vector<const WebElement*> all(std::string_view name, std::string_view of_class = {}) const;
};

WebPage take_apart(std::string_view html);

// The report as a page.
std::string html_report(const Judged& judged, bool show_work = false,
                        const std::vector<std::string>& overrides = {});

}  // namespace boxproof::test
