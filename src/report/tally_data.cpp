#include "src/report/tally_data.hpp"

#include <fmt/format.h>

#include <map>
#include <unordered_map>

#include "boxproof/rule.hpp"
#include "src/report/json_text.hpp"
#include "src/report/layout.hpp"
#include "src/text/hash.hpp"

namespace boxproof::report {
namespace {

// Condition words in the order in which one looks at a box, under plain headings.
struct Conditions {
  std::string_view heading;
  std::vector<std::string_view> words;
};
const std::vector<Conditions>& condition_groups() {
  static const std::vector<Conditions> groups{
      {"Terminals and bus",
       {"burned-terminal", "burned-bus", "arc-marks", "loose-terminal", "corroded-terminal",
        "missing-inhibitor", "wrong-torque-mark"}},
      {"Conductors",
       {"chafed-conductor", "nicked-conductor", "pinched-conductor", "conductor-off-center", "sharp-bend",
        "no-strain-relief", "cracked-bushing", "missing-bushing"}},
      {"Water and openings",
       {"water-inside", "handle-leak", "standing-water", "gasket-damaged", "latch-open", "unsealed-opening"}},
      {"Box, fuses and other parts", {"melted-part", "missing-barrier", "debris-inside", "loose-mounting"}},
      {"Labels and marks", {"label-illegible", "label-missing", "counterfeit-mark"}}};
  return groups;
}

// As put_text(), with everything beyond ASCII as an escape: what could turn or hide other text of the page's
// source is then no such character, and the script has the id as it is.
void put_ascii(Buffer& out, std::string_view text) {
  put(out, "\"");
  const auto unit = [&out](unsigned u) { put(out, fmt::format("\\u{:04x}", u)); };
  for (std::size_t at = 0; at < text.size();) {
    const auto first = static_cast<unsigned char>(text[at++]);
    if (first == '"' || first == '\\' || first < 0x20 || first == 0x7F) {
      unit(first);
      continue;
    }
    if (first < 0x80) {
      out.push_back(static_cast<char>(first));
      continue;
    }
    unsigned point = first < 0xE0 ? first & 0x1FU : first < 0xF0 ? first & 0x0FU : first & 0x07U;
    while (at < text.size() && (text[at] & 0xC0) == 0x80)
      point = (point << 6) | (static_cast<unsigned char>(text[at++]) & 0x3FU);
    constexpr unsigned beyond_one_unit = 0x10000;  // RFC 8259, 7: two escapes from here on
    if (point >= beyond_one_unit) {
      unit(0xD800 + ((point - beyond_one_unit) >> 10));
      unit(0xDC00 + ((point - beyond_one_unit) & 0x3FF));
    } else {
      unit(point);
    }
  }
  put(out, "\"");
}

template <class Words>
void put_words(Buffer& out, std::string_view key, const Words& words) {
  put(out, fmt::format(",\n\"{}\":[", key));
  bool first = true;
  for (const auto& word : words) {
    put(out, first ? "" : ",");
    put_text(out, plain(word));
    first = false;
  }
  put(out, "]");
}

void put_conditions(Buffer& out) {
  put(out, ",\n\"conditions\":[");
  bool first = true;
  for (const Conditions& group : condition_groups()) {
    put(out, first ? "{\"heading\":" : ",{\"heading\":");
    first = false;
    put_text(out, group.heading);
    put(out, ",\"words\":[");
    for (const std::string_view word : group.words) {
      put(out, word == group.words.front() ? "[" : ",[");
      put_text(out, word);
      put(out, ",");
      put_text(out, find_rule(fmt::format("condition/{}", word))->title);
      put(out, "]");
    }
    put(out, "]}");
  }
  put(out, "]");
}

// The kinds of box as they come up, each once.
class Kinds {
 public:
  explicit Kinds(const TallySheet& sheet) : sheet_(sheet) {}
  std::size_t of(const Combiner& box) {
    const auto [found, fresh] = known_.emplace(tally_kind(sheet_, box), known_.size());
    if (fresh) in_order_.push_back(&found->first);
    return found->second;
  }
  const std::string& text(std::size_t kind) const { return *in_order_[kind]; }
  void put_all(Buffer& out) const {
    put(out, ",\n\"kinds\":[");
    for (const std::string* kind : in_order_) {
      put(out, kind == in_order_.front() ? "\n" : ",\n");
      put(out, *kind);
    }
    put(out, "]");
  }

