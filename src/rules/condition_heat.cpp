// What heat and arcs left behind: terminals, buses, soot, melted parts.
#include "src/rules/condition.hpp"

namespace boxproof {
namespace {

constexpr Condition burned_terminal{Disposition::replace, "A terminal is burned in",
                                    "heat has spoiled the joint, and it can go on to an arc and a fire"};
constexpr Condition burned_bus{
    Disposition::replace, "A bus is burned in",
    "it carries less than it did, its supports may no longer insulate, and it can end in an arc with all "
    "strings behind it"};
constexpr Condition arc_marks{
    Disposition::replace, "An arc has left its marks in",
    "soot and spattered metal stay on the insulation, so it can strike again there, injure and burn"};
constexpr Condition melted_part{
    Disposition::replace, "A part is melted in",
    "it no longer insulates or holds what it should, so that live parts can be touched or meet and burn"};

}  // namespace

const Rule condition_burned_terminal{
    .id = "condition/burned-terminal",
    .severity = Severity::hazard,
    .title = "Terminal burned or discoloured by heat",
    .explain =
        {"Reports a terminal, lug or fuse clip that is charred or blued, or that has baked the insulation of "
         "its conductor.",
         "A joint burns because it is loose, dirty or too small, and every hour of sun heats it further. "
         "Heat takes the spring out of it, so that tightening does not bring it back; what comes next is an "
         "arc, and a DC arc does not go out by itself.",
         "One entry of the record's list of what was seen, with the terminal under where and, at best, a "
         "photo. A hazard whatever the arithmetic says; the part is to be replaced, not cleaned."},
    .remedy =
        "Take the box out of service, replace the terminal and the burned end of its conductor, and "
        "find out why it ran hot.",
    .judge_visit = judge_seen<burned_terminal>};

const Rule condition_burned_bus{
    .id = "condition/burned-bus",
    .severity = Severity::hazard,
    .title = "Bus burned or discoloured by heat",
    .explain =
        {"Reports a busbar that is charred, blued or pitted by heat, or whose supports are.",
         "The bus carries the current of every string of the box. Burned metal has less section and a worse "
         "surface, burned supports track, and an arc between the buses is fed by the whole array with "
         "nothing in the box to stop it.",
         "One entry of the record's list of what was seen, with the place on the bus under where and, at "
         "best, a photo. A hazard whatever the arithmetic says; bus and supports are to be replaced."},
    .remedy =
        "Take the box out of service, replace bus and supports, or the whole assembly, and find out "
        "why it ran hot.",
    .judge_visit = judge_seen<burned_bus>};

const Rule condition_arc_marks{
    .id = "condition/arc-marks",
    .severity = Severity::hazard,
    .title = "Marks of an arc",
    .explain =
        {"Reports soot, spatter, craters or a blackened edge: an arc has struck in the box.",
         "Where an arc has struck, carbon and metal lie on the insulation, and the next one needs less "
         "voltage. What set it off, a loose joint, water, a fault to ground, is as a rule still there.",
         "One entry of the record's list of what was seen, with the place under where and, at best, a photo. "
         "A hazard whatever the arithmetic says; marked parts are to be replaced."},
    .remedy =
        "Take the box out of service, find what struck the arc, and replace every part that carries "
        "its marks.",
    .judge_visit = judge_seen<arc_marks>};

const Rule condition_melted_part{
    .id = "condition/melted-part",
    .severity = Severity::hazard,
    .title = "Part melted or out of shape",
    .explain =
        {"Reports a holder, barrier, cover, insulation or cable tie that has melted, sagged or run.",
         "The plastics of a box are made for the heat of a box in the sun, so something beside it ran "
         "hotter; and what has melted keeps live parts neither apart nor out of reach.",
         "One entry of the record's list of what was seen, with the part under where and, at best, a photo. "
         "A hazard whatever the arithmetic says; the part is to be replaced."},
    .remedy = "Take the box out of service, replace the part, and find and mend what heated it.",
    .judge_visit = judge_seen<melted_part>};

}  // namespace boxproof
