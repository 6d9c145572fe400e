// The drawing from top to bottom: source circuits at the left, each input through its fuse onto the bus, the
// bus through the disconnect out of the enclosure, the output to the inverter. Words stand in two columns and
// make the room; lines follow them.
#include "src/report/schematic.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <set>

#include "src/report/html_text.hpp"
#include "src/report/phrases.hpp"
#include "src/report/schematic_inputs.hpp"
#include "src/report/schematic_places.hpp"
#include "src/report/schematic_sheet.hpp"
#include "src/report/schematic_symbols.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {
namespace {

class Drawing {
 public:
  Drawing(const DrawnBox& b, const std::vector<Mark>& marks) : b_(b), groups_(groups_to_draw(b)) {
    put_words();
    for (const Mark& mark : marks) put_mark(mark);
  }

  // Draws, and says how high the drawing is.
  int draw() {
    const int inputs_end = draw_inputs(), words_end = draw_inside();
    int y = std::max(inputs_end, words_end) + gap;
    const bool away = b_.box.disconnect && b_.box.disconnect->distance != Metres(0);
    if (!away) y = draw_disconnect(bus_end_, y, "wire");
    const int floor = y;
    sheet_.path(b_.box.enclosure ? "case" : "case unk", block(DrawnPart::enclosure).hit(),
                fmt::format("M{} 3H{}V{}H{}z", sheet::wall, sheet::far_wall, floor, sheet::wall));
    if (away) line(bus_end_, floor, "wire", block(DrawnPart::bus).hit());
    y = draw_output(floor);
    if (away) y = draw_disconnect(y, y, output_style());
    return draw_far_end(y);
  }

  const Sheet& sheet() const { return sheet_; }
  // What has the sign "≠", for those who do not see it.
  std::string differing() const {
    return differing_.empty() ? differing_
                              : fmt::format(" Not as on the plan, or not enough: {}.", plain(differing_));
  }

 private:
  static constexpr int gap = 9, first_line = 8;

  void put_words() {
    constexpr std::pair<DrawnPart, DrawnLines (*)(const DrawnBox&)> words[] = {
        {DrawnPart::strings, words_of_strings},
        {DrawnPart::bond, words_of_bond},
        {DrawnPart::grounding, words_of_grounding},
        {DrawnPart::enclosure, words_of_enclosure},
        {DrawnPart::fuses, words_of_fuses},
        {DrawnPart::label, words_of_labels},
        {DrawnPart::bus, words_of_bus},
        {DrawnPart::disconnect, words_of_disconnect},
        {DrawnPart::output, words_of_output},
        {DrawnPart::device, words_of_device},
        {DrawnPart::inverter, words_of_inverter}};
    for (const auto& [part, words_of] : words) {
      const bool at_left =
          part == DrawnPart::strings || part == DrawnPart::bond || part == DrawnPart::grounding;
      DrawnLines lines = words_of(b_);
      tell_differing(lines);
      block(part).lines = broken(std::move(lines), at_left ? sheet::left : sheet::right);
    }
    for (InputGroup& group : groups_) {
      tell_differing(group.block.lines);
      group.block.lines = broken(std::move(group.block.lines), sheet::left);
    }
  }

  void tell_differing(const DrawnLines& lines) {
    for (const std::string& words : differing_in(lines))
      differing_ += (differing_.empty() ? "" : "; ") + words;
  }

  DrawnBlock& block(DrawnPart part) { return blocks_[static_cast<std::size_t>(part)]; }

  void put_mark(const Mark& mark) {
    DrawnAt at = place_of(*mark.finding, b_.plan, b_.box);
    // Where there is one group, what is said of all strings is said of it.
    if (at.part == DrawnPart::strings && groups_.size() == 1 && block(DrawnPart::strings).lines.empty())
      at = {DrawnPart::circuit, 0, {}};
    if (at.part != DrawnPart::circuit) return add(block(at.part), mark);
    InputGroup& group = groups_[std::min(at.circuit, groups_.size() - 1)];
    add(group.block, mark);
    if (at.string)
      group.marked.insert((*at.string - 1) / b_.box.circuits[at.circuit].strings_per_fuse);
    else
      group.marked_whole = true;
  }

