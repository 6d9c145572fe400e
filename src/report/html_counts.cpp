#include "src/report/html_counts.hpp"

#include <fmt/format.h>

#include <map>

#include "src/check/as_built.hpp"
#include "src/report/html_parts.hpp"
#include "src/report/html_text.hpp"
#include "src/report/part_words.hpp"

namespace boxproof::report {
namespace {

struct CountRow {
  std::string_view what;
  std::string plan, label, found;
  bool told = true;  // a label or a count that differs from the plan's is marked
};

template <class T>
std::string text(const std::optional<T>& value) {
  if (!value) return {};
  if constexpr (std::is_arithmetic_v<T>)
    return std::to_string(*value);
  else
    return boxproof::shown(*value);
}

// Strings by their modules in series: "18", or "8 × 17, 4 × 18" where they differ.
std::string series_text(const std::map<std::uint32_t, std::uint64_t>& strings) {
  std::string out;
  if (strings.size() == 1) return std::to_string(strings.begin()->first);
  for (const auto& [series, n] : strings) out += fmt::format("{}{} × {}", out.empty() ? "" : ", ", n, series);
  return out;
}

std::string planned_series_words(const Combiner& box) {
  std::map<std::uint32_t, std::uint64_t> strings;
  for (const Circuit& c : box.circuits) strings[c.series] += c.strings;
  return series_text(strings);
}

std::string counted_series(const Count& count) {
  std::map<std::uint32_t, std::uint64_t> strings;
  for (const std::uint32_t series : count.series) ++strings[series];
  return series_text(strings);
}

std::string found_fuses(const VisitedBox& visited) {
  std::string out = text(visited.fuse.rating);
  for (const OddFuse& odd : visited.mixed_fuses) {
    if (!out.empty()) out += ", ";
    out += odd.rating ? boxproof::shown(*odd.rating) : "?";
    if (odd.position) out += fmt::format(" at {}", *odd.position);
  }
  return out;
}

std::string highest_voltage(const BoxFacts& f) {
  return f.max_voltage && f.every_voltage_known ? boxproof::shown(*f.max_voltage) : "?";
}

std::vector<CountRow> planned_rows(const BoxFacts& plan) {
  const Combiner& box = *plan.box;
  const std::string inputs = std::to_string(plan.inputs);
  return {
      {"Strings", std::to_string(plan.strings), "", ""},
      {"Modules in series", planned_series_words(box), "", ""},
      {"Positives", inputs, "", ""},
      {"Negatives", inputs, "", ""},
      {"Fuses", box.fuse ? std::to_string(fuse_count(plan)) : "none", "", ""},
      {"Fuse, A", box.fuse ? (box.fuse->rating ? boxproof::shown(*box.fuse->rating) : "?") : "none", "", ""},
      {"Maximum, V", highest_voltage(plan), "", "", false},
      {"Maximum, A", boxproof::shown(plan.output_max), "", "", false}};
}

void put_found(std::vector<CountRow>& rows, const VisitedBox& visited, const BoxFacts& plan,
               const BoxFacts& found) {
  const PostedLabel& label = visited.posted;
  const Count& count = visited.count;
  const std::string labels[] = {text(label.strings),     text(label.series),     "", "", "", text(label.fuse),
                                text(label.max_voltage), text(label.max_current)};
  const auto strings = counted_strings(*plan.box, visited);
  const std::string counts[] = {strings ? std::to_string(strings->strings) : "",
                                counted_series(count),
                                text(count.positive),
                                text(count.negative),
                                text(count.fuses),
                                found_fuses(visited),
                                highest_voltage(found),
                                boxproof::shown(found.output_max)};
  for (std::size_t i = 0; i < rows.size(); ++i) {
    rows[i].label = labels[i];
    rows[i].found = counts[i];
  }
}

std::string cell(const std::string& value, const CountRow& row) {
  if (value.empty())
    return "<td class=\"num\"><span aria-hidden=\"true\">–</span><span class=\"unseen\">not stated</span></td>";
  if (!row.told || value == row.plan) return fmt::format("<td class=\"num\">{}</td>", html(value));
  return fmt::format(
      "<td class=\"num differs\">{} <span aria-hidden=\"true\">≠</span><span class=\"unseen\">, not as "
      "planned</span></td>",
      html(value));
}

}  // namespace

std::string count_table(const ReportInput& r, const BoxResult& result, const BoxFacts& found) {
  const bool visited = r.record != nullptr && result.visited;
  BoxFacts plan;
  if (visited) box_facts(r.design.design, r.design.design.combiners[result.index], r.edition, plan);
  std::vector<CountRow> rows = planned_rows(visited ? plan : found);
  if (visited) put_found(rows, r.record->record.boxes[*result.visited], plan, found);
  std::string out = fmt::format(
      "<table class=\"accounts\">\n<caption>{}</caption>\n<thead><tr><th scope=\"col\">What</th><th scope=\"col\" "
      "class=\"num\">Plan</th>{}</tr></thead>\n<tbody>\n",
      visited ? "Plan, label and box as found" : "To count",
      visited ? "<th scope=\"col\" class=\"num\">Label</th><th scope=\"col\" class=\"num\">Found</th>" : "");
  for (const CountRow& row : rows) {
    out += fmt::format("<tr><th scope=\"row\">{}</th><td class=\"num\">{}</td>", row.what, html(row.plan));
    if (visited) out += cell(row.label, row) + cell(row.found, row);
    out += "</tr>\n";
  }
  return out + "</tbody>\n</table>\n";
}

}  // namespace boxproof::report
