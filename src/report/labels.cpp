// The label schedule for people.
#include "src/report/labels.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>

#include "src/report/entry.hpp"
#include "src/report/label_words.hpp"
#include "src/report/layout.hpp"
#include "src/report/phrases.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {
namespace {

// Boxes that need the same label but for their own name and counts.
struct Lot {
  LabelEntry first;
  std::vector<std::string_view> boxes;
  std::vector<std::string> words;  // of the boxes, where they differ
};

// What sets lots apart: two labels with the same key are made alike.
std::string key_of(const LabelEntry& e) {
  const bool own = e.kind == "box-identification" || e.kind == "disconnect";  // carry the name of the box
  return fmt::format("{}\n{}\n{}\n{}\n{}", e.kind, needed_word(e), e.need.pointer, fmt::join(e.missing, "\n"),
                     own ? std::string() : label_words(e));
}

void write_lot(std::string& out, const Lot& lot, std::size_t number, const Edition& edition) {
  const LabelEntry& e = lot.first;
  const std::string section =
      e.rule == nullptr ? "–" : plain(e.rule->section) + (e.rule->unverified ? " *" : "");
  out += wrap(fmt::format("{}  [{}]", e.kind, section), text_column, fmt::format("{:>3} ", number));
  if (e.box != nullptr)
    line(out, lot.boxes.size() == 1 ? "box" : "boxes",
         lot.boxes.size() == 1 ? run_together(lot.boxes)
                               : fmt::format("{}  ({} boxes)", run_together(lot.boxes), lot.boxes.size()));
  line(out, "where", label_place(e));
  constexpr std::size_t most = 4;  // of words that differ from box to box; CSV has them all
  for (std::size_t i = 0; i < std::min(most, lot.words.size()); ++i)
    line(out, i == 0 ? "text" : "", lot.words[i]);
  if (lot.words.size() > most)
    line(out, "", fmt::format("… and {} more, as --format csv lists them", lot.words.size() - most));
  if (e.rule != nullptr && !e.rule->words.empty())
    line(out, "wording", "prescribed by " + plain(e.rule->section));
  line(out, "look", label_look(e));
  if (!e.missing.empty())
    line(out, "missing",
         fmt::format("not stated: {}; so not every value can be computed",
                     plain(fmt::format("{}", fmt::join(e.missing, ", ")))));
  if (e.need.needed == Needed::not_stated && e.need.foreign_word)
    line(out, "needed",
         fmt::format("hangs on {}: functional, which the {} edition does not know", plain(e.need.pointer),
                     edition.name));
  else if (e.need.needed == Needed::not_stated)
    line(out, "needed", fmt::format("hangs on {}, which is not stated", plain(e.need.pointer)));
  else if (e.rule == nullptr)
    line(out, "needed", "the plan calls for it; the edition does not ask for it at the box");
}

void write_all(const std::vector<Lot>& lots, bool of_site, std::size_t& number, const Edition& edition,
               const Write& write) {
  for (const Lot& lot : lots) {
    if ((lot.first.box == nullptr) != of_site) continue;
    std::string out;
    write_lot(out, lot, ++number, edition);
    write(out + "\n");
  }
}

void write_identification(const LabelReport& r, const Write& write) {
  std::vector<const Inverter*> inverters;
  for (const Combiner* box : r.boxes)
    if (std::find(inverters.begin(), inverters.end(), box->inverter) == inverters.end())
      inverters.push_back(box->inverter);
  write("CONDUCTORS, told apart at every termination *\n\n");
  for (const Inverter* inverter : inverters)
    write(wrap(conductor_identification(*inverter, r.edition), text_column, "    "));
  write("\n");
}

}  // namespace

std::string_view needed_word(const LabelEntry& e) {
  if (e.rule == nullptr) return "plan";
  return e.need.needed == Needed::yes ? "yes" : "not stated";
}

void write_labels_text(const LabelReport& r, const Write& write) {
  const std::string left_side = fmt::format("boxproof {}", version());
  write(left_side +
        right(fmt::format("label schedule, {}NEC {}", r.basis == Basis::as_built ? "as built, " : "",
                          r.edition.name),
              page_width - width_of(left_side)) +
        "\n");
  write(wrap(plain(r.design.site.name), 0));
  if (r.basis == Basis::as_built)
    write(wrap(fmt::format("Of {}, {} as found by the field record, the others as planned.",
                           counted(r.boxes.size(), "box", "boxes"), r.visited),
               4, "  "));
  for (const std::string& text : changes(r.overrides, r.edition)) write(wrap(text, 4, "  "));
  write("\n");

  std::vector<Lot> lots;
  std::map<std::string, std::size_t> known;
  each_label(r, [&](const LabelEntry& e) {
    const auto [found, fresh] = known.emplace(key_of(e), lots.size());
    if (fresh) lots.push_back({e, {}, {}});
    Lot& lot = lots[found->second];
    if (e.box != nullptr) lot.boxes.push_back(e.box->id);
    std::string words = label_words(e);
    if (lot.words.empty() || lot.words.back() != words) lot.words.push_back(std::move(words));
  });
  std::stable_sort(lots.begin(), lots.end(), [](const Lot& a, const Lot& b) {  // by kind, as in the edition
    const auto rank = [](const Lot& lot) {
      return std::find(label_kinds.begin(), label_kinds.end(), lot.first.kind) - label_kinds.begin();
    };
    return rank(a) < rank(b);
  });
  std::size_t number = 0;
  if (r.whole_site &&
      std::any_of(lots.begin(), lots.end(), [](const Lot& l) { return l.first.box == nullptr; })) {
    write("ON THE SITE\n\n");
    write_all(lots, true, number, r.edition, write);
  }
  write("AT THE BOXES\n\n");
  write_all(lots, false, number, r.edition, write);
  write_identification(r, write);
  write("* from memory, unverified\n");
  write(
      wrap("Wording is our own where no section is named that prescribes it. Maxima are rounded up. ____ is "
           "for the site to fill in, where no value is named as missing.",
           0));
  write("\n" + wrap(caution(), 0));
}

}  // namespace boxproof::report
