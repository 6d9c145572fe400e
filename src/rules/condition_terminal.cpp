// Terminals that do not hold as they should: loose, corroded, dry, badly marked.
#include "src/rules/condition.hpp"

namespace boxproof {
namespace {

constexpr Condition loose_terminal{
    Disposition::repair, "A terminal is loose in",
    "it heats under load, loosens further with each day, and can end in an arc and a fire"};
constexpr Condition corroded_terminal{
    Disposition::repair, "A terminal is corroded in",
    "corrosion raises the resistance of the joint, which runs hot under load and loosens"};
constexpr Condition missing_inhibitor{
    Disposition::correct, "The oxide inhibitor is missing on aluminum in",
    "the metal oxidises under the terminal, whose resistance rises until it runs hot and loosens"};
constexpr Condition wrong_torque_mark{
    Disposition::explain, "A torque mark is missing, broken or out of line in",
    "the terminal may be loose and run hot, or overtightened and its strands cut"};

}  // namespace

const Rule condition_loose_terminal{
    .id = "condition/loose-terminal",
    .severity = Severity::hazard,
    .title = "Terminal loose",
    .explain =
        {"Reports a terminal, lug or fuse clip that turns, gives, or lets its conductor move.",
         "A loose joint feeds itself: resistance makes heat, heat works it looser, and at last an arc "
         "bridges the gap, which the sun keeps alive.",
         "One entry of the record's list of what was seen, with the terminal under where. A hazard; it is to "
         "be made anew and tightened to its marked torque. One that has burned is condition/burned-terminal."},
    .remedy =
        "Take the circuit out of service, look at conductor and terminal for heat, and tighten to the "
        "marked torque with a calibrated tool.",
    .judge_visit = judge_seen<loose_terminal>};

const Rule condition_corroded_terminal{
    .id = "condition/corroded-terminal",
    .severity = Severity::correction,
    .title = "Terminal corroded",
    .explain =
        {"Reports a terminal, lug or bus joint with rust, white or green bloom, or pitting.",
         "Corrosion sits between the two metals that should touch. The joint heats, the heat speeds the "
         "corrosion, and what tightness it had goes. It shows too that water or salt gets in.",
         "One entry of the record's list of what was seen, with the terminal under where. Where water is in "
         "the box, that is an entry of its own."},
    .remedy =
        "Take the circuit out of service, clean the joint or replace the terminal, and find what lets "
        "moisture in.",
    .judge_visit = judge_seen<corroded_terminal>};

const Rule condition_missing_inhibitor{
    .id = "condition/missing-inhibitor",
    .severity = Severity::correction,
    .title = "Oxide inhibitor missing on aluminum",
    .explain =
        {"Reports an aluminum conductor terminated without the oxide inhibitor that its terminal calls for.",
         "Aluminum bared to air has a skin of oxide at once, and the skin does not conduct. Inhibitor keeps "
         "the air away once the skin is brushed off; without it the joint worsens from its first day.",
         "One entry of the record's list of what was seen, with the terminal under where. The rule "
         "conductor/aluminum says the same where the record's output has antioxidant false; some terminals "
         "come filled by their maker."},
    .remedy =
        "Brush the conductor, apply the inhibitor that the terminal's maker names, and tighten to the "
        "marked torque.",
    .judge_visit = judge_seen<missing_inhibitor>};

const Rule condition_wrong_torque_mark{
    .id = "condition/wrong-torque-mark",
    .severity = Severity::query,
    .title = "Torque mark that does not show a tight terminal",
    .explain =
        {"Reports a terminal whose torque mark is not there, is broken, or does not line up.",
         "The stripe across screw and terminal says that somebody tightened it to its value, and that it has "
         "not turned since. Where it does not say that, nobody knows.",
         "One entry of the record's list of what was seen, with the terminal under where. A query: whoever "
         "tightened it can answer it. A terminal that is found loose is condition/loose-terminal, a hazard."},
    .remedy =
        "State who tightened the terminal, with which tool and to which value, or have the torque "
        "checked by the maker's value.",
    .judge_visit = judge_seen<wrong_torque_mark>};

}  // namespace boxproof
