// Which labels an edition asks for, laid out like a table in a book.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "src/report/layout.hpp"
#include "src/report/tables.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {
namespace {

std::string_view when_words(LabelWhen when) {
  switch (when) {
    case LabelWhen::always: return "always";
    case LabelWhen::disconnect: return "boxes with a disconnect";
    case LabelWhen::raceway: return "runs in raceway, on or in buildings";
    case LabelWhen::grounded: return "solidly grounded arrays";
    case LabelWhen::ungrounded: return "ungrounded arrays";
    case LabelWhen::building: return "buildings and dwellings";
    case LabelWhen::far_disconnect: return "fused boxes with a disconnect farther away";
  }
  return {};
}

std::string label_row(const LabelRule& rule) {
  std::string text =
      fmt::format("{}; at the {}", when_words(rule.when), label_at_names[static_cast<std::size_t>(rule.at)]);
  if (rule.over) text += fmt::format("; more than {} m", boxproof::shown(*rule.over));
  std::vector<std::string_view> values;
  for (const LabelValue value : rule.values)
    values.push_back(label_value_names[static_cast<std::size_t>(value)]);
  if (!values.empty()) text += fmt::format("; states {}", fmt::join(values, ", "));
  if (!rule.served_by.empty()) text += fmt::format("; or {}", fmt::join(rule.served_by, ", "));
  if (rule.letter) text += fmt::format("; capitals of {} mm", boxproof::shown(*rule.letter));
  if (rule.every) text += fmt::format("; every {} m", boxproof::shown(*rule.every));
  if (!rule.look.empty()) text += "; " + rule.look;
  if (!rule.words.empty()) text += fmt::format("; \"{}\"", rule.words);
  return fmt::format("{}  [{}{}]", text, rule.section, rule.unverified ? " *" : "");
}

}  // namespace

void write_labels(const Edition& e, const Write& write) {
  constexpr std::size_t column = 24;
  write("LABELS\n");
  for (const LabelRule& rule : e.labels.kinds)
    write(wrap(plain(label_row(rule)), column, left("  " + rule.kind, column)));
  write(wrap(fmt::format("a stated value over {} % above the computed one describes another circuit",
                         boxproof::shown(e.labels.over_pct)),
             4, "  "));
  write(wrap(fmt::format("conductors told apart: grounded ones [{}], others [{}] *",
                         plain(e.labels.solid_section), plain(e.labels.other_section)),
             4, "  "));
  write("  * from memory, unverified\n");
}

}  // namespace boxproof::report
