#include "src/report/schematic_places.hpp"

#include <algorithm>
#include <initializer_list>
#include <string>
#include <vector>

#include "boxproof/rule.hpp"
#include "src/text/pointer.hpp"

namespace boxproof::report {
namespace {

using Words = std::initializer_list<std::string_view>;

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    const bool capital = c >= 'A' && c <= 'Z';
    if (capital || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
      words.back() += static_cast<char>(capital ? c - 'A' + 'a' : c);
    else if (!words.back().empty())
      words.emplace_back();
  }
  return words;
}

bool one_of(std::string_view word, Words these) {
  return std::find(these.begin(), these.end(), word) != these.end();
}

bool starts(std::string_view text, Words these) {
  return std::any_of(these.begin(), these.end(), [&](std::string_view w) { return text.starts_with(w); });
}

// A number that is the whole text, as in "string 9".
std::optional<std::uint32_t> number_in(std::string_view text) {
  constexpr std::size_t most_digits = 6;
  if (text.empty() || text.size() > most_digits) return std::nullopt;
  std::uint32_t n = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    n = 10 * n + static_cast<std::uint32_t>(c - '0');
  }
  return n;
}

class Places {
 public:
  Places(const Combiner& plan, const Combiner& drawn) : plan_(plan), drawn_(drawn) {}

  DrawnAt of_string(std::string_view number) const {
    const auto position = number_in(number);
    std::uint64_t before = 0;
    for (std::size_t i = 0; position && *position > 0 && i < plan_.circuits.size(); ++i) {
      const std::uint32_t strings = plan_.circuits[i].strings;
      if (*position <= before + strings)
        return {DrawnPart::circuit, i, static_cast<std::uint32_t>(*position - before)};
      before += strings;
    }
    return {DrawnPart::strings};
  }

  // "near", "near conductor", "near/run/length_m": a group may have any name, so that the longest one counts
  // that the text begins with.
  DrawnAt of_circuit(std::string_view text) const {
    std::optional<std::size_t> best;
    std::size_t longest = 0;
    for (const Combiner* box : {&drawn_, &plan_})
      for (std::size_t i = 0; i < box->circuits.size(); ++i) {
        const std::string& id = box->circuits[i].id;
        const bool ends = text.size() == id.size() ||
                          one_of(text.substr(std::min(text.size(), id.size()), 1), {" ", "/", ","});
        if (text.starts_with(id) && ends && (!best || id.size() > longest)) {
          best = i;
          longest = id.size();
        }
      }
    if (!best) return {DrawnPart::strings};
    return text.substr(longest).starts_with("/bond") ? DrawnAt{DrawnPart::bond}
                                                     : DrawnAt{DrawnPart::circuit, *best, {}};
  }

  // The one group that `uses` is true of; of several the source circuits together.
  template <class Uses>
  std::optional<DrawnAt> of_groups(Uses&& uses) const {
    std::optional<DrawnAt> out;
    for (std::size_t i = 0; i < drawn_.circuits.size(); ++i) {
      if (!uses(drawn_.circuits[i])) continue;
      if (out) return DrawnAt{DrawnPart::strings};
      out = DrawnAt{DrawnPart::circuit, i, {}};
    }
    return out;
  }

  DrawnAt of_module(std::string_view id) const {
    return of_groups([&](const Circuit& c) {
             return c.module->id == id || text::pointer_token(c.module->id) == id;
           })
        .value_or(DrawnAt{DrawnPart::strings});
  }

  // By the id of a conductor, as a pointer names it.
  std::optional<DrawnAt> of_conductor(std::string_view id) const {
    const auto is_it = [&](const Conductor* c) {
      return c != nullptr && (text::pointer_token(c->id) == id ||
                              (c->planned != nullptr && text::pointer_token(c->planned->id) == id));
    };
    for (const Combiner* box : {&drawn_, &plan_})
      if (box->output && box->output->run && is_it(box->output->run->conductor))
        return DrawnAt{DrawnPart::output};
    return of_groups([&](const Circuit& c) { return c.run && is_it(c.run->conductor); });
  }

 private:
  const Combiner& plan_;
  const Combiner& drawn_;
};

// "modules/M-450/vmp_v" without its first and last token.
std::string_view middle(std::string_view pointer) {
  const auto first = pointer.find('/'), last = pointer.rfind('/');
  return first < last ? pointer.substr(first + 1, last - first - 1) : pointer.substr(first + 1);
}