 private:
  const TallySheet& sheet_;
  std::map<std::string, std::size_t> known_;
  std::vector<const std::string*> in_order_;
};

// What to look at again: the keys are for the script, all else is only shown.
void put_again(Buffer& out, const std::vector<AgainLine>& lines) {
  if (lines.empty()) return;
  put(out, ",\"again\":[");
  for (const AgainLine& a : lines) {
    put(out, &a == &lines.front() ? "{\"severity\":" : ",{\"severity\":");
    put_text(out, severity_names[static_cast<std::size_t>(a.severity)]);
    for (const auto& [key, text] : {std::pair<std::string_view, const std::string&>("rule", a.rule),
                                    {"message", a.message},
                                    {"look", a.look}}) {
      put(out, fmt::format(",\"{}\":", key));
      put_text(out, plain(text));
    }
    put(out, a.on_plan ? ",\"on_plan\":true,\"keys\":[" : ",\"keys\":[");
    for (const std::string& key : a.keys) {
      put(out, &key == &a.keys.front() ? "" : ",");
      put_text(out, plain(key));
    }
    put(out, "]}");
  }
  put(out, "]");
}

void put_box(Buffer& out, const Combiner& box, const TallyBox* entry, std::size_t kind, bool first) {
  put(out, first ? "\n{\"id\":" : ",\n{\"id\":");
  put_ascii(out, box.id);
  const auto text = [&out](std::string_view key, std::string_view value) {
    if (value.empty()) return;
    put(out, fmt::format(",\"{}\":", key));
    put_text(out, plain(value));
  };
  text("sheet", box.sheet);
  text("location", box.location);
  if (entry != nullptr) {
    text("why", entry->why);
    put_again(out, entry->again);
  }
  put(out, fmt::format(",\"kind\":{}}}", kind));
}

// Each site has counts of its own, and each second visit: what was counted on the first must not pass for
// looked at again.
std::string storage_key(const Site& site, const std::optional<SecondVisit>& second) {
  text::Hash hash;
  hash.add(site.name);
  hash.add(site.permit.number);
  if (second) hash.add(second->mark);
  return "boxproof-tally/" + hash.hex();
}

}  // namespace

std::string tally_data(const TallySheet& sheet) {
  const Design& design = sheet.design.design;
  Kinds kinds(sheet);
  // The stamp is of what the plan says of its boxes: another choice of the same boxes makes no other plan.
  text::Hash stamp;
  std::unordered_map<const Combiner*, std::size_t> kind_of;
  for (const Combiner& box : design.combiners) {
    const std::size_t kind = kind_of[&box] = kinds.of(box);
    for (const std::string& piece : {box.id, box.sheet, box.location, kinds.text(kind)}) stamp.add(piece);
  }
  Buffer boxes;
  put(boxes, ",\n\"boxes\":[");
  for (const TallyBox& b : sheet.boxes) {
    put_box(boxes, *b.box, &b, kind_of.at(b.box), &b == &sheet.boxes.front());
    kind_of.erase(b.box);
  }
  put(boxes, "],\n\"others\":[");
  bool first = true;
  for (const Combiner& box : design.combiners) {
    const auto left_out = kind_of.find(&box);
    if (left_out == kind_of.end()) continue;
    put_box(boxes, box, nullptr, left_out->second, first);
    first = false;
  }
  put(boxes, "]");
  kinds.put_all(boxes);

  Buffer out;
  put(out, "{\"site\":");
  put_ascii(out, design.site.name);
  put(out, ",\"permit\":");
  put_ascii(out, design.site.permit.number);
  put(out,
      fmt::format(",\"key\":\"{}\",\"stamp\":\"{}\"", storage_key(design.site, sheet.second), stamp.hex()));
  if (sheet.second) {
    put(out, ",\"second\":{\"date\":");
    put_text(out, plain(sheet.second->date));
    put(out, sheet.second->was_visited ? ",\"visited\":true}" : ",\"visited\":false}");
  }
  put_words(out, "sizes", Size::names);
  put_words(out, "label_kinds", label_kinds);
  std::vector<std::string> types;
  for (const EnclosureType& type : sheet.edition.enclosure.types) types.push_back(type.name);
  put_words(out, "enclosure_types", types);
  put_conditions(out);
  put(out, {boxes.data(), boxes.size()});
  put(out, "}");
  return {out.data(), out.size()};
}

}  // namespace boxproof::report
