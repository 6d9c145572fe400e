// One item of the record held against the same item of the plan. What either does not state is not compared.
#pragma once

#include <fmt/format.h>

#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "src/rules/notes.hpp"
#include "src/rules/tally_accounts.hpp"

namespace boxproof {

struct Item {
  std::string_view part;          // of the finding: "output size"
  std::string_view key;           // below the box in the record: "/output/size"
  std::string_view subject;       // of the message: "The size of the output conductor"
  std::string_view on_plan = {};  // below the box on the plan, where that is not the same key
};

inline std::string plan_pointer(const VisitCase& c, const Item& item) {
  return plan_pointer(c, item.on_plan.empty() ? item.key : item.on_plan);
}

// The item as words that differ. `beside`: where the plan has it.
inline void differs(const VisitCase& c, Notes& out, const Item& item, std::string_view found,
                    std::string_view planned, std::string beside) {
  out.find(std::string(item.part))
      .found(std::string(found))
      .required(std::string(planned))
      .at_record(record_pointer(c, item.key))
      .beside(std::move(beside))
      .say("{} of {} is {}; on the plan it is {}.", item.subject, c.plan.id, found, planned);
}

// The item as a number with its unit.
template <class T>
void compare_number(const VisitCase& c, Notes& out, const Item& item, const std::optional<T>& found,
                    const std::optional<T>& planned, std::string_view unit) {
  if (!found || !planned || (!exceeds(*found, *planned) && !exceeds(*planned, *found))) return;
  out.find(std::string(item.part))
      .found(found->value())
      .required(planned->value())
      .unit(unit)
      .at_record(record_pointer(c, item.key))
      .beside(plan_pointer(c, item))
      .say("{} of {} is {} {}; on the plan it is {} {}.", item.subject, c.plan.id, shown(*found), unit,
           shown(*planned), unit);
}

// The item as a value that `words` can name.
template <class T, class Words>
void compare(const VisitCase& c, Notes& out, const Item& item, const std::optional<T>& found,
             const std::optional<T>& planned, Words&& words, std::string beside = {}) {
  if (!found || !planned || *found == *planned) return;
  differs(c, out, item, words(*found), words(*planned),
          beside.empty() ? plan_pointer(c, item) : std::move(beside));
}

// A part that was found where the plan has none.
inline void not_planned(const VisitCase& c, Notes& out, const Item& item, std::string ask) {
  out.find(std::string(item.part))
      .found(std::string("present"))
      .required(std::string("none"))
      .at_record(record_pointer(c, item.key))
      .ask(std::move(ask))
      .say("{} of {} is present; the plan has none.", item.subject, c.plan.id);
}

// The disconnect, for tally/part.
void compare_disconnect(const VisitCase& c, Notes& out);

}  // namespace boxproof
