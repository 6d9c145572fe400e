// Names that a field record does not know: keys at every level, words. All that is said, and where.
#include "tests/support/bad_input.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof::test;

TEST_CASE("a key that is not known, at each level of a record") {
  check_records(
      small_record,
      {{"visit",
        "'kind': 'first'",
        "'kinds': 'first'",
        {"3:36: /visit/kinds: found the key 'kinds', which is not known here; did you mean 'kind'?; known "
         "keys are date, by, weather, kind"}},
       {"box",
        "{ 'id': 'A-1' }",
        "{ 'id': 'A-1', 'counts': {} }",
        {"5:20: /boxes/0/counts: found the key 'counts', which is not known here; did you mean 'count'?; "
         "known keys are id, posted, count, fuse, mixed_fuses, enclosure, disconnect, output, source, egc, "
         "labels, seen, measured"}},
       {"posted",
        "'id': 'A-2', 'strings': 4",
        "'id': 'A-2', 'stings': 4",
        {"7:32: /boxes/1/posted/stings: found the key 'stings', which is not known here; did you mean "
         "'strings'?; known keys are id, strings, series, max_v, max_a, fuse_a"}},
       {"count",
        "'positive': 4",
        "'postive': 4",
        {"8:18: /boxes/1/count/postive: found the key 'postive', which is not known here; did you mean "
         "'positive'?; known keys are positive, negative, fuses, modules, series"}},
       {"fuse",
        "'dc': true",
        "'pv_listd': true",
        {"9:26: /boxes/1/fuse/pv_listd: found the key 'pv_listd', which is not known here; did you mean "
         "'pv_listed'?; known keys are a, v, dc, pv_listed, poles"}},
       {"mixed fuse",
        "'position': 2",
        "'positon': 2",
        {"10:26: /boxes/1/mixed_fuses/0/positon: found the key 'positon', which is not known here; did you "
         "mean 'position'?; known keys are position, a"}},
       {"enclosure",
        "'cover': 'side'",
        "'secure': true",
        {"11:36: /boxes/1/enclosure/secure: found the key 'secure', which is not known here; did you mean "
         "'secured'?; known keys are type, air_gap_mm, cover, listed, secured, gasket_seated"}},
       {"disconnect",
        "'present': true",
        "'presence': true",
        {"12:23: /boxes/1/disconnect/presence: found the key 'presence', which is not known here; did you "
         "mean 'present'?; known keys are present, rated_v, rated_a, load_break, distance_m, works"}},
       {"output",
        "'stranding': 'coarse'",
        "'antioxydant': true",
        {"13:38: /boxes/1/output/antioxydant: found the key 'antioxydant', which is not known here; did you "
         "mean 'antioxidant'?; known keys are size, material, stranding, insulation, antioxidant, "
         "lug_for_fine_strand"}},
       {"source has no lug",
        "'material': 'copper'",
        "'lug_for_fine_strand': true",
        {"14:19: /boxes/1/source/lug_for_fine_strand: found the key 'lug_for_fine_strand', which is not "
         "known here; known keys are size, material, stranding, insulation"}},
       {"egc",
        "'size': '6 AWG'",
        "'sizes': '6 AWG'",
        {"15:16: /boxes/1/egc/sizes: found the key 'sizes', which is not known here; did you mean 'size'?; "
         "known keys are size, material"}},
       {"label",
        "'legible': true",
        "'legibel': true",
        {"16:43: /boxes/1/labels/0/legibel: found the key 'legibel', which is not known here; did you mean "
         "'legible'?; known keys are kind, legible, values"}},
       {"seen",
        "'origin': 'unknown'",
        "'origins': 'unknown'",
        {"17:41: /boxes/1/seen/0/origins: found the key 'origins', which is not known here; did you mean "
         "'origin'?; known keys are what, where, origin, photo, note"}},
       {"measured",
        "'cell_c': 30",
        "'cel_c': 30",
        {"18:21: /boxes/1/measured/cel_c: found the key 'cel_c', which is not known here; did you mean "
         "'cell_c'?; known keys are irradiance_w_m2, cell_c, tolerance_pct, strings"}},
       {"measured string",
        "'voc_v': 700",
        "'voc': 700",
        {"18:65: /boxes/1/measured/strings/0/voc: found the key 'voc', which is not known here; known keys "
         "are position, voc_v, isc_a, insulation_mohm, reversed"}}});
}

