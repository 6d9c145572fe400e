#include "src/report/groups.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "boxproof/rule.hpp"
#include "src/report/layout.hpp"

namespace boxproof::report {
namespace {

// What a part is, without which one: "circuit 3 conductor" is a circuit conductor like that of circuit 1.
std::string kind_of_part(std::string_view part) {
  constexpr std::string_view numbered[] = {"circuit ", "circuits ", "bond of circuit ", "inverter "};
  for (std::string_view lead : numbered)
    if (part.starts_with(lead)) {
      const auto end = part.find_first_of(" /", lead.size());
      return std::string(lead) + (end == std::string_view::npos ? "" : std::string(part.substr(end)));
    }
  return std::string(part);
}

std::vector<std::string_view> box_ids(const Group& g) {
  std::vector<std::string_view> ids;
  for (const Finding* f : g.findings)
    if (ids.empty() || ids.back() != f->box_id) ids.push_back(f->box_id);
  return ids;
}

// The numbers that the findings of a group state, least first, with the boxes that each is stated of.
struct Stated {
  double number;
  std::string words;
  std::vector<std::string_view> boxes;
};
std::vector<Stated> numbers_of(const Group& g, Amount Finding::*value) {
  std::vector<Stated> out;
  std::map<std::string, std::size_t> known;
  for (const Finding* f : g.findings) {
    const double* n = std::get_if<double>(&(f->*value));
    if (n == nullptr) continue;
    std::string words = shown(f->*value, f->unit);
    const auto [at, first] = known.emplace(words, out.size());
    if (first) out.push_back({*n, std::move(words), {}});
    std::vector<std::string_view>& boxes = out[at->second].boxes;
    if (boxes.empty() || boxes.back() != f->box_id) boxes.push_back(f->box_id);
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const Stated& a, const Stated& b) { return a.number < b.number; });
  return out;
}

// "15 A, 30 A (A-06)": values that are required are no range of which any value would do. Of many, or
// where the boxes would fill lines, the reader is told what decides.
std::string each_of(const Group& g, const std::vector<Stated>& numbers) {
  constexpr std::size_t few = 3, short_list = 40;  // numbers; columns of ids
  const bool by_box = box_ids(g).size() > 1;
  const std::string_view by = by_box ? ", by box" : ", by part";
  if (numbers.size() > few) return fmt::format("{} … {}{}", numbers.front().words, numbers.back().words, by);
  std::string plainly, with_boxes;
  bool fits = by_box;
  for (const Stated& s : numbers) {
    const std::string boxes = by_box ? run_together(s.boxes) : std::string();
    fits = fits && width_of(boxes) <= short_list;
    plainly += (plainly.empty() ? "" : ", ") + s.words;
    with_boxes += fmt::format("{}{} ({})", with_boxes.empty() ? "" : ", ", s.words, boxes);
  }
  return fits ? with_boxes : plainly + std::string(by);
}

}  // namespace

std::vector<Group> group(const std::vector<Finding>& findings) {
  std::vector<const Finding*> all;
  all.reserve(findings.size());
  for (const Finding& f : findings) all.push_back(&f);
  return group(all);
}

std::vector<Group> group(const std::vector<const Finding*>& findings) {
  using Key =
      std::tuple<Severity, std::string_view, Basis, std::string, std::string, std::string, std::string>;
  std::map<Key, std::vector<std::size_t>> known;
  std::vector<Group> groups;
  constexpr std::size_t most_apart = 8;  // groups of one kind; from there on all others share the last
  for (const Finding* finding : findings) {
    const Finding& f = *finding;
    // Findings that want the same of the same kind of part belong together, or those that found the same. An
    // entry says once what to do.
    std::string wanted =
        std::holds_alternative<std::string>(f.required) ? std::get<std::string>(f.required) : f.unit;
    if (f.box_id.empty()) wanted += kind_of_part(f.part);  // the site's own stay apart
    std::vector<std::size_t>& alike =
        known[{f.severity, f.rule->id, f.basis, kind_of_part(f.part), std::move(wanted), f.section, f.ask}];
    auto home = std::find_if(alike.begin(), alike.end(), [&](std::size_t i) {
      const Finding& first = groups[i].first();
      return shown(first.required, "") == shown(f.required, "") ||
             shown(first.found, "") == shown(f.found, "");
    });
    if (home == alike.end() && alike.size() == most_apart) home = alike.end() - 1;
    if (home == alike.end()) {
      home = alike.insert(alike.end(), groups.size());
      groups.emplace_back();
    }
    groups[*home].findings.push_back(&f);
  }
  std::stable_sort(groups.begin(), groups.end(), [](const Group& a, const Group& b) {
    if (a.first().severity != b.first().severity) return a.first().severity < b.first().severity;
    return a.first().rule->id < b.first().rule->id;
  });
  return groups;
}

std::string range_of(const Group& g, Amount Finding::*value) {
  const Finding* least = nullptr;
  const Finding* most = nullptr;
  std::vector<std::string> words;
  for (const Finding* f : g.findings) {
    const Amount& amount = f->*value;
    if (const double* n = std::get_if<double>(&amount)) {
      if (least == nullptr || *n < std::get<double>(least->*value)) least = f;
      if (most == nullptr || *n > std::get<double>(most->*value)) most = f;
    } else if (std::string text = shown(amount, f->unit);
               !text.empty() && std::find(words.begin(), words.end(), text) == words.end()) {
      words.push_back(std::move(text));
    }
  }
  if (least != nullptr && g.findings.size() == 1)
    return shown(least->*value, least->unit, value == &Finding::found ? least->required : least->found);
  if (least != nullptr && value == &Finding::required)
    if (const std::vector<Stated> numbers = numbers_of(g, value); numbers.size() > 1)
      return each_of(g, numbers);
  if (least != nullptr) {
    const std::string low = shown(least->*value, ""), high = shown(most->*value, most->unit);
    return shown(least->*value, least->unit) == high ? high : low + " to " + high;
  }
  constexpr std::size_t few = 4;
  std::string out;
  for (std::size_t i = 0; i < std::min(few, words.size()); ++i) out += (i ? "; " : "") + words[i];
  return words.size() > few ? out + "; …" : out;
}

std::string boxes_of(const Group& g) {
  return run_together(box_ids(g));
}

std::size_t box_count(const Group& g) {
  return box_ids(g).size();
}

std::string parts_of(const Group& g) {
  std::vector<std::string_view> parts;
  for (const Finding* f : g.findings)
    if (!f->part.empty() && std::find(parts.begin(), parts.end(), f->part) == parts.end())
      parts.push_back(f->part);
  constexpr std::size_t few = 4;
  std::string out;
  for (std::size_t i = 0; i < std::min(few, parts.size()); ++i) out += (i ? ", " : "") + plain(parts[i]);
  return parts.size() > few ? out + ", …" : out;
}

}  // namespace boxproof::report
