// The box itself and what is written on it: barriers, debris, mounting, labels, marks.
#include "src/rules/condition.hpp"

namespace boxproof {
namespace {

constexpr Condition missing_barrier{
    Disposition::repair, "A barrier over live parts is missing in",
    "the array keeps them live with the switch open, and a hand or a tool can touch them"};
constexpr Condition debris_inside{
    Disposition::correct, "There is debris in",
    "wire ends and swarf can bridge live parts, and dirt holds the moisture that tracks between them"};
constexpr Condition loose_mounting{Disposition::correct, "The mounting is loose on",
                                   "the box moves in the wind, and its entries and terminals work loose",
                                   "box"};
constexpr Condition label_illegible{
    Disposition::correct, "A label cannot be read on",
    "whoever opens the box is not warned of its voltage, nor that it stays live with the switch open", "box"};
constexpr Condition seen_label_missing{
    Disposition::correct, "A label is missing on",
    "whoever opens the box is not warned of its voltage, nor that it stays live with the switch open", "box"};
constexpr Condition counterfeit_mark{
    Disposition::replace, "A listing mark looks counterfeit in",
    "nothing shows that the part was ever tested, so it may burn, break or fail to clear a fault within its "
    "ratings"};

}  // namespace

const Rule condition_missing_barrier{
    .id = "condition/missing-barrier",
    .severity = Severity::hazard,
    .title = "Barrier over live parts missing",
    .explain =
        {"Reports live parts without the cover, shield or barrier that belongs over them.",
         "The box stays energised from the array with its switch open, so the barrier is what a person has. "
         "A dropped tool across open buses starts an arc with every string behind it.",
         "One entry of the record's list of what was seen, with the parts under where and, at best, a photo. "
         "A hazard; the barrier is to be put back before the box is worked on live or left."},
    .remedy = "Keep the box closed and locked until the maker's barrier is fitted again.",
    .judge_visit = judge_seen<missing_barrier>};

const Rule condition_debris_inside{
    .id = "condition/debris-inside",
    .severity = Severity::correction,
    .title = "Debris inside the box",
    .explain =
        {"Reports wire ends, swarf, tools, packing, dirt, nests or anything else that does not belong in the "
         "box.",
         "What lies loose today lies across two terminals tomorrow. Dirt and nests hold water and burn well.",
         "One entry of the record's list of what was seen, with kind and place under where or note."},
    .remedy = "Take the box out of service, clear it out, and look at what the debris touched.",
    .judge_visit = judge_seen<debris_inside>};

const Rule condition_loose_mounting{
    .id = "condition/loose-mounting",
    .severity = Severity::correction,
    .title = "Mounting of the box loose",
    .explain =
        {"Reports a box, or a part in it, whose fastenings are loose, missing or pull out.",
         "A box that moves is held by its conduits and conductors. Entries open to water, and terminals take "
         "the strain.",
         "One entry of the record's list of what was seen, with the fastening under where."},
    .remedy = "Fasten the box by its maker's instructions, and look at entries and terminals for strain.",
    .judge_visit = judge_seen<loose_mounting>};

const Rule condition_label_illegible{
    .id = "condition/label-illegible",
    .severity = Severity::correction,
    .title = "Label that cannot be read",
    .explain =
        {"Reports a label that is faded, torn, painted over or hidden.",
         "The label speaks to a person who has never seen the plan, perhaps at night, perhaps with a fire "
         "near by. One that cannot be read says nothing to them.",
         "One entry of the record's list of what was seen, with the label under where. Which labels the "
         "edition wants is not asked here."},
    .remedy = "Replace the label with one that lasts outdoors.",
    .judge_visit = judge_seen<label_illegible>};

const Rule condition_label_missing{
    .id = "condition/label-missing",
    .severity = Severity::correction,
    .title = "Label seen to be missing",
    .explain =
        {"Reports that the inspector missed a label on the box: an empty place, rivets, the rest of glue.",
         "The label speaks to a person who has never seen the plan, perhaps at night, perhaps with a fire "
         "near by.",
         "One entry of the record's list of what was seen, with the label under where. This is the "
         "inspector's word; which labels the edition wants is not asked here."},
    .remedy = "Put up the label, with the values of the box as it was built.",
    .judge_visit = judge_seen<seen_label_missing>};

const Rule condition_counterfeit_mark{
    .id = "condition/counterfeit-mark",
    .severity = Severity::hazard,
    .title = "Listing mark that looks counterfeit",
    .explain =
        {"Reports a listing mark that looks wrong: spelling, print, a file number that is not the maker's, a "
         "part that is not in the lister's directory.",
         "Every rating that the arithmetic relies on stands on that mark. A false fuse may be no fuse at all "
         "for DC.",
         "One entry of the record's list of what was seen, with the part under where and a photo of the "
         "mark. A hazard until it is cleared up; the part is to be replaced."},
    .remedy =
        "Take the part out of service, ask maker and lister about the mark, and replace the part with "
        "a listed one.",
    .judge_visit = judge_seen<counterfeit_mark>};

}  // namespace boxproof
