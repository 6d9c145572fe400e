// Names that a design does not know: keys at every level, ids, words. All that is said, and where.
#include "tests/support/bad_input.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof::test;

TEST_CASE("a key that is not known, at each level of a design") {
  check_designs(
      small_design,
      {{"site",
        "'use': 'ground'",
        "'use': 'ground', 'low': -10",
        {"3:53: /site/low: found the key 'low', which is not known here; known keys are name, use, low_c, "
         "high_c, temperature_source, permit"}},
       {"permit",
        "'strings': 10",
        "'string': 10",
        {"3:65: /site/permit/string: found the key 'string', which is not known here; did you mean "
         "'strings'?; known keys are number, modules, strings, combiners, dc_kw"}},
       {"code",
        "'edition': '2017'",
        "'edition': '2017', 'amendment': {}",
        {"4:32: /code/amendment: found the key 'amendment', which is not known here; did you mean "
         "'amendments'?; known keys are edition, amendments"}},
       {"module",
        "'imp_a': 9",
        "'imp_amp': 9",
        {"6:53: /modules/M-1/imp_amp: found the key 'imp_amp', which is not known here; did you mean "
         "'imp_a'?; known keys are voc_v, isc_a, vmp_v, imp_a, pmax_w, voc_coeff_pct_per_c, "
         "voc_coeff_v_per_c, vmp_coeff_pct_per_c, isc_coeff_pct_per_c, cell, isc_rear_a, max_fuse_a, "
         "max_system_v, listed"}},
       {"inverter",
        "'max_dc_v': 1000",
        "'max_dc': 1000",
        {"8:27: /inverters/I-1/max_dc: found the key 'max_dc', which is not known here; did you mean "
         "'max_dc_v'?; known keys are max_dc_v, max_dc_isc_a, mppt_min_v, mppt_max_v, grounding, "
         "ground_fault_protection, arc_fault_protection, rapid_shutdown, backfeed_a"}},
       {"conductor",
        "'insulation_c': 90",
        "'isulation_c': 90",
        {"9:48: /conductors/pv-10/isulation_c: found the key 'isulation_c', which is not known here; did you "
         "mean 'insulation_c'?; known keys are size, material, insulation, insulation_c, rated_v, "
         "stranding"}},
       {"run",
        "'conductor': 'pv-10'",
        "'conductor': 'pv-10', 'lenght_m': 9",
        {"19:87: /combiners/1/circuits/0/run/lenght_m: found the key 'lenght_m', which is not known here; "
         "did you mean 'length_m'?; known keys are conductor, method, current_carrying, above_roof_mm, "
         "ambient_c, terminal_c, length_m, parallel"}},
       {"box type",
        "'T-1': {",
        "'T-1': { 'locaton': 'row 1',",
        {"11:14: /box_types/T-1/locaton: found the key 'locaton', which is not known here; did you mean "
         "'location'?; known keys are inverter, sheet, location, mounting, enclosure, fuse, output, "
         "disconnect, labels, egc, bond, circuits"}},
       {"box",
        "'id': 'A-2', ",
        "'id': 'A-2', 'sheeet': 'E-1', ",
        {"15:20: /combiners/1/sheeet: found the key 'sheeet', which is not known here; did you mean "
         "'sheet'?; known keys are id, type, inverter, sheet, location, mounting, enclosure, fuse, output, "
         "disconnect, labels, egc, bond, circuits"}},
       {"mounting of a type",
        "'wet': true",
        "'weet': true",
        {"11:47: /box_types/T-1/mounting/weet: found the key 'weet', which is not known here; did you mean "
         "'wet'?; known keys are place, cover, air_gap_mm, wet"}},
       {"mounting",
        "'place': 'roof'",
        "'plaec': 'roof'",
        {"16:21: /combiners/1/mounting/plaec: found the key 'plaec', which is not known here; did you mean "
         "'place'?; known keys are place, cover, air_gap_mm, wet"}},
       {"enclosure",
        "'inputs': 12",
        "'input': 12",
        {"17:22: /combiners/1/enclosure/input: found the key 'input', which is not known here; did you mean "
         "'inputs'?; known keys are type, rated_v, rated_a, inputs, listed, metal, rated_100_pct, inside_c"}},
       {"circuit",
        "'strings': 4",
        "'strings': 4, 'string_per_fuse': 2",
        {"19:56: /combiners/1/circuits/0/string_per_fuse: found the key 'string_per_fuse', which is not "
         "known here; did you mean 'strings_per_fuse'?; known keys are id, module, series, strings, "
         "strings_per_fuse, run, bond"}},
       {"fuse",
        "'a': 20",
        "'a': 20, 'pol': 'one'",
        {"21:26: /combiners/1/fuse/pol: found the key 'pol', which is not known here; known keys are a, v, "
         "dc, pv_listed, poles, interrupt_ka, ambient_factor"}},
       {"output",
        "'ocpd_a': 175",
        "'opcd_a': 175",
        {"22:19: /combiners/1/output/opcd_a: found the key 'opcd_a', which is not known here; did you mean "
         "'ocpd_a'?; known keys are run, ocpd_a, ocpd_rated_100_pct"}},
       {"disconnect",
        "'rated_v': 1000",
        "'rated_v': 1000, 'loadbreak': true",
        {"23:40: /combiners/1/disconnect/loadbreak: found the key 'loadbreak', which is not known here; did "
         "you mean 'load_break'?; known keys are rated_v, rated_a, load_break, distance_m, external_handle, "
         "lockable"}},
       {"egc",
        "'size': '6 AWG'",
        "'sise': '6 AWG'",
        {"24:16: /combiners/1/egc/sise: found the key 'sise', which is not known here; did you mean 'size'?; "
         "known keys are size, material"}},
       {"bond",
        "'material': 'copper'",
        "'materials': 'copper'",
        {"25:17: /combiners/1/bond/materials: found the key 'materials', which is not known here; did you "
         "mean 'material'?; known keys are size, material"}},
       {"label",
        "'kind': 'disconnect'",
        "'kind': 'disconnect', 'value': {}",
        {"26:43: /combiners/1/labels/0/value: found the key 'value', which is not known here; did you mean "
         "'values'?; known keys are kind, values"}},
       {"nothing is near",
        "'use': 'ground'",
        "'use': 'ground', 'weather': 'fair'",
        {"3:53: /site/weather: found the key 'weather', which is not known here; known keys are name, use, "
         "low_c, high_c, temperature_source, permit"}},
       {"another case is another key",
        "'inputs': 12",
        "'Inputs': 12",
        {"17:22: /combiners/1/enclosure/Inputs: found the key 'Inputs', which is not known here; did you "
         "mean 'inputs'?; known keys are type, rated_v, rated_a, inputs, listed, metal, rated_100_pct, "
         "inside_c"}}});
}

