// Water, and what lets it in: gaskets, latches, openings.
#include "src/rules/condition.hpp"

namespace boxproof {
namespace {

constexpr Condition water_inside{
    Disposition::replace, "There is water in",
    "it tracks across insulation, and an arc, a fault to ground or a shock at the enclosure can come of it"};
constexpr Condition handle_leak{
    Disposition::replace, "Water comes in at the disconnect handle of",
    "it runs onto the switch below, and an arc, a shock or a switch that no longer opens can come of it"};
constexpr Condition standing_water{
    Disposition::correct, "Water stands at",
    "it rises into entries and rusts the enclosure, and whoever opens the box stands in it", "box"};
constexpr Condition gasket_damaged{
    Disposition::replace, "The gasket is damaged on",
    "the box no longer keeps out what its type promises, and water or dust can reach live parts", "box"};
constexpr Condition latch_open{
    Disposition::correct, "A latch or cover screw is not closed on",
    "the cover does not seal and can be opened by anyone, so water gets in and live parts can be touched",
    "box"};
constexpr Condition unsealed_opening{
    Disposition::correct, "An opening is not sealed in",
    "water, dust and animals come in through it, and in a fault fire comes out"};

}  // namespace

const Rule condition_water_inside{
    .id = "condition/water-inside",
    .severity = Severity::hazard,
    .title = "Water inside the box",
    .explain =
        {"Reports water in the box, or its marks: drops, a tide line, rust or mud on the floor.",
         "Wet insulation leaks between parts that stay at full voltage all day; the track chars, and the "
         "char becomes an arc. Joints that stood in water corrode inside where no one sees it.",
         "One entry of the record's list of what was seen, with place and depth under where and, at best, a "
         "photo. A hazard whatever the arithmetic says; wetted parts are to be replaced. Water that stands "
         "outside is condition/standing-water."},
    .remedy =
        "Take the box out of service, find where the water comes in and close it, and replace what it "
        "wetted.",
    .judge_visit = judge_seen<water_inside>};

const Rule condition_handle_leak{
    .id = "condition/handle-leak",
    .severity = Severity::hazard,
    .title = "Water coming in at the disconnect handle",
    .explain =
        {"Reports water, or its marks, along the shaft of the disconnect's handle.",
         "The shaft ends in the switch, so what runs along it wets the contacts first. The switch is what a "
         "person relies on in an emergency, and the same hand is on the handle when the switch fails.",
         "One entry of the record's list of what was seen, at best with a photo of the seal and of the "
         "switch. A hazard whatever the arithmetic says; seal and switch are to be replaced."},
    .remedy = "Take the box out of service, and replace the handle's seal and the wetted switch.",
    .judge_visit = judge_seen<handle_leak>};

const Rule condition_standing_water{
    .id = "condition/standing-water",
    .severity = Severity::correction,
    .title = "Water standing at the box",
    .explain =
        {"Reports water that stands around, under or on top of the box, outside of it.",
         "Sooner or later water that stands at an entry is inside. A person with wet feet has a better path "
         "to ground than the breaker has.",
         "One entry of the record's list of what was seen, with place and depth under where. Water in the "
         "box itself is condition/water-inside, a hazard."},
    .remedy = "Drain the place, or raise or move the box, and look inside it for water.",
    .judge_visit = judge_seen<standing_water>};

const Rule condition_gasket_damaged{
    .id = "condition/gasket-damaged",
    .severity = Severity::correction,
    .title = "Gasket damaged or not in place",
    .explain =
        {"Reports a gasket that is torn, flattened, painted over, missing a piece or out of its groove.",
         "The type of an enclosure (3R, 4, 4X) was tested with its gasket whole. Without it the box does not "
         "have that type, whatever its label says.",
         "One entry of the record's list of what was seen, with the side under where. Where water has come "
         "in, that is an entry of its own."},
    .remedy = "Fit a new gasket of the maker's kind, and look inside for water.",
    .judge_visit = judge_seen<gasket_damaged>};

const Rule condition_latch_open{
    .id = "condition/latch-open",
    .severity = Severity::correction,
    .title = "Latch or cover screw not closed",
    .explain =
        {"Reports a cover whose latches or screws are open, missing or broken.",
         "One open latch keeps the gasket from sealing on that side. A cover that opens without a tool "
         "leaves live parts within reach of whoever passes, and the array keeps them live.",
         "One entry of the record's list of what was seen, with the latch under where."},
    .remedy =
        "Close every latch and screw, replace those that do not hold, and see that the cover seals all "
        "round.",
    .judge_visit = judge_seen<latch_open>};

const Rule condition_unsealed_opening{
    .id = "condition/unsealed-opening",
    .severity = Severity::correction,
    .title = "Opening in the box not closed",
    .explain =
        {"Reports an unused hole, a missing plug, or an entry whose fitting does not close on its cable.",
         "An opening undoes the type of the enclosure. What comes in bridges live parts; what burns inside "
         "finds its way out to the roof.",
         "One entry of the record's list of what was seen, with the opening under where."},
    .remedy = "Close the opening with a plug or fitting that keeps the type of the enclosure.",
    .judge_visit = judge_seen<unsealed_opening>};

}  // namespace boxproof
