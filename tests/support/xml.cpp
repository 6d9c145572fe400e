#include "tests/support/xml.hpp"

#include <cctype>
#include <cstdint>

#include "tests/support/catch.hpp"

namespace boxproof::test {
namespace {

class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {}

  XmlElement read() {
    characters();
    expect("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    XmlElement root = element();
    expect("\n");
    if (at_ != text_.size()) fail("something behind the root");
    return root;
  }

 private:
  [[noreturn]] void fail(const std::string& what) const {
    FAIL("no XML: " << what << " before " << text_.substr(at_, 60));
    throw 0;  // FAIL does not return, which no compiler knows
  }

  // XML 1.0, production 2; and that the bytes are UTF-8 at all.
  void characters() {
    for (std::size_t at = 0; at < text_.size();) {
      at_ = at;
      const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text_[i]); };
      const unsigned first = byte(at);
      const std::size_t length = first < 0x80   ? 1
                                 : first < 0xC2 ? 0
                                 : first < 0xE0 ? 2
                                 : first < 0xF0 ? 3
                                                : 4;
      if (length == 0 || first > 0xF4 || at + length > text_.size()) fail("a byte that is no UTF-8");
      std::uint32_t point = length == 1 ? first : first & (0xFFU >> (length + 1));
      for (std::size_t i = 1; i < length; ++i) {
        if ((byte(at + i) & 0xC0U) != 0x80U) fail("a byte that is no UTF-8");
        point = point << 6 | (byte(at + i) & 0x3FU);
      }
      const bool is_char = point == 0x9 || point == 0xA || point == 0xD ||
                           (point >= 0x20 && point <= 0xD7FF) || (point >= 0xE000 && point <= 0xFFFD) ||
                           (point >= 0x10000 && point <= 0x10FFFF);
      if (!is_char || (length == 3 && point < 0x800) || (length == 4 && point < 0x10000))
        fail("a character that XML forbids");
      at += length;
    }
    at_ = 0;
  }

  bool next_is(std::string_view what) const { return text_.substr(at_, what.size()) == what; }
  void expect(std::string_view what) {
    if (!next_is(what)) fail("expected " + std::string(what));
    at_ += what.size();
  }

  std::string name() {
    const std::size_t start = at_;
    while (at_ < text_.size() &&
           (std::isalpha(static_cast<unsigned char>(text_[at_])) != 0 || text_[at_] == '-'))
      ++at_;
    if (at_ == start) fail("expected a name");
    return std::string(text_.substr(start, at_ - start));
  }

  // Up to one of the characters, references replaced.
  std::string content(std::string_view ends) {
    std::string out;
    for (; at_ < text_.size() && ends.find(text_[at_]) == std::string_view::npos; ++at_) {
      const char c = text_[at_];
      if (c == '<') fail("a stray <");
      if (next_is("]]>")) fail("a stray ]]>");
      if (c != '&') {
        out += c;
        continue;
      }
      static const std::map<std::string_view, char> known{{"amp", '&'},  {"lt", '<'},    {"gt", '>'},
                                                          {"quot", '"'}, {"apos", '\''}, {"#39", '\''}};
      const auto end = text_.find(';', at_);
      const auto found =
          end == std::string_view::npos ? known.end() : known.find(text_.substr(at_ + 1, end - at_ - 1));
      if (found == known.end()) fail("an unknown reference");
      out += found->second;
      at_ = end;
    }
    return out;
  }

  XmlElement element() {
    XmlElement e;
    expect("<");
    e.name = name();
    while (next_is(" ")) {
      expect(" ");
      const std::string attribute = name();
      expect("=\"");
      if (!e.attributes.emplace(attribute, content("\"\n\t")).second) fail("an attribute twice");
      expect("\"");
    }
    if (next_is("/>")) {
      expect("/>");
      return e;
    }
    expect(">");
    while (true) {
      e.text += content("<");
      if (next_is("</")) break;
      e.children.push_back(element());
    }
    expect("</" + e.name + ">");
    return e;
  }

  std::string_view text_;
  std::size_t at_ = 0;
};

}  // namespace

std::string XmlElement::at(const std::string& attribute) const {
  CAPTURE(name, attribute);
  REQUIRE(attributes.contains(attribute));
  return attributes.at(attribute);
}

std::vector<const XmlElement*> XmlElement::all(std::string_view named) const {
  std::vector<const XmlElement*> out;
  for (const XmlElement& child : children)
    if (child.name == named) out.push_back(&child);
  return out;
}

const XmlElement* XmlElement::one(std::string_view named) const {
  const auto found = all(named);
  CAPTURE(std::string(named));
  REQUIRE(found.size() < 2);
  return found.empty() ? nullptr : found.front();
}

XmlElement read_xml(std::string_view document) {
  return Reader(document).read();
}

}  // namespace boxproof::test