TEST_CASE("a word of a record that is none of those allowed") {
  check_records(
      small_record,
      {{"condition",
        "'burned-bus'",
        "'burnt-bus'",
        {"17:27: /boxes/1/seen/0/what: found text 'burnt-bus', expected one of 'burned-terminal', "
         "'burned-bus', 'arc-marks', 'melted-part', 'water-inside', 'handle-leak', 'chafed-conductor', "
         "'nicked-conductor', 'pinched-conductor', 'loose-terminal', 'missing-barrier', 'corroded-terminal', "
         "'cracked-bushing', 'missing-bushing', 'conductor-off-center', 'sharp-bend', 'gasket-damaged', "
         "'latch-open', 'unsealed-opening', 'missing-inhibitor', 'no-strain-relief', 'debris-inside', "
         "'loose-mounting', 'standing-water', 'label-illegible', 'label-missing', 'wrong-torque-mark', "
         "'counterfeit-mark'; did you mean 'burned-bus'?"}},
       {"condition with nothing near",
        "'burned-bus'",
        "'fine'",
        {"17:27: /boxes/1/seen/0/what: found text 'fine', expected one of 'burned-terminal', 'burned-bus', "
         "'arc-marks', 'melted-part', 'water-inside', 'handle-leak', 'chafed-conductor', 'nicked-conductor', "
         "'pinched-conductor', 'loose-terminal', 'missing-barrier', 'corroded-terminal', 'cracked-bushing', "
         "'missing-bushing', 'conductor-off-center', 'sharp-bend', 'gasket-damaged', 'latch-open', "
         "'unsealed-opening', 'missing-inhibitor', 'no-strain-relief', 'debris-inside', 'loose-mounting', "
         "'standing-water', 'label-illegible', 'label-missing', 'wrong-torque-mark', 'counterfeit-mark'"}},
       {"origin",
        "'origin': 'unknown'",
        "'origin': 'instalation'",
        {"17:51: /boxes/1/seen/0/origin: found text 'instalation', expected one of 'installation', "
         "'manufacture', 'unknown'; did you mean 'installation'?"}},
       {"kind of visit",
        "'kind': 'first'",
        "'kind': 'agian'",
        {"3:44: /visit/kind: found text 'agian', expected one of 'first', 'again'; did you mean 'again'?"}},
       {"cover",
        "'cover': 'side'",
        "'cover': 'sides'",
        {"11:45: /boxes/1/enclosure/cover: found text 'sides', expected one of 'up', 'side'; did you mean "
         "'side'?"}},
       {"poles",
        "'dc': true",
        "'poles': 'boht'",
        {"9:35: /boxes/1/fuse/poles: found text 'boht', expected one of 'one', 'both'; did you mean "
         "'both'?"}},
       {"size",
        "'size': '4/0 AWG'",
        "'size': '4/0'",
        {"13:27: /boxes/1/output/size: found text '4/0', expected one of '14 AWG', '12 AWG', '10 AWG', '8 "
         "AWG', '6 AWG', '4 AWG', '3 AWG', '2 AWG', '1 AWG', '1/0 AWG', '2/0 AWG', '3/0 AWG', '4/0 AWG', "
         "'250 kcmil', '300 kcmil', '350 kcmil', '400 kcmil', '500 kcmil', '600 kcmil', '700 kcmil', '750 "
         "kcmil', '800 kcmil', '900 kcmil', '1000 kcmil'"}},
       {"material",
        "'material': 'copper'",
        "'material': 'aluminium'",
        {"14:31: /boxes/1/source/material: found text 'aluminium', expected one of 'copper', 'aluminum'; did "
         "you mean 'aluminum'?"}},
       {"stranding",
        "'stranding': 'coarse'",
        "'stranding': 'fin'",
        {"13:51: /boxes/1/output/stranding: found text 'fin', expected one of 'solid', 'coarse', 'fine'; did "
         "you mean 'fine'?"}},
       {"label",
        "'kind': 'disconnect'",
        "'kind': 'disconect'",
        {"16:29: /boxes/1/labels/0/kind: found text 'disconect', expected one of 'box-identification', "
         "'max-voltage', 'dc-power-source', 'shock-both-sides', 'raceway-power-source', 'ground-fault', "
         "'ungrounded-system', 'rapid-shutdown', 'disconnect', 'directory'; did you mean 'disconnect'?"}}});
}