  // An entry of the report that speaks several times of one part is one callout.
  static void add(DrawnBlock& block, const Mark& mark) {
    if (std::none_of(block.marks.begin(), block.marks.end(),
                     [&](const Mark* m) { return m->number == mark.number; }))
      block.marks.push_back(&mark);
  }

  int draw_inputs() {
    int y = first_line;
    if (DrawnBlock& all = block(DrawnPart::strings); !all.lines.empty() || all.hit())
      y = sheet_.put(all, y, sheet::left) + gap;
    bus_end_ = y;
    std::optional<int> bus_top;
    const bool all_marked = block(DrawnPart::strings).hit();
    for (InputGroup& group : groups_) {
      const int words = Sheet::bottom_of(group.block, y, sheet::left) - y;
      const int height = std::max(words, group.height());
      sheet_.put(group.block, y, sheet::left);
      const int top = y + (height - group.height()) / 2;
      draw_group(sheet_, b_, group, top, all_marked, block(DrawnPart::fuses).hit());
      if (group.drawn > 0) {
        if (!bus_top) bus_top = top;
        bus_end_ = top + group.height();
      }
      y += height + gap;
    }
    sheet_.path("bus", block(DrawnPart::bus).hit(),
                fmt::format("M{} {}V{}", sheet::bus, bus_top.value_or(first_line), bus_end_));
    const int bond = y;
    y = sheet_.put(block(DrawnPart::bond), y, sheet::left);
    sheet_.path(bonds_of(b_.box).empty() ? "earth unk" : "earth", block(DrawnPart::bond).hit(),
                ground_bar(sheet::wall + 12, bond + 12, sheet::inputs_from - 12));
    return y;
  }

  int draw_inside() {
    int y = sheet_.put(block(DrawnPart::enclosure), first_line, sheet::right) + gap;
    y = sheet_.put(block(DrawnPart::fuses), y, sheet::right) + gap;
    const int plate = y;
    constexpr int margin = 4;
    y = sheet_.put(block(DrawnPart::label), y + 2, sheet::right) + margin;
    sheet_.path(b_.box.labels ? "lbl" : "lbl unk", block(DrawnPart::label).hit(),
                fmt::format("M{} {}h{}v{}h-{}z", sheet::right - margin, plate, sheet::right_room + 2 * margin,
                            y - plate, sheet::right_room + 2 * margin));
    return sheet_.put(block(DrawnPart::bus), y + gap, sheet::right);
  }

  void line(int from, int to, std::string_view style, bool hit) {
    if (to > from) sheet_.path(style, hit, fmt::format("M{} {}V{}", sheet::bus, from, to));
  }

  std::string_view output_style() const {
    return b_.box.output && b_.box.output->run && b_.box.output->run->conductor != nullptr ? "out"
                                                                                           : "out unk";
  }

  // The switch at y on a line that comes from `from`; its lower end.
  int draw_disconnect(int from, int y, std::string_view style) {
    DrawnBlock& words = block(DrawnPart::disconnect);
    const int end = std::max(sheet_.put(words, y, sheet::right), y + switch_height) + gap;
    if (!b_.box.disconnect) {
      line(from, y, style, false);
      line(y, end, style, words.hit());
      return end;
    }
    line(from, y, style, false);
    const Disconnect& d = *b_.box.disconnect;
    sheet_.path(d.load_break ? "switch" : "switch unk", words.hit(),
                switch_path(sheet::bus, y, d.load_break));
    if (!d.load_break) sheet_.text(sheet::bus - 30, y + 27, "q", "?", sheet::title_size, 12);
    line(y + switch_height, end, style, false);
    return end;
  }