// By what the rules call the parts.
std::optional<DrawnAt> of_rule(std::string_view part, const Places& places) {
  const auto behind = [&](std::string_view lead) { return part.substr(lead.size()); };
  if (part.starts_with("circuit ")) return places.of_circuit(behind("circuit "));
  if (part.starts_with("circuits ")) return places.of_circuit(behind("circuits "));
  if (part.starts_with("string ")) return places.of_string(behind("string "));
  if (part.starts_with("module ")) return places.of_module(behind("module "));
  if (part.starts_with("modules/")) return places.of_module(middle(part));
  if (part.starts_with("conductors/"))
    return places.of_conductor(middle(part)).value_or(DrawnAt{DrawnPart::enclosure});
  if (starts(part, {"bond"})) return DrawnAt{DrawnPart::bond};
  if (starts(part, {"fuse", "mixed fuses"})) return DrawnAt{DrawnPart::fuses};
  if (starts(part, {"output device", "output/ocpd"})) return DrawnAt{DrawnPart::device};
  if (starts(part, {"output"})) return DrawnAt{DrawnPart::output};
  if (starts(part, {"disconnect", "external handle", "means to lock"})) return DrawnAt{DrawnPart::disconnect};
  if (starts(part, {"egc"})) return DrawnAt{DrawnPart::grounding};
  if (starts(part, {"label", "posted label"})) return DrawnAt{DrawnPart::label};
  if (starts(part, {"inverter", "hot end", "cold end"})) return DrawnAt{DrawnPart::inverter};
  if (starts(part, {"source", "measured/", "entry "}) ||
      one_of(part, {"strings", "series", "modules", "polarity", "counts", "operating voltage"}))
    return DrawnAt{DrawnPart::strings};
  if (const auto slash = part.rfind('/');
      slash != std::string_view::npos && part.substr(0, slash).ends_with(" as found"))
    return places.of_conductor(part.substr(0, slash));
  return std::nullopt;
}

// What is wrong with a part of this name, wherever the inspector saw it.
std::optional<DrawnPart> always_at(std::string_view condition) {
  if (condition == "burned-bus") return DrawnPart::bus;
  if (condition == "handle-leak") return DrawnPart::disconnect;
  if (one_of(condition, {"label-illegible", "label-missing"})) return DrawnPart::label;
  if (one_of(condition, {"gasket-damaged", "latch-open", "standing-water", "loose-mounting"}))
    return DrawnPart::enclosure;
  return std::nullopt;
}

// By the words of an inspector. Of several parts the one that says most of the place: "under the fuse row on
// the bus side" is at the fuses.
DrawnAt of_words(std::string_view where, std::string_view condition, const Places& places) {
  const auto words = words_of(where);
  const auto says = [&](Words these) {
    return std::any_of(words.begin(), words.end(), [&](const std::string& w) { return one_of(w, these); });
  };
  if (says({"fuse", "fuses", "fuseholder", "fuseholders"})) return {DrawnPart::fuses};
  if (says({"handle", "switch", "disconnect", "isolator", "blade", "blades"})) return {DrawnPart::disconnect};
  if (says({"label", "labels", "plate", "placard", "sticker"})) return {DrawnPart::label};
  if (says({"inverter"})) return {DrawnPart::inverter};
  if (says({"output", "outputs", "feeder"})) return {DrawnPart::output};
  if (says({"bond", "bonding"})) return {DrawnPart::bond};
  if (says({"ground", "grounding", "earth", "egc"})) return {DrawnPart::grounding};
  if (says({"bus", "busbar", "busbars", "buses"})) return {DrawnPart::bus};
  if (constexpr std::string_view lead = "circuit "; where.starts_with(lead))
    return places.of_circuit(where.substr(lead.size()));
  for (std::size_t i = 0; i + 1 < words.size(); ++i)
    if (words[i] == "string" && number_in(words[i + 1])) return places.of_string(words[i + 1]);
  if (says({"string", "strings", "source", "circuit", "circuits", "input", "inputs", "module", "modules",
            "positive", "positives", "negative", "negatives", "connector", "connectors"}))
    return {DrawnPart::strings};
  if (says(
          {"lid", "cover", "door", "hinge", "floor", "wall", "gasket", "latch", "box", "enclosure", "gland"}))
    return {DrawnPart::enclosure};
  if (condition == "missing-inhibitor") return {DrawnPart::output};  // aluminum is an output conductor's
  const bool terminal =
      one_of(condition, {"burned-terminal", "loose-terminal", "corroded-terminal", "wrong-torque-mark"});
  if (terminal || says({"lug", "lugs", "terminal", "terminals"})) return {DrawnPart::bus};
  return {DrawnPart::enclosure};
}

}  // namespace

DrawnAt place_of(const Finding& f, const Combiner& plan, const Combiner& drawn) {
  const Places places(plan, drawn);
  constexpr std::string_view seen = "condition/";
  if (f.rule == nullptr || !f.rule->id.starts_with(seen))
    return of_rule(f.part, places).value_or(DrawnAt{DrawnPart::enclosure});
  const std::string_view condition = f.rule->id.substr(seen.size());
  if (const auto part = always_at(condition)) return {*part};
  return of_words(f.part, condition, places);
}

}  // namespace boxproof::report
