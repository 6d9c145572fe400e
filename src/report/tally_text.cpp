// The field sheet for paper: what the plan has in each box, and room for what is there.
#include <fmt/format.h>

#include "boxproof/asbuilt.hpp"
#include "boxproof/labels.hpp"
#include "boxproof/rule.hpp"
#include "src/report/layout.hpp"
#include "src/report/part_words.hpp"
#include "src/report/phrases.hpp"
#include "src/report/tally.hpp"

namespace boxproof::report {
namespace {

constexpr std::size_t indent = 10;

void sheet_line(std::string& out, std::string_view label, std::string_view text) {
  out += wrap(text, indent, "  " + left(label, indent - 2));
}

// Something to write on up to the edge of the page.
std::string to_the_edge(std::string text) {
  return text + std::string(page_width - width_of(text), '_') + "\n";
}

// What a second visit must know besides its boxes.
void write_second_on_sheet(const SecondVisit& s, const Write& write) {
  for (const std::string& remark : s.remarks) write(wrap(plain(remark), 4, "  "));
  if (s.elsewhere.empty()) return;
  write("  OPEN ELSEWHERE, of the site and of boxes that are not on the plan\n");
  for (const std::string& text : s.elsewhere) write(wrap(plain(text), 6, "    "));
}

void write_sheet_head(const TallySheet& s, const Write& write) {
  const std::string left_side = fmt::format("boxproof {}", version());
  write(left_side +
        right(fmt::format("field sheet, NEC {}", s.edition.name), page_width - width_of(left_side)) + "\n");
  write(wrap(plain(s.design.design.site.name), 0));
  for (const std::string& sentence : s.how) write(wrap(plain(sentence), 4, "  "));
  for (const std::string& text : changes(s.overrides, s.edition)) write(wrap(text, 4, "  "));
  if (s.second) write_second_on_sheet(*s.second, write);
  write("\n" + to_the_edge("date ________________  visit: first / again   by "));
  write("\n" + to_the_edge("weather "));
  write(
      "\n" +
      wrap("Write what is there, not what the plan has; what was not looked at stays open. series: one "
           "number where all strings have as many modules, else one a string in the order of the "
           "circuits. ? is not stated on the plan. The words for \"seen\" stand at the end; write none where "
           "they were looked for and nothing was seen.",
           0));
  write("\n" + wrap("A box stays energised from the array with its switch open. Only licensed and qualified "
                    "persons open it.",
                    0));
}

std::string name_words(const Combiner& box) {
  std::string text = plain(box.id);
  if (!box.sheet.empty()) text += ", sheet " + plain(box.sheet);
  if (box.type != nullptr) text += ", type " + plain(box.type->id);
  text += ", feeds " + plain(box.inverter->id);
  if (!box.location.empty()) text += "; " + plain(box.location);
  return text;
}

// What to count. Of fuses whose poles nobody states there are as many as inputs or twice as many.
std::string count_words(const BoxFacts& f) {
  std::string fuses = "no fuses";
  if (f.box->fuse) {
    fuses = counted(fuse_count(f), "fuse", "fuses");
    if (!f.box->fuse->poles) fuses += fmt::format(" (or {}, in both poles)", 2 * f.inputs);
  }
  return fmt::format("{}, {}, {}", counted(f.inputs, "positive", "positives"),
                     counted(f.inputs, "negative", "negatives"), fuses);
}

std::string parts_words(const Combiner& box) {
  std::string text =
      "box type " + (box.enclosure && !box.enclosure->type.empty() ? plain(box.enclosure->type) : "?");
  if (!box.disconnect) return text + "; no disconnect";
  const Disconnect& d = *box.disconnect;
  return text + fmt::format("; disconnect {}, {}, {}, {}", distance_words(d),
                            yes_no(d.load_break, "load-break", "NOT LOAD-BREAK"),
                            or_unknown(d.rated_voltage, "V"), or_unknown(d.rated_current, "A"));
}

std::string output_words(const Combiner& box) {
  const Run* run = box.output && box.output->run ? &*box.output->run : nullptr;
  std::string text = "output " + wire_words(run);
  if (run != nullptr && run->conductor != nullptr && run->conductor->stranding)
    text +=
        fmt::format(", {} strands", stranding_names[static_cast<std::size_t>(*run->conductor->stranding)]);
  return text;
}

std::string label_words(const BoxFacts& f, const Edition& edition) {
  const LabelContents contents = label_contents(f, edition);
  const auto value = [&](LabelValue of) {
    const auto computed = contents.of(of);
    return computed ? boxproof::shown(printed(of, *computed)) : std::string("?");
  };
  std::string text = fmt::format("label {}; {}; {} V, {} A", plain(f.box->id), strings_words(*f.box),
                                 value(LabelValue::max_v), value(LabelValue::max_a));
  if (f.box->fuse) text += "; fuses " + or_unknown(f.box->fuse->rating, "A");
  return text;
}

// What to look at again, a place to tick each.
void write_again(std::string& out, const TallyBox& entry) {
  constexpr std::size_t tick = 4;
  const std::string blank(indent + tick, ' ');
  for (const AgainLine& a : entry.again) {
    const bool first = &a == &entry.again.front();
    out += wrap(fmt::format("{} {}: {}{}", upper(name_of(a.severity)), plain(a.rule),
                            a.on_plan ? "on the plan: " : "", plain(a.message)),
                indent + tick, "  " + left(first ? "AGAIN" : "", indent - 2) + "[ ] ");
    out += wrap("look at: " + plain(a.look), indent + tick, blank);
  }
}

void write_box(std::string& out, const TallySheet& s, const TallyBox& entry, BoxFacts& f) {
  const Combiner& box = *entry.box;
  box_facts(s.design.design, box, s.edition, f);
  out += wrap(name_words(box), indent);
  if (!entry.why.empty()) sheet_line(out, "chosen", plain(entry.why));
  write_again(out, entry);
  sheet_line(out, "PLAN", count_words(f));
  for (const Circuit& circuit : box.circuits) sheet_line(out, "", circuit_words(circuit));
  if (box.fuse) sheet_line(out, "", "fuses " + fuse_words(*box.fuse));
  sheet_line(out, "", parts_words(box));
  sheet_line(out, "", output_words(box));
  sheet_line(out, "", label_words(f, s.edition));
  out +=
      to_the_edge("  " + left("THERE", indent - 2) + "positives ____  negatives ____  fuses ____  series ");
  sheet_line(out, "", "fuses ____ A _____ V  DC yes / no  type _____  switch _____ V _____ A");
  sheet_line(out, "", "label ____________ strings ____ of ____  _____ V _____ A  fuses ____ A");
  out += to_the_edge(std::string(indent, ' ') + "output ______________________  seen ");
  out += to_the_edge(std::string(indent, ' ') + "notes ");
}

void write_words(const Write& write) {
  write("WORDS FOR \"SEEN\"  (! a hazard: unsafe as it stands)\n");
  constexpr std::size_t word_width = 22;
  for (const std::string_view word : condition_words) {
    const Rule& rule = *find_rule(fmt::format("condition/{}", word));
    write(fmt::format("  {} {} {}\n", rule.severity == Severity::hazard ? "!" : " ", left(word, word_width),
                      rule.title));
  }
}

}  // namespace

void write_tally_text(const TallySheet& s, const Write& write) {
  write_sheet_head(s, write);
  const std::string rule(page_width, '-');
  BoxFacts facts;
  for (const TallyBox& entry : s.boxes) {
    std::string out = "\n" + rule + "\n";
    write_box(out, s, entry, facts);
    write(out);
  }
  write("\n" + rule + "\n");
  write_words(write);
  write("\n" + wrap(caution(), 0));
}

}  // namespace boxproof::report
