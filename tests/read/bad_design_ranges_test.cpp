// The ranges that no real part reaches (the page on the design file lists them), at their ends: a value
// within gives no line, a value beyond gives one.
#include "tests/support/bad_input.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof::test;

namespace {

constexpr std::string_view module =
    "'voc_v': 40, 'isc_a': 10, 'vmp_v': 32, 'imp_a': 9, 'pmax_w': 288, 'cell': 'mono-si'";  // of the small
                                                                                            // design

}  // namespace

TEST_CASE("ranges that no real part reaches") {
  check_designs(
      small_design,
      {{"Voc least", module, "'voc_v': 0.1, 'isc_a': 10", {}},
       {"Voc under",
        module,
        "'voc_v': 0.09, 'isc_a': 10",
        {"6:23: /modules/M-1/voc_v: found 0.09, expected a number of volts from 0.1 to 400; check the unit "
         "and the decimal point"}},
       {"Voc most", module, "'voc_v': 400, 'isc_a': 10", {}},
       {"Voc over",
        module,
        "'voc_v': 400.1, 'isc_a': 10",
        {"6:23: /modules/M-1/voc_v: found 400.1, expected a number of volts from 0.1 to 400; check the unit "
         "and the decimal point"}},
       {"Isc least", module, "'voc_v': 40, 'isc_a': 0.001", {}},
       {"Isc none",
        module,
        "'voc_v': 40, 'isc_a': 0",
        {"6:36: /modules/M-1/isc_a: found 0, expected a number of amperes above 0 to 100; check the unit and "
         "the decimal point"}},
       {"Isc most", module, "'voc_v': 40, 'isc_a': 100", {}},
       {"Isc over",
        module,
        "'voc_v': 40, 'isc_a': 100.1",
        {"6:36: /modules/M-1/isc_a: found 100.1, expected a number of amperes above 0 to 100; check the unit "
         "and the decimal point"}},
       {"low most", "'use': 'ground'", "'use': 'ground', 'low_c': 30", {}},
       {"low over",
        "'use': 'ground'",
        "'use': 'ground', 'low_c': 30.1",
        {"3:62: /site/low_c: found 30.1, expected a number of degrees Celsius from -70 to 30; check the unit "
         "and the decimal point"}},
       {"low least", "'use': 'ground'", "'use': 'ground', 'low_c': -70", {}},
       {"low under",
        "'use': 'ground'",
        "'use': 'ground', 'low_c': -70.1",
        {"3:62: /site/low_c: found -70.1, expected a number of degrees Celsius from -70 to 30; check the "
         "unit and the decimal point"}},
       {"high most", "'use': 'ground'", "'use': 'ground', 'high_c': 100", {}},
       {"high over",
        "'use': 'ground'",
        "'use': 'ground', 'high_c': 100.5",
        {"3:63: /site/high_c: found 100.5, expected a number of degrees Celsius from -70 to 100; check the "
         "unit and the decimal point"}},
       {"coefficient zero", module, "'voc_v': 40, 'isc_a': 10, 'voc_coeff_pct_per_c': 0", {}},
       {"coefficient positive",
        module,
        "'voc_v': 40, 'isc_a': 10, 'voc_coeff_pct_per_c': 0.001",
        {"6:63: /modules/M-1/voc_coeff_pct_per_c: found 0.001, expected a number of percent per degree "
         "Celsius from -1 to 0; check the unit and the decimal point"}},
       {"coefficient least", module, "'voc_v': 40, 'isc_a': 10, 'voc_coeff_pct_per_c': -1", {}},
       {"coefficient under",
        module,
        "'voc_v': 40, 'isc_a': 10, 'voc_coeff_pct_per_c': -1.001",
        {"6:63: /modules/M-1/voc_coeff_pct_per_c: found -1.001, expected a number of percent per degree "
         "Celsius from -1 to 0; check the unit and the decimal point"}},
       {"coefficient in volts zero", module, "'voc_v': 40, 'isc_a': 10, 'voc_coeff_v_per_c': 0", {}},
       {"coefficient in volts positive",
        module,
        "'voc_v': 40, 'isc_a': 10, 'voc_coeff_v_per_c': 0.001",
        {"6:61: /modules/M-1/voc_coeff_v_per_c: found 0.001, expected a number of volts per degree Celsius "
         "from -0.4 to 0; check the unit and the decimal point"}},
       {"coefficient in volts: 1 % of 40 V",
        module,
        "'voc_v': 40, 'isc_a': 10, 'voc_coeff_v_per_c': -0.4",
        {}},
       {"coefficient in volts under it",
        module,
        "'voc_v': 40, 'isc_a': 10, 'voc_coeff_v_per_c': -0.4004",
        {"6:61: /modules/M-1/voc_coeff_v_per_c: found -0.4004, expected a number of volts per degree Celsius "
         "from -0.4 to 0; check the unit and the decimal point"}},
       {"both coefficients of Voc",
        module,
        "'voc_v': 40, 'isc_a': 10, 'voc_coeff_v_per_c': -0.1, 'voc_coeff_pct_per_c': -0.3",
        {"6:61: /modules/M-1/voc_coeff_v_per_c: found the coefficient of Voc both in %/°C and in V/°C, "
         "expected one of them; remove one"}},
       {"coefficient of Vmp least", module, "'voc_v': 40, 'isc_a': 10, 'vmp_coeff_pct_per_c': -1", {}},
       {"coefficient of Vmp under",
        module,
        "'voc_v': 40, 'isc_a': 10, 'vmp_coeff_pct_per_c': -1.001",
        {"6:63: /modules/M-1/vmp_coeff_pct_per_c: found -1.001, expected a number of percent per degree "
         "Celsius from -1 to 0; check the unit and the decimal point"}},
       {"coefficient of Vmp positive",
        module,
        "'voc_v': 40, 'isc_a': 10, 'vmp_coeff_pct_per_c': 0.3",
        {"6:63: /modules/M-1/vmp_coeff_pct_per_c: found 0.3, expected a number of percent per degree Celsius "
         "from -1 to 0; check the unit and the decimal point"}},
       {"coefficient of Isc", module, "'voc_v': 40, 'isc_a': 10, 'isc_coeff_pct_per_c': 0.05", {}},
       {"coefficient of Isc negative", module, "'voc_v': 40, 'isc_a': 10, 'isc_coeff_pct_per_c': -0.02", {}},
       {"coefficient of Isc zero", module, "'voc_v': 40, 'isc_a': 10, 'isc_coeff_pct_per_c': 0", {}},
       {"Vmp as Voc", module, "'voc_v': 40, 'isc_a': 10, 'vmp_v': 40", {}},
       {"Vmp above Voc",
        module,
        "'voc_v': 40, 'isc_a': 10, 'vmp_v': 40.01",
        {"6:49: /modules/M-1/vmp_v: found Vmp 40.01 V above Voc 40 V, expected it below; check for swapped "
         "values"}},
       {"Imp as Isc", module, "'voc_v': 40, 'isc_a': 10, 'imp_a': 10", {}},
       {"Imp above Isc",
        module,
        "'voc_v': 40, 'isc_a': 10, 'imp_a': 10.01",
        {"6:49: /modules/M-1/imp_a: found Imp 10.01 A above Isc 10 A, expected it below; check for swapped "
         "values"}},
       {"Pmax 10 % over 9 A · 32 V = 288 W", "'pmax_w': 288", "'pmax_w': 316.8", {}},
       {"Pmax further over",
        "'pmax_w': 288",
        "'pmax_w': 316.9",
        {"6:75: /modules/M-1/pmax_w: found Pmax 316.9 W, expected within 10 % of Imp · Vmp = 288.0 W; check "
         "the three values"}},
       {"Pmax 10 % under", "'pmax_w': 288", "'pmax_w': 259.2", {}},
       {"Pmax further under",
        "'pmax_w': 288",
        "'pmax_w': 259.1",
        {"6:75: /modules/M-1/pmax_w: found Pmax 259.1 W, expected within 10 % of Imp · Vmp = 288.0 W; check "
         "the three values"}},
       {"a fuse for every string", "'strings': 4", "'strings': 4, 'strings_per_fuse': 1", {}},
       {"all strings on one fuse", "'strings': 4", "'strings': 4, 'strings_per_fuse': 4", {}},
       {"three strings to a fuse of four",
        "'strings': 4",
        "'strings': 4, 'strings_per_fuse': 3",
        {"19:76: /combiners/1/circuits/0/strings_per_fuse: found 3 strings to a fuse for 4 strings, expected "
         "a number that divides them; state the odd fuse as a circuit of its own"}},
       {"a factor of nothing",
        "'a': 20",
        "'ambient_factor': 0",
        {"21:35: /combiners/1/fuse/ambient_factor: found 0, expected a number of (a factor) above 0 to 1.5; "
         "check the unit and the decimal point"}},
       {"an insulation that is none",
        "'insulation_c': 90",
        "'insulation_c': 80",
        {"9:64: /conductors/pv-10/insulation_c: found 80, expected 60, 75, 90 or a higher rating"}},
       {"a terminal that is none",
        "'conductor': 'pv-10'",
        "'terminal_c': 70",
        {"19:79: /combiners/1/circuits/0/run/terminal_c: found 70, expected 60, 75 or 90"}}});
}

TEST_CASE("the share of Voc that a coefficient in volts may have is 1 %, to the last digit") {
  // 1 % of 32.3 V is 0.323 V; in binary -0.01 * 32.3 comes out above -0.323.
  check_designs(small_design,
                {{"at the limit", module, "'voc_v': 32.3, 'isc_a': 10, 'voc_coeff_v_per_c': -0.323", {}},
                 {"beyond it: the limit as people write it",
                  module,
                  "'voc_v': 35, 'isc_a': 10, 'voc_coeff_v_per_c': -0.36",
                  {"6:61: /modules/M-1/voc_coeff_v_per_c: found -0.36, expected a number of volts per degree "
                   "Celsius from -0.35 to 0; check the unit and the decimal point"}}});
}
