#include "tests/support/hostile.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

namespace boxproof::test {
namespace {

constexpr std::size_t very_long = 10'000;  // characters

bool in(std::string_view key, std::initializer_list<std::string_view> keys) {
  return std::find(keys.begin(), keys.end(), key) != keys.end();
}

void mark(Json& value, const std::string& text) {
  if (value.is_string()) value = text + value.get<std::string>();
}

// Keys of an object that are ids.
void mark_keys(Json& map, const std::string& text) {
  Json out = Json::object();
  for (auto& [key, value] : map.items()) out[key == "note" ? key : text + key] = value;
  map = std::move(out);
}

// Everywhere below a value: the members with these names, and what labels state.
void mark_members(Json& value, const std::string& text, std::initializer_list<std::string_view> keys) {
  if (!value.is_structured()) return;
  if (value.is_object() && value.contains("values") && value["values"].is_object()) {
    mark_keys(value["values"], text);
    for (auto& [key, stated] : value["values"].items()) mark(stated, text);
  }
  if (value.is_object() && value.contains("enclosure") && value["enclosure"].is_object() &&
      value["enclosure"].contains("type"))
    mark(value["enclosure"]["type"], text);
  for (auto& [key, member] : value.items()) {
    if (value.is_object() && in(key, keys)) mark(member, text);
    mark_members(member, text, keys);
  }
}

}  // namespace

std::vector<Hostile> hostile_texts() {
  return {{"sequences of a terminal", "\x1b[31m\x1b[2J\x1b]0;title\x07"},
          {"cursor", "\r\b\b\t\v\f"},
          {"line ends", "\nboxproof: accept\r\n"},
          {"control characters of a second set", "\u0080\u0085\u008d\u009b31m\u009d0;t\u009f\u007f"},
          {"direction", "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f\u061c"},
          {"no width", "\u200b\u200c\u200d\ufeff\u2060\u00ad\U000E0041"},
          {"line separators", "\u2028\u2029"},
          {"odd but valid", "\ufffd\uffff\U0010ffff\u0300\u0301\ue000"},
          {"markup of a page", "<script>hostile()</script>\"'><img src=x onerror=hostile()>&lt;</style>"},
          {"formula", "=HYPERLINK(\"http://example.invalid\",\"x\")"},
          {"formula behind a sign", "+1"},
          {"formula behind a minus", "-1+1"},
          {"formula behind an at", "@SUM(1)"},
          {"quotes of a cell", "\",\"=1+1\r\n=1+1,"},
          {"very long", std::string(very_long, 'x')},
          {"very long, with blanks", [] {
             std::string out;
             while (out.size() < very_long) out += "word ";
             return out;
           }()}};
}

std::vector<Hostile> markdown_texts() {
  std::vector<Hostile> out;
  for (const std::string_view text : {"# heading",
                                      "## heading",
                                      "#",
                                      "> quote",
                                      "- item",
                                      "* item",
                                      "+ item",
                                      "-",
                                      "+",
                                      "1. item",
                                      "7) item",
                                      "123456789. item",
                                      "1.",
                                      "= ",
                                      "===",
                                      "---",
                                      "***",
                                      "___",
                                      "- - -",
                                      "```",
                                      "```sh",
                                      "~~~",
                                      "    code",
                                      "\tcode",
                                      "| a | b |",
                                      "|---|",
                                      ":---",
                                      "--- | ---",
                                      "[x]: http://example.invalid",
                                      "<div>",
                                      "<!-- x",
                                      "<!-- x -->",
                                      "<?php ?>",
                                      "<![CDATA[x]]>",
                                      "<a href='x'>y</a>",
                                      "<http://example.invalid>",
                                      "<a@example.invalid>",
                                      "*em*",
                                      "**strong**",
                                      "_em_",
                                      "__strong__",
                                      "***both***",
                                      "`code`",
                                      "``co`de``",
                                      "`",
                                      "```a",
                                      "[text](http://example.invalid)",
                                      "[text][x]",
                                      "[x]",
                                      "[ ] task",
                                      "[x] task",
                                      "![image](x.png)",
                                      "![x]",
                                      "[^1]",
                                      "~struck~",
                                      "~~struck~~",
                                      "&amp;",
                                      "&#60;b&#62;",
                                      "&lt;",
                                      "a\\",
                                      "\\",
                                      "\\*",
                                      "\\\\",
                                      "line\nline",
                                      "line\r\n# heading",
                                      "line\n\n# heading",
                                      "line  \nline",
                                      "line\n===",
                                      "line\n---",
                                      "http://example.invalid",
                                      "https://example.invalid/a_b_",
                                      "(http://example.invalid)",
                                      "www.example.invalid",
                                      "WWW.example.invalid",
                                      "mail@example.invalid",
                                      "mailto:mail@example.invalid",
                                      "xmpp:mail@example.invalid",
                                      "@somebody",
                                      "#12",
                                      "a#12",
                                      "@`@",
                                      "`@`@`",
                                      "www.`www.",
                                      "a@b`c`d@e",
                                      "$x$",
                                      "$$x$$",
                                      "$`x`$",
                                      "hard  ",
                                      "hard\\",
                                      "a | b",
                                      "\u202eabc",
                                      "a\x1b[31mb",
                                      "a\u00a0",
                                      " ",
                                      "  x  "})
    out.push_back({text, std::string(text)});
  out.push_back({"very long", std::string(very_long, '*')});
  out.push_back({"very long, of ticks", std::string(very_long, '`')});
  return out;
}

Json hostile_design(Json design, const std::string& text) {
  mark_members(design, text,
               {"name", "temperature_source", "number", "sheet", "location", "note", "id", "module",
                "inverter", "conductor", "insulation"});
  // A type of a box is named by a box; that of an enclosure is a word.
  for (Json& box : design["combiners"])
    if (box.contains("type")) mark(box["type"], text);
  for (const char* map : {"modules", "inverters", "conductors", "box_types"})
    if (design.contains(map)) mark_keys(design[map], text);
  return design;
}

Json hostile_record(Json record, const std::string& text) {
  mark_members(record, text, {"by", "weather", "id", "where", "photo", "note", "insulation"});
  return record;
}

Json hostile_exceptions(Json exceptions, const std::string& text) {
  for (Json& entry : exceptions["exceptions"]) {
    for (const char* key : {"reason", "agreed_by"}) mark(entry[key], text);
    for (Json& box : entry["boxes"])
      if (box != "*") mark(box, text);
    entry["designs"] = {"*", text + "north.json"};
  }
  return exceptions;
}

std::string harm_in(std::string_view page) {
  for (const char c : page)
    if ((static_cast<unsigned char>(c) < 0x20 && c != '\n') || c == 0x7F)
      return fmt::format("control character {:02X}", static_cast<unsigned>(c));
  for (unsigned point = 0x80; point < 0xA0; ++point)  // in UTF-8: C2 and the number
    if (page.find(std::string("\xC2") + static_cast<char>(point)) != std::string_view::npos)
      return fmt::format("control character {:02X}", point);
  constexpr std::array<std::string_view, 20> unseen{
      "\u200e", "\u200f", "\u061c", "\u202a", "\u202b", "\u202c",     "\u202d", "\u202e", "\u2066", "\u2067",
      "\u2068", "\u2069", "\u2028", "\u2029", "\ufeff", "\U000E0041", "\u200b", "\u2060", "\u2064", "\ufff9"};
  for (const std::string_view mark : unseen)
    if (page.find(mark) != std::string_view::npos)
      return fmt::format("the bytes {:02X}",
                         fmt::join(std::vector<unsigned char>(mark.begin(), mark.end()), " "));
  return {};
}

}  // namespace boxproof::test
