// The linear rule for the cold against 40 modules of a public list.
#include <set>
#include <string>

#include "tests/published/voc_reference.hpp"
#include "tests/published/worked_examples.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof;
using namespace boxproof::test;
using namespace boxproof::test::worked;

namespace {

double ours(const VocReference& r, double cell) {
  Module m = module_of(r.voc, 9);
  m.voc_coefficient_absolute = VoltsPerKelvin(r.beta);
  return string_voltage(m, 1, Celsius(cell), edition_of("2017")).max->value();
}

double ours_by_percent(const VocReference& r, double cell) {
  Module m = module_of(r.voc, 9);
  m.voc_coefficient = PercentPerKelvin(100 * r.beta / r.voc);
  return string_voltage(m, 1, Celsius(cell), edition_of("2017")).max->value();
}

bool crystalline(const VocReference& r) {
  return r.technology == "Mono-c-Si" || r.technology == "Multi-c-Si";
}

}  // namespace

TEST_CASE("the table of reference modules is whole") {
  REQUIRE(voc_reference.size() == 40);
  std::set<std::string_view> ids;
  std::size_t silicon = 0;
  for (const VocReference& r : voc_reference) {
    ids.insert(r.id);
    silicon += crystalline(r);
  }
  CHECK(ids.size() == 40);
  CHECK(silicon >= 10);
}

TEST_CASE("the linear value is that of the reference, by volts and by percent") {
  for (const VocReference& r : voc_reference)
    for (std::size_t i = 0; i < reference_cells.size(); ++i) {
      CAPTURE(std::string(r.id), reference_cells[i]);
      CHECK(std::abs(ours(r, reference_cells[i]) - r.linear[i]) <= 0.5e-5 + 1e-9);
      CHECK(std::abs(ours_by_percent(r, reference_cells[i]) - r.linear[i]) <= 0.5e-5 + 1e-9);
    }
}

TEST_CASE(
    "for crystalline silicon the linear value is never below the physical one, and 0.35 % above it at most") {
  for (const VocReference& r : voc_reference) {
    if (!crystalline(r)) continue;
    double colder = 1;  // the distance grows with the cold
    for (std::size_t i = 0; i < reference_cells.size(); ++i) {
      CAPTURE(std::string(r.id), reference_cells[i]);
      const double over = 100 * (ours(r, reference_cells[i]) / r.matched[i] - 1);
      CHECK(over >= -1e-4);  // both are rounded to five digits
      CHECK(over <= 0.35);
      CHECK(over <= colder + 1e-4);
      colder = over;
    }
  }
}
