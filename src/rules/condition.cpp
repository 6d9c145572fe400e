#include "src/rules/condition.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <unordered_map>
#include <unordered_set>

#include "src/rules/like_boxes.hpp"
#include "src/rules/tally_accounts.hpp"

namespace boxproof {
namespace {

// Names the part of each finding; where one word was seen twice at one place, the second is "lug (2)".
class Parts {
 public:
  std::string name(const std::string& where, std::string_view otherwise) {
    const std::string base = where.empty() ? std::string(otherwise) : where;
    std::string part = base;
    while (!used_.insert(part).second) part = fmt::format("{} ({})", base, ++repeats_[base] + 1);
    return part;
  }

 private:
  std::unordered_set<std::string> used_;
  std::unordered_map<std::string, std::size_t> repeats_;
};

// " (photo p-0161; note: split along its length)"
std::string evidence(const Observation& o) {
  if (o.photo.empty() && o.note.empty()) return {};
  const std::string photo = o.photo.empty() ? "" : "photo " + o.photo;
  const std::string note = o.note.empty() ? "" : "note: " + o.note;
  return fmt::format(" ({}{}{})", photo, photo.empty() || note.empty() ? "" : "; ", note);
}

// What it means for other boxes that the part came so from its maker.
std::string like_parts(const VisitCase& c) {
  const std::string concerned = "; its maker and like parts on this site are concerned";
  if (!c.on_plan)
    return concerned + ", but the plan does not have this box, so which boxes are like it is not known here";
  if (c.plan.type == nullptr)
    return concerned +
           ", but the plan names no type for this box, so which boxes are like it is not known here";
  const std::string& type = c.plan.type->id;
  const std::string look = fmt::format(", so look also at the other boxes of type {}", type);
  if (c.like == nullptr) return concerned + look;
  const LikeBoxes::Others others = c.like->others(*c.plan.type, c.index);
  if (others.named.empty()) return fmt::format("{}; the plan has no other box of type {}", concerned, type);
  const std::string more = others.unnamed == 0 ? "" : fmt::format(" and {} more", others.unnamed);
  return fmt::format("{}{} ({}{})", concerned, look, others.named, more);
}

// "cracked bushing (origin: manufacture)"
std::string found_words(const Observation& o) {
  std::string out = o.what;
  std::replace(out.begin(), out.end(), '-', ' ');
  if (o.origin && *o.origin != Origin::unknown)
    out += fmt::format(" (origin: {})", origin_names[static_cast<std::size_t>(*o.origin)]);
  return out;
}

}  // namespace

void judge_seen(const Condition& condition, const VisitCase& c, Notes& out) {
  if (c.visited.seen.empty()) return;
  const Rule& rule = out.speaking();
  const std::string_view word = rule.id.substr(rule.id.find('/') + 1);
  Parts parts;
  for (std::size_t i = 0; i < c.visited.seen.size(); ++i) {
    const Observation& o = c.visited.seen[i];
    if (o.what != word) continue;
    const bool of_maker = o.origin == Origin::manufacture;
    Note note = out.find(parts.name(o.where, condition.place));
    note.found(found_words(o))
        .disposition(condition.disposition)
        .at_record(record_pointer(c, fmt::format("/seen/{}", i)))
        .say("{} {}{}: {}{}{}.", condition.seen, c.plan.id, o.where.empty() ? "" : " (" + o.where + ")",
             condition.comes, evidence(o), of_maker ? like_parts(c) : "");
    if (of_maker)
      note.ask(
          fmt::format("{} Tell the part's maker, and look at the like parts on this site.", rule.remedy));
  }
}

}  // namespace boxproof
