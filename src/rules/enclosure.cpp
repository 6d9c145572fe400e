// The enclosure of the box: whether its type suits the place, whether it stands off the wall, whether it is
// listed.
#include "src/rules/enclosure.hpp"

#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>

#include "src/check/as_built.hpp"
#include "src/rules/common.hpp"

namespace boxproof {
namespace {

// As messages say it, in the order of Place.
constexpr std::array<std::string_view, 4> mounted_words{"on a roof", "on a wall outdoors",
                                                        "on the ground outdoors", "indoors"};

std::string_view where_of(const BoxCase& c) {
  return mounted_words[static_cast<std::size_t>(*c.box.mounting->place)];
}

bool is_ip_code(std::string_view type) {
  constexpr std::size_t letters = 2;
  if (type.size() <= letters || !same_word(type.substr(0, letters), "IP")) return false;
  const auto digit = [](char d) { return std::isdigit(static_cast<unsigned char>(d)) != 0; };
  return std::any_of(type.begin() + letters, type.end(), digit);
}

void unknown_type(const BoxCase& c, Notes& out, const std::string& type) {
  std::vector<std::string_view> known;
  for (const EnclosureType& t : c.edition.enclosure.types) known.push_back(t.name);
  out.find(Severity::query, "enclosure")
      .found(type)
      .required(std::string("a type of the table"))
      .at("/enclosure/type")
      .ask(fmt::format("State the enclosure type by the table of the edition: one of {}.",
                       fmt::join(known, ", ")))
      .say("The enclosure of {} is given as {}, which is no type of the table{}.", c.box.id, type,
           is_ip_code(type) ? "; an IP code does not tell the type" : "");
}

void judge_outdoors(const BoxCase& c, Notes& out, const EnclosureType& type) {
  const Mounting& mounting = *c.box.mounting;
  if (!type.outdoor) {
    out.find("enclosure")
        .found(type.name)
        .required(std::string("a type for outdoor use"))
        .at("/enclosure/type")
        .say("The type {} enclosure of {} stands {}; the type is for indoor use.", type.name, c.box.id,
             where_of(c));
    return;
  }
  if (type.lid_up) return;
  // A box on a wall faces sideways unless the plan says otherwise.
  if (!mounting.cover && *mounting.place != Place::wall) return out.lacks_in_box("/mounting/cover");
  if (mounting.cover != Cover::up) return;
  out.find("enclosure position")
      .found(std::string("cover up"))
      .required(std::string("cover to the side, or a raintight type"))
      .at("/mounting/cover")
      .ask("Turn the box so that its cover faces sideways, or use a raintight type.")
      .say("The type {} enclosure of {} stands {} with its cover up; the type holds rain off only upright.",
           type.name, c.box.id, where_of(c));
}

void judge_indoors(const BoxCase& c, Notes& out, const EnclosureType& type) {
  using Wet = EnclosureType::Wet;
  if (type.wet_indoors == Wet::yes) return;
  const Mounting& mounting = *c.box.mounting;
  if (!mounting.wet) return out.lacks_in_box("/mounting/wet");
  if (!*mounting.wet) return;
  Note note = out.find(type.wet_indoors == Wet::no ? Severity::correction : Severity::query, "enclosure");
  note.found(type.name).required(std::string("a type for the water there")).at("/enclosure/type");
  if (type.wet_indoors == Wet::no)
    note.say("The type {} enclosure of {} stands indoors in a wet location; the type keeps no water out.",
             type.name, c.box.id);
  else
    note.ask("Say how the water comes; where it is splashed or hosed, use a type made for that.")
        .say(
            "The type {} enclosure of {} stands indoors in a wet location; the type stands dripping water "
            "but no hose: which of the two is it there?",
            type.name, c.box.id);
}

void judge_type(const BoxCase& c, Notes& out) {
  if (!c.box.enclosure || c.box.enclosure->type.empty()) return out.lacks_in_box("/enclosure/type");
  const std::string& stated = c.box.enclosure->type;
  const auto& types = c.edition.enclosure.types;
  const auto known = std::find_if(types.begin(), types.end(),
                                  [&](const EnclosureType& t) { return same_word(t.name, stated); });
  if (known == types.end()) return unknown_type(c, out, stated);
  const auto outside = stands_outdoors(c.box);
  if (!outside) return out.lacks_in_box("/mounting/place");
  *outside ? judge_outdoors(c, out, *known) : judge_indoors(c, out, *known);
}

// What the inspector saw that takes a type away from an enclosure.
void judge_closure(const BoxCase& c, Notes& out) {
  if (c.visited == nullptr) return;
  const FoundEnclosure& found = c.visited->enclosure;
  const auto must = [&](std::optional<bool> holds, std::string_view part, std::string_view state,
                        std::string_view key) {
    if (holds != false) return;
    out.find(fmt::format("enclosure {}", part))
        .found(fmt::format("not {}", state))
        .required(std::string(state))
        .at(fmt::format("/enclosure/{}", key))
        .ask(fmt::format("Have the {} {} as its maker says.", part, state))
        .say(
            "The {} of {} was found not {}; an enclosure has its type only with its cover secured and its "
            "gasket seated.",
            part, c.box.id, state);
  };
  must(found.secured, "cover", "secured", "secured");
  must(found.gasket_seated, "gasket", "seated", "gasket_seated");
}

// Whether the box is in a wet location; nothing where the plan does not say, which is then asked for.
std::optional<bool> in_wet_location(const BoxCase& c, Notes& out) {
  if (c.box.mounting && c.box.mounting->wet) return c.box.mounting->wet;
  const auto outside = stands_outdoors(c.box);
  if (outside == true) return true;
  out.lacks_in_box(outside ? "/mounting/wet" : "/mounting/place");
  return std::nullopt;
}

// A roof and open ground get the rain. Where the plan says not wet it may mean that the box is under cover.
void query_dry(const BoxCase& c, Notes& out, std::optional<Millimetres> gap) {
  const Millimetres least = c.edition.enclosure.least_air_gap;
  if (gap && !exceeds(least, *gap)) return;
  Note note = out.find(Severity::query, "air gap");
  note.required(least.value())
      .unit("mm")
      .at("/mounting/wet")
      .ask(
          "Say what keeps the rain off the box; where nothing does, mount it on spacers that leave the "
          "air space.");
  gap ? note.found(gap->value()) : note.found(std::string("not stated"));
  note.say(
      "The metal box {} stands {} and is said not to be wet, with {} behind it; {} mm are asked for in "
      "wet locations: is it under cover?",
      c.box.id, where_of(c), gap ? fmt::format("{} mm of air", shown(*gap, least)) : "no air space stated",
      gap ? shown(least, *gap) : shown(least));
}

// Whether the box is said to be dry where rain comes.
bool said_dry_in_the_rain(const BoxCase& c) {
  if (!c.box.mounting || c.box.mounting->wet != false) return false;
  return c.box.mounting->place == Place::roof || c.box.mounting->place == Place::ground;
}

}  // namespace

const Rule enclosure_type{
    .id = "enclosure/type",
    .severity = Severity::correction,
    .title = "Enclosure type not suited to its place or position",
    .explain = {"Compares the type of the enclosure with where it stands and which way its cover faces; as "
                "built also asks whether the cover was secured and the gasket seated.",
                "Water inside a box bridges bars at a thousand volts of direct current. A rainproof box "
                "keeps it out only upright: laid on its back it collects rain like a pan.",
                "By the edition's table of types. Roof, wall and ground count as outdoors; a box on a wall "
                "faces sideways unless the plan says otherwise. Indoors in a wet location a type that "
                "stands dripping but no hose is queried, and so is a word that is no type: an IP code does "
                "not convert to one."},
    .remedy = "Use a type that suits the place, the position and the water there.",
    .uses = {"enclosure.types"},
    .judge = [](const BoxCase& c, Notes& out) {
      judge_type(c, out);
      judge_closure(c, out);
    }};

const Rule enclosure_air_gap{
    .id = "enclosure/air-gap",
    .severity = Severity::correction,
    .title = "Metal box in a wet location without the air space behind it",
    .explain = {"Compares the air space between a metal box and what it is mounted on with the least that "
                "the edition asks for in wet locations.",
                "Water that stands between box and wall rusts the back through, unseen, and finds the "
                "screw holes.",
                "mounting.air_gap_mm against the edition's least. A box outdoors counts as wet unless the "
                "plan says that it is not; on a roof or on open ground that is queried where the space is "
                "less or not stated. Boxes that are not of metal are passed over: the code excepts "
                "them on masonry and the like, which the plan does not state."},
    .remedy = "Mount the box on spacers that leave the air space.",
    .uses = {"enclosure.air_gap"},
    .judge = [](const BoxCase& c, Notes& out) {
      const auto metal = c.box.enclosure ? c.box.enclosure->metal : std::nullopt;
      if (metal == false) return;
      const bool dry_in_the_rain = said_dry_in_the_rain(c);
      if (!dry_in_the_rain && in_wet_location(c, out) != true) return;
      const auto gap = c.box.mounting ? c.box.mounting->air_gap : std::nullopt;
      if (!metal) out.lacks_in_box("/enclosure/metal");
      if (dry_in_the_rain) return metal ? query_dry(c, out, gap) : void();
      if (!gap) out.lacks_in_box("/mounting/air_gap_mm");
      const Millimetres least = c.edition.enclosure.least_air_gap;
      if (!metal || !gap || !exceeds(least, *gap)) return;
      out.find("air gap")
          .found(gap->value())
          .required(least.value())
          .unit("mm")
          .at("/mounting/air_gap_mm")
          .say("The metal box {} stands {} mm off what it is mounted on, in a wet location; it needs {} mm.",
               c.box.id, shown(*gap, least), shown(least, *gap));
    }};

const Rule enclosure_not_listed{
    .id = "enclosure/not-listed",
    .severity = Severity::correction,
    .title = "Combiner not listed",
    .explain = {"Asks whether the combiner is listed for use in photovoltaic systems, as every edition "
                "wants.",
                "A listed combiner was tested with its fuses, at its voltage, in its own heat. One put "
                "together in a workshop was not, and nobody finds out before the roof does.",
                "enclosure.listed as stated. From 2017 on an evaluation on site with a field label does in "
                "place of the listing."},
    .remedy = "Use a combiner listed for photovoltaic systems.",
    .uses = {"enclosure.listing"},
    .judge = [](const BoxCase& c, Notes& out) {
      const auto listed = c.box.enclosure ? c.box.enclosure->listed : std::nullopt;
      if (!listed) return out.lacks_in_box("/enclosure/listed");
      if (*listed) return;
      const bool or_label = c.edition.enclosure.or_field_labelled;
      Note note = out.find("enclosure");
      note.found(std::string("not listed"))
          .required(std::string(or_label ? "listed or field labelled" : "listed"))
          .at("/enclosure/listed")
          .say("{} is not a listed combiner; it must be listed for photovoltaic systems{}.", c.box.id,
               or_label ? " or field labelled" : "");
      if (or_label)
        note.ask("Use a combiner listed for photovoltaic systems, or show its field evaluation and label.");
    }};

}  // namespace boxproof
