// Words of a design that are none of those allowed. All that is said, and where.
#include "tests/support/bad_input.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof::test;

TEST_CASE("a word that is none of those allowed") {
  check_designs(
      small_design,
      {{"site.use",
        "'use': 'ground'",
        "'use': 'grund'",
        {"3:43: /site/use: found text 'grund', expected one of 'dwelling', 'building', 'ground'; did you "
         "mean 'ground'?"}},
       {"edition",
        "'edition': '2017'",
        "'edition': '2071'",
        {"4:24: /code/edition: found text '2071', expected one of '2008', '2011', '2014', '2017', '2020', "
         "'2023'"}},
       {"cell",
        "'mono-si'",
        "'monosi'",
        {"6:88: /modules/M-1/cell: found text 'monosi', expected one of 'mono-si', 'poly-si', 'thin-film'; "
         "did you mean 'mono-si'?"}},
       {"grounding",
        "'grounding': 'solid'",
        "'grounding': 'sold'",
        {"8:58: /inverters/I-1/grounding: found text 'sold', expected one of 'solid', 'functional', "
         "'ungrounded'; did you mean 'solid'?"}},
       {"size",
        "'size': '10 AWG'",
        "'size': '9 AWG'",
        {"9:38: /conductors/pv-10/size: found text '9 AWG', expected one of '14 AWG', '12 AWG', '10 AWG', '8 "
         "AWG', '6 AWG', '4 AWG', '3 AWG', '2 AWG', '1 AWG', '1/0 AWG', '2/0 AWG', '3/0 AWG', '4/0 AWG', "
         "'250 kcmil', '300 kcmil', '350 kcmil', '400 kcmil', '500 kcmil', '600 kcmil', '700 kcmil', '750 "
         "kcmil', '800 kcmil', '900 kcmil', '1000 kcmil'; did you mean '8 AWG'?"}},
       {"size without a space",
        "'size': '6 AWG'",
        "'size': '6AWG'",
        {"24:24: /combiners/1/egc/size: found text '6AWG', expected one of '14 AWG', '12 AWG', '10 AWG', '8 "
         "AWG', '6 AWG', '4 AWG', '3 AWG', '2 AWG', '1 AWG', '1/0 AWG', '2/0 AWG', '3/0 AWG', '4/0 AWG', "
         "'250 kcmil', '300 kcmil', '350 kcmil', '400 kcmil', '500 kcmil', '600 kcmil', '700 kcmil', '750 "
         "kcmil', '800 kcmil', '900 kcmil', '1000 kcmil'; did you mean '6 AWG'?"}},
       {"material",
        "'material': 'copper'",
        "'material': 'cooper'",
        {"25:29: /combiners/1/bond/material: found text 'cooper', expected one of 'copper', 'aluminum'; did "
         "you mean 'copper'?"}},
       {"stranding",
        "'insulation_c': 90",
        "'stranding': 'corse'",
        {"9:61: /conductors/pv-10/stranding: found text 'corse', expected one of 'solid', 'coarse', 'fine'; "
         "did you mean 'coarse'?"}},
       {"method",
        "'conductor': 'pv-10'",
        "'method': 'free air'",
        {"19:75: /combiners/1/circuits/0/run/method: found text 'free air', expected one of 'raceway', "
         "'free-air'; did you mean 'free-air'?"}},
       {"place",
        "'place': 'roof'",
        "'place': 'rof'",
        {"16:30: /combiners/1/mounting/place: found text 'rof', expected one of 'roof', 'wall', 'ground', "
         "'indoor'; did you mean 'roof'?"}},
       {"cover",
        "'place': 'roof'",
        "'cover': 'upp'",
        {"16:30: /combiners/1/mounting/cover: found text 'upp', expected one of 'up', 'side'; did you mean "
         "'up'?"}},
       {"poles",
        "'a': 20",
        "'poles': 'bth'",
        {"21:26: /combiners/1/fuse/poles: found text 'bth', expected one of 'one', 'both'; did you mean "
         "'both'?"}},
       {"label kind",
        "'kind': 'disconnect'",
        "'kind': 'max-volts'",
        {"26:29: /combiners/1/labels/0/kind: found text 'max-volts', expected one of 'box-identification', "
         "'max-voltage', 'dc-power-source', 'shock-both-sides', 'raceway-power-source', 'ground-fault', "
         "'ungrounded-system', 'rapid-shutdown', 'disconnect', 'directory'; did you mean 'max-voltage'?"}},
       {"nothing is near",
        "'use': 'ground'",
        "'use': 'castle'",
        {"3:43: /site/use: found text 'castle', expected one of 'dwelling', 'building', 'ground'"}},
       {"another case",
        "'material': 'copper'",
        "'material': 'Copper'",
        {"25:29: /combiners/1/bond/material: found text 'Copper', expected one of 'copper', 'aluminum'; did "
         "you mean 'copper'?"}}});
}
