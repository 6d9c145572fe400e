// A reader of XML 1.0 that is strict, for documents without a DTD, comments or namespaces.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace boxproof::test {

struct XmlElement {
  std::string name, text;  // its own text, without that of its children
  std::map<std::string, std::string> attributes;
  std::vector<XmlElement> children;

  std::string at(const std::string& attribute) const;                // fails the test where there is none
  std::vector<const XmlElement*> all(std::string_view named) const;  // children
  const XmlElement* one(std::string_view named) const;  // null: none; fails the test if there are several
};

// The root. Fails the test at whatever is not well-formed, a character that XML forbids among it.
XmlElement read_xml(std::string_view document);

}  // namespace boxproof::test