  // From the floor of the enclosure; the lower end of the output conductor.
  int draw_output(int floor) {
    const DrawnBlock& output = block(DrawnPart::output);
    const DrawnBlock& egc = block(DrawnPart::grounding);
    const int end =
        std::max(sheet_.put(output, floor + gap, sheet::right), sheet_.put(egc, floor + gap, sheet::left)) +
        gap;
    const Run* run = b_.box.output && b_.box.output->run ? &*b_.box.output->run : nullptr;
    sheet_.path(output_style(), output.hit(),
                conductors(sheet::bus, floor, end, run != nullptr ? run->parallel : 1));
    sheet_.path(b_.box.egc && b_.box.egc->size ? "earth" : "earth unk", egc.hit(),
                ground(sheet::wall + 12, floor, floor + 26));
    return end;
  }

  int draw_far_end(int y) {
    const bool has = b_.box.output && b_.box.output->ocpd;
    const DrawnBlock& device = block(DrawnPart::device);
    const int device_end = std::max(sheet_.put(device, y, sheet::right), y + device_height) + gap;
    if (has) sheet_.path("device", device.hit(), device_path(sheet::bus, y + 2));
    line(has ? y + 2 + device_height : y, device_end, output_style(), device.hit() && !has);
    if (has) line(y, y + 2, output_style(), false);
    const DrawnBlock& inverter = block(DrawnPart::inverter);
    const int end = std::max(sheet_.put(inverter, device_end - 2, sheet::right), device_end + inverter_size);
    sheet_.path("inverter", inverter.hit(), inverter_path(sheet::bus, device_end));
    constexpr int margin = 4;
    return end + margin;
  }

  const DrawnBox& b_;
  std::vector<InputGroup> groups_;
  std::array<DrawnBlock, drawn_part_names.size()> blocks_;
  Sheet sheet_;
  std::string differing_;
  int bus_end_ = 0;
};

std::string marked_words(const std::vector<Mark>& marks) {
  if (marks.empty()) return {};
  std::set<std::size_t> numbers;
  for (const Mark& mark : marks) numbers.insert(mark.number);
  return fmt::format(" {} marked.", counted(numbers.size(), "finding is", "findings are"));
}

}  // namespace

std::string schematic(const ReportInput& r, const BoxResult& box, const BoxFacts& facts,
                      const std::vector<Mark>& marks) {
  const Combiner& plan = r.design.design.combiners[box.index];
  const VisitedBox* visited =
      r.record != nullptr && box.visited ? &r.record->record.boxes[*box.visited] : nullptr;
  const DrawnBox drawn{r, facts, *facts.box, plan, visited};
  Drawing drawing(drawn, marks);
  const int height = drawing.draw();
  const std::string id = fmt::format("drawing-{}", box.index);
  return fmt::format(
      "<svg class=\"drawing\" xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" role=\"{}\" "
      "aria-labelledby=\"{}-t\" aria-describedby=\"{}-d\">\n<title id=\"{}-t\">Box {}{}, one-line drawing</title>\n"
      "<desc id=\"{}-d\">{}{}{}</desc>\n<g aria-hidden=\"true\">\n{}</g>\n{}</svg>\n",
      sheet::width, height, marks.empty() ? "img" : "group", id, id, id, html(plan.id),
      visited != nullptr ? " as found" : "", id, html(sentence_of(drawn)), html(drawing.differing()),
      marked_words(marks), drawing.sheet().ink(), drawing.sheet().links());
}

std::string schematic_key() {
  std::string out = "<ul class=\"drawing-key\">\n";
  for (std::size_t i = 0; i < severity_names.size(); ++i) {
    Finding finding;
    finding.severity = static_cast<Severity>(i);
    out += fmt::format(
        "<li><svg viewBox=\"-2 -2 30 24\" aria-hidden=\"true\" class=\"drawing sign\">{}</svg> {}</li>\n",
        callout_sign(finding.severity), severity_names[i]);
  }
  return out +
         "<li><b>≠</b> not as on the plan, or less than it should say</li>\n<li><b>?</b> and dashed: not stated</li>\n</ul>\n";
}

}  // namespace boxproof::report
