// Labels: which an edition asks for, where, and what they must state.
#include "boxproof/design.hpp"
#include "src/edition/group.hpp"
#include "src/edition/read_groups.hpp"

namespace boxproof::read {
namespace {

LabelRule label(std::string_view kind, const Group& g) {
  LabelRule rule;
  rule.kind = std::string(kind);
  rule.at = static_cast<LabelAt>(g.word("at", label_at_names));
  rule.when = static_cast<LabelWhen>(g.word("when", label_when_names));
  if (g.has("values"))
    for (const Value& v : g.items("values"))
      if (const auto value = to_word(v, label_value_names, g.reading()))
        rule.values.push_back(static_cast<LabelValue>(*value));
  if (g.has("served_by"))
    for (const Value& v : g.items("served_by"))
      if (const auto other = to_word(v, label_kinds, g.reading()))
        rule.served_by.emplace_back(label_kinds[*other]);
  const auto metres = [&g](std::string_view key) -> std::optional<Metres> {
    const auto value = g.number_if(key);
    return value ? std::optional(Metres(*value)) : std::nullopt;
  };
  rule.over = metres("over_m");
  rule.every = metres("every_m");
  if (const auto letter = g.number_if("letter_mm")) rule.letter = Millimetres(*letter);
  rule.look = g.text_if("look");
  rule.words = g.text_if("words");
  rule.section = g.text("section");
  rule.unverified = from_memory(g);
  return rule;
}

}  // namespace

void read_labels(const Group& g, LabelRules& rules) {
  rules.over_pct = g.number("over_pct");
  const Group identification = g.group("identification");
  rules.solid_section = identification.text("solid_section");
  rules.other_section = identification.text("other_section");
  const Group kinds = g.group("kinds");
  for (const std::string_view kind : label_kinds)
    if (kinds.has(kind)) rules.kinds.push_back(label(kind, kinds.group(kind)));
}

}  // namespace boxproof::read
