// The disconnect as found against the plan's: whether there is one, whether it works, and its ratings.
#include "src/rules/tally_item.hpp"

namespace boxproof {
namespace {

// The record says that there is none, and states what only one that is there can have.
void contradicting_disconnect(const VisitCase& c, Notes& out) {
  const FoundDisconnect& found = c.visited.disconnect;
  std::vector<std::string> keys;
  const auto add = [&](bool stated, const char* key) {
    if (stated) keys.emplace_back(key);
  };
  add(found.rated_voltage.has_value(), "rated_v");
  add(found.rated_current.has_value(), "rated_a");
  add(found.load_break.has_value(), "load_break");
  add(found.distance.has_value(), "distance_m");
  add(found.works.has_value(), "works");
  out.find(Severity::query, "disconnect record")
      .found(fmt::format("present false, and {}", listed(keys)))
      .required(std::string("one or the other"))
      .at_record(record_pointer(c, "/disconnect/present"))
      .beside(record_pointer(c, "/disconnect/" + keys.front()))
      .ask("Look again whether there is a disconnect, and correct the field record.")
      .say("The record says that {} has no disconnect, and states {} of one; it is judged without one.",
           c.plan.id, listed(keys));
}

}  // namespace

void compare_disconnect(const VisitCase& c, Notes& out) {
  const FoundDisconnect& found = c.visited.disconnect;
  const Disconnect* planned = c.plan.disconnect.get();
  const bool stated =
      found.rated_voltage || found.rated_current || found.load_break || found.distance || found.works;
  const Item presence{"disconnect present", found.present ? "/disconnect/present" : "/disconnect",
                      "The disconnect", "/disconnect"};
  if (found.present == false) {
    if (stated) contradicting_disconnect(c, out);
    if (planned != nullptr) differs(c, out, presence, "absent", "present", plan_pointer(c, presence));
    return;
  }
  if (found.works == false)
    out.find("disconnect works")
        .found(std::string("does not work"))
        .required(std::string("one that works"))
        .at_record(record_pointer(c, "/disconnect/works"))
        .ask("Repair or replace the disconnect; until then the box cannot be made dead at its output.")
        .say("The disconnect of {} does not work.", c.plan.id);
  if (planned == nullptr) {
    if (found.present.value_or(stated)) not_planned(c, out, presence, "");
    return;
  }
  compare_number(c, out, {"disconnect rated_v", "/disconnect/rated_v", "The rated voltage of the disconnect"},
                 found.rated_voltage, planned->rated_voltage, "V");
  compare_number(c, out, {"disconnect rated_a", "/disconnect/rated_a", "The rated current of the disconnect"},
                 found.rated_current, planned->rated_current, "A");
  compare(c, out, {"disconnect load_break", "/disconnect/load_break", "The disconnect"}, found.load_break,
          planned->load_break,
          [](bool yes) { return yes ? "of the load-break kind" : "of the isolating kind"; });
  compare_number(c, out,
                 {"disconnect distance_m", "/disconnect/distance_m", "The distance to the disconnect"},
                 found.distance, planned->distance, "m");
}

}  // namespace boxproof