TEST_CASE("an id that is not there, or there twice") {
  check_designs(small_design,
                {{"module",
                  "'module': 'M-1', 'series': 18",
                  "'module': 'M1', 'series': 18",
                  {"19:21: /combiners/1/circuits/0/module: found the id 'M1', which is not in /modules, "
                   "expected an id from there; did you mean 'M-1'?"}},
                 {"inverter",
                  "'id': 'A-2', 'inverter': 'I-1'",
                  "'id': 'A-2', 'inverter': 'i-1'",
                  {"15:32: /combiners/1/inverter: found the id 'i-1', which is not in /inverters, expected "
                   "an id from there; did you mean 'I-1'?"}},
                 {"inverter of a type",
                  "'T-1': { 'inverter': 'I-1'",
                  "'T-1': { 'inverter': 'I-2'",
                  {"11:26: /box_types/T-1/inverter: found the id 'I-2', which is not in /inverters, expected "
                   "an id from there; did you mean 'I-1'?"}},
                 {"conductor",
                  "'conductor': 'pv-10'",
                  "'conductor': 'pv-01'",
                  {"19:78: /combiners/1/circuits/0/run/conductor: found the id 'pv-01', which is not in "
                   "/conductors, expected an id from there; did you mean 'pv-10'?"}},
                 {"nothing is near",
                  "'conductor': 'pv-10'",
                  "'conductor': 'feeder'",
                  {"19:78: /combiners/1/circuits/0/run/conductor: found the id 'feeder', which is not in "
                   "/conductors, expected an id from there"}},
                 {"a second box of the id",
                  "'id': 'A-2'",
                  "'id': 'A-1'",
                  {"15:13: /combiners/1/id: found the id 'A-1' a second time (first at /combiners/0), "
                   "expected an id for each box"}},
                 {"an empty id",
                  "'id': 'A-2'",
                  "'id': ''",
                  {"15:13: /combiners/1/id: found an empty id, expected the id of the box on the plan"}},
                 {"a second circuit of the id",
                  "'strings': 4",
                  "'strings': 4, 'id': 'x' }, { 'id': 'x', 'module': 'M-1', 'series': 18",
                  {"19:69: /combiners/1/circuits/1: found the circuit id 'x' a second time in this box, "
                   "expected each once"}}});
}
