// Words in a drawing: the estimate of their width, against a face that browsers fall back on.
#include "src/report/svg_text.hpp"

#include "tests/support/catch.hpp"

using namespace boxproof;

TEST_CASE("the width of words is estimated at no less than a wide face needs") {
  struct Case {
    std::string_view text;
    bool bold;
    double ems;
  };
  // Measured with getComputedTextLength() in Chromium at 100 px in DejaVu Sans 2.37.
  constexpr Case cases[] = {{"16 strings of 18", false, 7.85},
                            {"350 kcmil copper", false, 8.66},
                            {"10 AWG copper", false, 7.76},
                            {"load-break switch", false, 8.84},
                            {"16 / – / ≠304", false, 6.46},
                            {"RHW-2, 220 m", false, 7.23},
                            {"functional grounding", false, 10.38},
                            {"not visited: as planned", false, 11.42},
                            {"MMMWWW@%", false, 7.50},
                            {"iljtfr", false, 1.99},
                            {"16 strings of 18", true, 8.88},
                            {"350 kcmil copper", true, 9.65},
                            {"load-break switch", true, 10.06},
                            {"16 / – / ≠304", true, 6.94},
                            {"functional grounding", true, 11.84},
                            {"1000 V, DC, PV", true, 8.30},
                            {"漢字漢字", false, 4.00},
                            {"Ünïcödé", true, 4.54}};
  for (const Case& c : cases) {
    CAPTURE(std::string(c.text), c.bold, c.ems);
    CHECK(report::svg_width(c.text, 1, c.bold) >= c.ems);
    CHECK(report::svg_width(c.text, 1, c.bold) <= 1.35 * c.ems);
  }
  CHECK(report::svg_fit("short", 12, 100) == "short");
  const std::string cut = report::svg_fit("a name that goes on and on", 12, 60);
  CHECK(cut.ends_with("…"));
  CHECK(report::svg_width(cut, 12) <= 60);
  CHECK(cut.size() > 6);
}

TEST_CASE("a text that was cut is whole in its title, and escaped in both") {
  CHECK(report::svg_text(3, 9, "s", "a<b", 11, 100) == "<text x=\"3\" y=\"9\" class=\"s\">a&lt;b</text>\n");
  CHECK(report::svg_text(3, 9, "", "abc", 12, 100, true, true) ==
        "<text x=\"3\" y=\"9\" class=\"b e\">abc</text>\n");
  CHECK(report::svg_text(3, 9, "", "abcdefgh <", 10, 40) ==
        "<text x=\"3\" y=\"9\"><title>abcdefgh &lt;</title>abcd…</text>\n");
}
