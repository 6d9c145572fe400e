// The disconnect at the output of the box: whether one is asked for, of which kind, how near, how strong.
#include "src/rules/common.hpp"
#include "src/rules/list.hpp"

namespace boxproof {
namespace {

// The case of the edition that this box falls under; null where the plan does not say enough, which is then
// queried.
const DisconnectCase* case_of(const BoxCase& c, Notes& out) {
  const DisconnectRules& rules = c.edition.disconnect;
  if (rules.roof) {
    if (!c.box.mounting || !c.box.mounting->place) {
      out.lacks_in_box("/mounting/place");
      return nullptr;
    }
    if (*c.box.mounting->place == Place::roof) return &*rules.roof;
  }
  return exceeds(c.facts.output_max, rules.large_above) ? &rules.large : &rules.small;
}

// Where an edition tells boxes on roofs from others, the case has the finer section; elsewhere the rule's own
// stands.
std::string_view section_of(const BoxCase& c, const DisconnectCase& rule) {
  return c.edition.disconnect.roof ? std::string_view(rule.section) : std::string_view();
}

// The case, if it asks for anything at this box.
const DisconnectCase* asked_case(const BoxCase& c, Notes& out) {
  const DisconnectCase* rule = case_of(c, out);
  if (rule == nullptr || rule->kind == DisconnectKind::none) return nullptr;
  if (rule->only_if_fused && !c.box.fuse) return nullptr;
  if (rule->unless_output_up_to <= Metres(0)) return rule;
  const std::optional<Metres> length =
      c.box.output && c.box.output->run ? c.box.output->run->length : std::nullopt;
  if (!length) {
    out.lacks_in_box("/output/run/length_m");
    return nullptr;
  }
  return exceeds(*length, rule->unless_output_up_to) ? rule : nullptr;
}

}  // namespace

const Rule disconnect_missing{
    .id = "disconnect/missing",
    .severity = Severity::correction,
    .title = "Disconnect needed at the box and none there",
    .explain =
        {"Asks whether the edition wants a disconnect at the output of this box (by place, current and "
         "fuses), and whether the plan has one.",
         "Whoever changes a fuse must be able to stop the current first. Without a switch near by, fuses "
         "are pulled under load, and the arc is in the hand. The box stays energised from the array even "
         "then.",
         "The edition's cases: a box on a roof, an output above or below a current, a fused box; a local "
         "amendment may leave out boxes whose output is short, because they stand by the inverter. Where "
         "only an isolating device is asked for and the box has fuses, touch-safe holders may serve: a "
         "query."},
    .remedy = "Provide the disconnect, or show the isolating device that serves in its place.",
    .uses = {"disconnect"},
    .judge = [](const BoxCase& c, Notes& out) {
      if (c.box.disconnect) return;
      const DisconnectCase* rule = asked_case(c, out);
      if (rule == nullptr) return;
      const bool holders_may_serve = rule->kind == DisconnectKind::isolating && c.box.fuse;
      Note note = out.find(holders_may_serve ? Severity::query : Severity::correction, "disconnect");
      note.found(std::string("none"))
          .required(std::string(rule->kind == DisconnectKind::load_break ? "load-break disconnect"
                                                                         : "isolating device"))
          .section(section_of(c, *rule))
          .at("");
      if (rule->kind == DisconnectKind::load_break)
        note.ask("Provide a disconnect rated to break the output's current at its voltage.");
      if (holders_may_serve)
        note.say(
            "{} has no disconnect; for its {} A output an isolating device is asked for: are its fuse "
            "holders touch-safe and able to isolate the fuses?",
            c.box.id, shown(c.facts.output_max));
      else
        note.say(
            "{} has no disconnect; for its {} A output {} is asked for.", c.box.id, shown(c.facts.output_max),
            rule->kind == DisconnectKind::load_break ? "a load-break disconnect" : "an isolating device");
    }};

const Rule disconnect_not_load_break{
    .id = "disconnect/not-load-break",
    .severity = Severity::hazard,
    .title = "Isolating switch where a load-break one is needed",
    .explain =
        {"Where the edition wants a disconnect that can be opened under load: asks whether this one can.",
         "An isolator opened under load draws a DC arc that does not go out, a few centimetres from the "
         "hand on the handle.",
         "disconnect.load_break as stated, in the cases of disconnect/missing."},
    .remedy = "Use a disconnect rated to break the output's current at its voltage.",
    .uses = {"disconnect"},
    .judge = [](const BoxCase& c, Notes& out) {
      if (!c.box.disconnect) return;
      const DisconnectCase* rule = asked_case(c, out);
      if (rule == nullptr || rule->kind != DisconnectKind::load_break) return;
      if (!c.box.disconnect->load_break) return out.lacks_in_box("/disconnect/load_break");
      if (*c.box.disconnect->load_break) return;
      out.find("disconnect")
          .found(std::string("isolating"))
          .required(std::string("load-break"))
          .section(section_of(c, *rule))
          .at("/disconnect/load_break")
          .say(
              "The disconnect of {} may not be opened under load; its {} A output asks for a load-break one.",
              c.box.id, shown(c.facts.output_max));
    }};

const Rule disconnect_too_far{
    .id = "disconnect/too-far",
    .severity = Severity::correction,
    .title = "Disconnect too far from the box",
    .explain = {"Compares the distance of the disconnect from the box with what the edition allows.",
                "A switch out of sight is closed again by somebody who does not see the hand in the box.",
                "The edition's distance for the box's case. Where the edition sets none and asks for a "
                "disconnect in sight and readily accessible, or lockable, the plan must say which: a query "
                "otherwise."},
    .remedy = "Move the disconnect to the box, or within the distance.",
    .uses = {"disconnect"},
    .judge = [](const BoxCase& c, Notes& out) {
      if (!c.box.disconnect) return;
      const Disconnect& d = *c.box.disconnect;
      const DisconnectCase* rule = asked_case(c, out);
      if (rule == nullptr) return;
      if (rule->within) {
        if (!d.distance) return out.lacks_in_box("/disconnect/distance_m");
        if (!exceeds(*d.distance, *rule->within)) return;
        out.find("disconnect")
            .found(d.distance->value())
            .required(rule->within->value())
            .unit("m")
            .section(section_of(c, *rule))
            .at("/disconnect/distance_m")
            .say("The disconnect of {} is {} m away; it may be {} m at most.", c.box.id,
                 shown(*d.distance, *rule->within), shown(*rule->within, *d.distance));
      } else if (rule->or_lockable && d.distance != Metres(0) && d.lockable != true) {
        if (!d.lockable) return out.lacks_in_box("/disconnect/lockable");
        out.find(Severity::query, "disconnect")
            .found(std::string("not lockable"))
            .required(std::string("in sight and readily accessible, or lockable"))
            .section(section_of(c, *rule))
            .at("/disconnect")
            .say(
                "The disconnect of {} is not in the box and not lockable; is it in sight and readily "
                "accessible?",
                c.box.id);
      }
    }};

const Rule disconnect_current_rating{
    .id = "disconnect/current-rating",
    .severity = Severity::hazard,
    .title = "Disconnect rated below the current it carries",
    .explain =
        {"Holds the rated current of the disconnect against the continuous current of the output.",
         "Contacts above their rating weld or burn; a welded switch shows open and is closed.",
         "The output's maximum current times 1.25; without that factor only where the assembly is listed "
         "for 100 %."},
    .remedy = "Use a disconnect with a higher rated current.",
    .uses = {"disconnect.current", "current.maximum"},
    .judge = [](const BoxCase& c, Notes& out) {
      if (!c.box.disconnect) return;
      const auto& rated = c.box.disconnect->rated_current;
      if (!rated) return out.lacks_in_box("/disconnect/rated_a");
      if (!exceeds(c.facts.disconnect_least, *rated)) return;
      out.find("disconnect")
          .found(rated->value())
          .required(c.facts.disconnect_least.value())
          .unit("A")
          .at("/disconnect/rated_a")
          .say("The disconnect of {} is rated {} A; its output needs {} A.", c.box.id,
               shown(*rated, c.facts.disconnect_least), shown(c.facts.disconnect_least, *rated))
          .work([&](Working& w) {
            const Amps max = output_current(c.box, c.edition, &w);
            const double k = c.facts.disconnect_least / max;
            w.push_back(computed("Id", "kd · Iout", {{"kd", k}, {"Iout", max.value()}},
                                 c.facts.disconnect_least.value(), "A",
                                 c.edition.disconnect.current_section));
          });
    }};

const Rule disconnect_handle{
    .id = "disconnect/handle",
    .severity = Severity::correction,
    .title = "Disconnect without the handle or lock that is asked for",
    .explain =
        {"Asks whether the disconnect is operated from outside without opening the box, and whether it can "
         "be locked open, where the edition wants that.",
         "A switch behind a cover is opened with live parts bare; one that cannot be locked is closed by "
         "the next person who passes.",
         "disconnect.external_handle and disconnect.lockable as stated, in the cases of disconnect/missing."},
    .remedy = "Use a disconnect with an external handle that shows its position and takes a lock.",
    .uses = {"disconnect"},
    .judge = [](const BoxCase& c, Notes& out) {
      if (!c.box.disconnect) return;
      const Disconnect& d = *c.box.disconnect;
      const DisconnectCase* rule = asked_case(c, out);
      if (rule == nullptr) return;
      const auto property = [&](bool asked, std::optional<bool> has, std::string_view key,
                                std::string_view name) {
        if (!asked) return;
        if (!has) return out.lacks_in_box(fmt::format("/disconnect/{}", key));
        if (*has) return;
        out.find(std::string(name))
            .found(fmt::format("no {}", name))
            .required(std::string(name))
            .at(fmt::format("/disconnect/{}", key))
            .say("The disconnect of {} has no {}.", c.box.id, name);
      };
      property(rule->external_handle, d.external_handle, "external_handle", "external handle");
      property(rule->lockable, d.lockable, "lockable", "means to lock it open");
    }};

}  // namespace boxproof
