// Conductors hurt or badly led: chafed, cut, pinched, bent, pulled.
#include "src/rules/condition.hpp"

namespace boxproof {
namespace {

constexpr Condition chafed_conductor{
    Disposition::repair, "A conductor is chafed in",
    "once its insulation is through, the metal it rubs on is live, and a shock or an arc can come of it"};
constexpr Condition nicked_conductor{
    Disposition::repair, "A conductor is nicked in",
    "the strands that are left run hot and break, and cut insulation can arc to the box"};
constexpr Condition pinched_conductor{
    Disposition::repair, "A conductor is pinched in",
    "its insulation gives way under the pressure, and a fault to ground, a shock or an arc can come of it"};
constexpr Condition conductor_off_center{
    Disposition::correct, "A conductor sits off the middle of its opening or terminal in",
    "it bears on the edge and chafes, or is clamped on part of its strands and works loose"};
constexpr Condition sharp_bend{
    Disposition::correct, "A conductor is bent too sharply in",
    "insulation cracks on the outside of the bend, and the bend pulls at the terminal until it is loose"};
constexpr Condition no_strain_relief{
    Disposition::correct, "A cable has no strain relief at",
    "its weight and the wind pull at the terminals, which work loose and run hot"};
constexpr Condition cracked_bushing{
    Disposition::replace, "A bushing is cracked in",
    "conductors come to lie on a bare edge, chafe through and arc to the box"};
constexpr Condition missing_bushing{Disposition::correct, "A bushing is missing in",
                                    "conductors lie on a bare edge, chafe through and arc to the box"};

}  // namespace

const Rule condition_chafed_conductor{
    .id = "condition/chafed-conductor",
    .severity = Severity::hazard,
    .title = "Insulation of a conductor chafed",
    .explain =
        {"Reports insulation worn thin or through where a conductor rubs on an edge, a strap or its "
         "neighbour.",
         "Heat and wind move conductors every day, so chafing goes on until the metal is bare. The fault to "
         "ground that follows can feed an arc, or lie unseen until the second one.",
         "One entry of the record's list of what was seen, with conductor and place under where and, at "
         "best, a photo. A hazard; the conductor is to be repaired or drawn anew and led clear of the edge."},
    .remedy =
        "Take the circuit out of service, repair or replace the conductor, and lead it clear of what "
        "it rubs on.",
    .judge_visit = judge_seen<chafed_conductor>};

const Rule condition_nicked_conductor{
    .id = "condition/nicked-conductor",
    .severity = Severity::hazard,
    .title = "Conductor nicked",
    .explain =
        {"Reports a conductor whose strands or insulation were cut, as a rule in stripping it.",
         "A cut strand carries nothing, so the others carry more exactly where the joint is hottest, and a "
         "nick is where a conductor breaks when it is moved.",
         "One entry of the record's list of what was seen, with the conductor under where and, at best, a "
         "photo. A hazard; the end is to be cut off and made anew."},
    .remedy =
        "Take the circuit out of service, cut the conductor back to sound metal, and terminate it anew.",
    .judge_visit = judge_seen<nicked_conductor>};

const Rule condition_pinched_conductor{
    .id = "condition/pinched-conductor",
    .severity = Severity::hazard,
    .title = "Conductor pinched",
    .explain =
        {"Reports a conductor squeezed by a cover, a hinge, a clamp or a part screwed down on it.",
         "Insulation creeps under pressure, faster when hot, until metal meets metal. A box that passes a "
         "test on the day can fail by this later.",
         "One entry of the record's list of what was seen, with conductor and place under where and, at "
         "best, a photo. A hazard; the conductor is to be freed and repaired."},
    .remedy =
        "Take the circuit out of service, free the conductor, repair or replace it, and secure it out "
        "of the way.",
    .judge_visit = judge_seen<pinched_conductor>};

const Rule condition_conductor_off_center{
    .id = "condition/conductor-off-center",
    .severity = Severity::correction,
    .title = "Conductor off the middle of its opening or terminal",
    .explain =
        {"Reports a conductor that leans on the edge of its bushing or hub, or that lies beside the middle "
         "of its terminal.",
         "On an edge it chafes with every change of heat. In a terminal, a screw that meets only some "
         "strands holds only those, and the joint loosens and runs hot.",
         "One entry of the record's list of what was seen, with conductor and place under where. Insulation "
         "already worn is condition/chafed-conductor, a hazard."},
    .remedy =
        "Lead the conductor through the middle of its opening, and set it in the middle of its "
        "terminal.",
    .judge_visit = judge_seen<conductor_off_center>};

const Rule condition_sharp_bend{
    .id = "condition/sharp-bend",
    .severity = Severity::correction,
    .title = "Conductor bent too sharply",
    .explain =
        {"Reports a conductor bent tighter than its size and its insulation take, as a rule large ones in a "
         "small box.",
         "A stiff conductor in a tight bend is a spring on its terminal; insulation stretched round it "
         "cracks with age and cold.",
         "One entry of the record's list of what was seen, with the conductor under where. The program does "
         "not compute the bending space: the code's table and the maker's least radius decide."},
    .remedy = "Lead the conductor in the bend that its maker and the code's table of bending space allow.",
    .judge_visit = judge_seen<sharp_bend>};

const Rule condition_no_strain_relief{
    .id = "condition/no-strain-relief",
    .severity = Severity::correction,
    .title = "Cable without strain relief",
    .explain =
        {"Reports a cable that enters the box without a fitting that holds it, or whose fitting does not "
         "grip.",
         "What holds the cable then is the terminal. It was made to carry current, works loose, and heats; "
         "or the conductor pulls out live.",
         "One entry of the record's list of what was seen, with the entry under where."},
    .remedy = "Fit a cable gland or clamp that holds the cable and keeps the type of the enclosure.",
    .judge_visit = judge_seen<no_strain_relief>};

const Rule condition_cracked_bushing{
    .id = "condition/cracked-bushing",
    .severity = Severity::correction,
    .title = "Bushing cracked",
    .explain =
        {"Reports a bushing or insulating throat that is cracked, split or has lost a piece.",
         "The bushing is all that lies between the conductor and the edge of the metal. Cracked by sun, cold "
         "or the wrench, it falls out, and a conductor that moves with heat is through to the metal in time.",
         "One entry of the record's list of what was seen, with the entry under where. Where it came so from "
         "its maker, say so under origin: others of its kind on the site are then concerned."},
    .remedy = "Replace the bushing, and look at the insulation of the conductors in it.",
    .judge_visit = judge_seen<cracked_bushing>};

const Rule condition_missing_bushing{
    .id = "condition/missing-bushing",
    .severity = Severity::correction,
    .title = "Bushing missing",
    .explain =
        {"Reports a raceway, hub or hole without the bushing that keeps conductors off its edge.",
         "A conductor on a bare edge chafes with each change of heat until it is through to the metal, which "
         "then is live.",
         "One entry of the record's list of what was seen, with the entry under where. The code asks for the "
         "insulating fitting from 4 AWG up; for smaller conductors a maker's instruction may."},
    .remedy = "Fit an insulating bushing, and look at the insulation of the conductors in it.",
    .judge_visit = judge_seen<missing_bushing>};

}  // namespace boxproof
