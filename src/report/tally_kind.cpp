// One kind of box, as the page of the field sheet shows it and compares counts with it.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "boxproof/labels.hpp"
#include "src/report/json_text.hpp"
#include "src/report/layout.hpp"
#include "src/report/tally_data.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {
namespace {

// The members of one object: only what the plan states.
class Members {
 public:
  explicit Members(Buffer& out) : out_(out) { put(out_, "{"); }
  Members(const Members&) = delete;
  ~Members() { put(out_, "}"); }

  Buffer& key(std::string_view name) {
    put(out_, first_ ? "" : ",");
    first_ = false;
    put_text(out_, name);
    put(out_, ":");
    return out_;
  }
  void text(std::string_view name, std::string_view value) {
    if (!value.empty()) put_text(key(name), plain(value));
  }
  void number(std::string_view name, std::optional<double> value) {
    if (value) put_number(key(name), *value);
  }
  template <class Tag>
  void number(std::string_view name, const std::optional<Quantity<Tag>>& value) {
    if (value) put_number(key(name), value->value());
  }
  void flag(std::string_view name, std::optional<bool> value) {
    if (value) put(key(name), *value ? "true" : "false");
  }
  template <class E, std::size_t n>
  void word(std::string_view name, std::optional<E> value, const std::array<std::string_view, n>& words) {
    if (value) put_text(key(name), words[static_cast<std::size_t>(*value)]);
  }

 private:
  Buffer& out_;
  bool first_ = true;
};

void put_size(Members& m, const std::optional<Size>& size) {
  if (size) m.text("size", size->name());
}

void put_conductor(Members& parent, std::string_view name, const Conductor* c) {
  if (c == nullptr) return;
  Members m(parent.key(name));
  put_size(m, c->size);
  m.word("material", c->material, material_names);
  m.word("stranding", c->stranding, stranding_names);
  m.text("insulation", c->insulation);
}

const Conductor* conductor_of(const std::optional<Run>& run) {
  return run ? run->conductor : nullptr;
}

// The conductor of the source circuits, where all groups have the same.
const Conductor* source_of(const Combiner& box) {
  const Conductor* one = box.circuits.empty() ? nullptr : conductor_of(box.circuits.front().run);
  const bool same = std::all_of(box.circuits.begin(), box.circuits.end(),
                                [&](const Circuit& c) { return conductor_of(c.run) == one; });
  return same ? one : nullptr;
}

void put_groups(Members& parent, const Combiner& box) {
  Buffer& out = parent.key("groups");
  put(out, "[");
  for (const Circuit& c : box.circuits) {
    put(out, &c == &box.circuits.front() ? "" : ",");
    Members m(out);
    m.text("id", c.id);
    m.text("module", c.module->id);
    m.number("strings", c.strings);
    m.number("series", c.series);
    m.number("joined", c.strings_per_fuse);
  }
  put(out, "]");
}

// How many fuses make the plan true: none, one an input, two where both poles are fused, either where the
// plan does not say which.
void put_fuses(Members& parent, const Combiner& box, unsigned inputs) {
  std::vector<unsigned> right;
  if (box.fuse && box.fuse->poles != Poles::both) right.push_back(inputs);
  if (box.fuse && box.fuse->poles != Poles::one) right.push_back(2 * inputs);
  put(parent.key("fuses"), fmt::format("[{}]", fmt::join(right, ",")));
}

void put_posted(Members& parent, const BoxFacts& f, const LabelContents& contents) {
  const auto value = [&](Members& m, std::string_view key, std::string_view on_label, LabelValue which) {
    const auto computed = contents.of(which);
    m.number(key, computed);
    m.number(on_label, computed ? std::optional(printed(which, *computed)) : std::nullopt);
  };
  Members m(parent.key("posted"));
  m.number("strings", f.strings);
  value(m, "max_v", "max_v_label", LabelValue::max_v);
  value(m, "max_a", "max_a_label", LabelValue::max_a);
  if (f.box->fuse) m.number("fuse_a", f.box->fuse->rating);
}

void put_parts(Members& kind, const Combiner& box) {
  if (box.fuse) {
    Members m(kind.key("fuse"));
    m.number("a", box.fuse->rating);
    m.number("v", box.fuse->voltage);
    m.flag("dc", box.fuse->dc);
    m.flag("pv_listed", box.fuse->pv_listed);
    m.word("poles", box.fuse->poles, poles_names);
  }
  if (box.enclosure || box.mounting) {
    Members m(kind.key("enclosure"));
    if (box.mounting) {
      m.number("air_gap_mm", box.mounting->air_gap);
      m.word("cover", box.mounting->cover, cover_names);
    }
    if (box.enclosure) {
      m.text("type", box.enclosure->type);
      m.flag("listed", box.enclosure->listed);
      m.number("inputs", box.enclosure->inputs);
    }
  }
  {
    Members m(kind.key("disconnect"));
    m.flag("present", box.disconnect != nullptr);
    if (box.disconnect) {
      m.number("rated_v", box.disconnect->rated_voltage);
      m.number("rated_a", box.disconnect->rated_current);
      m.flag("load_break", box.disconnect->load_break);
      m.number("distance_m", box.disconnect->distance);
    }
  }
  put_conductor(kind, "output", box.output ? conductor_of(box.output->run) : nullptr);
  put_conductor(kind, "source", source_of(box));
  if (box.egc) {
    Members m(kind.key("egc"));
    put_size(m, box.egc->size);
    m.word("material", box.egc->material, material_names);
  }
}

}  // namespace

std::string tally_kind(const TallySheet& sheet, const Combiner& box) {
  BoxFacts f;
  box_facts(sheet.design.design, box, sheet.edition, f);
  Buffer out;
  {
    Members kind(out);
    kind.text("type", box.type != nullptr ? std::string_view(box.type->id) : std::string_view());
    kind.text("feeds", box.inverter->id);
    kind.number("inputs", f.inputs);
    kind.number("strings", f.strings);
    kind.number("modules", f.modules);
    put_fuses(kind, box, f.inputs);
    put_groups(kind, box);
    put_posted(kind, f, label_contents(f, sheet.edition));
    put_parts(kind, box);
    if (box.output && box.output->run) kind.number("parallel", box.output->run->parallel);
    Buffer& labels = kind.key("labels");
    put(labels, "[");
    std::vector<std::string> kinds;
    for (const LabelEntry& e : label_schedule(sheet.design.design, box, f, sheet.edition))
      kinds.push_back(e.kind);
    put_texts(labels, kinds);
    put(labels, "]");
  }
  return {out.data(), out.size()};
}

}  // namespace boxproof::report
