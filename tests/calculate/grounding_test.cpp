// Size of equipment grounding conductors: NFPA 70 Table 250.122, looked up at, just above and just below its
// steps; 690.45: never smaller than 14 AWG copper. The rating to assume without an overcurrent device is from
// memory, unverified (Isc up to 2011, 1.25 · Isc in 2014, 1.5625 · Isc from 2017 on).
#include <utility>
#include <vector>

#include "boxproof/calculate.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

using namespace boxproof;

namespace {

std::string size_for(double amps, Material material, std::string_view edition) {
  const auto size = grounding_size(Amps(amps), material, edition_of(edition));
  return size ? std::string(size->name()) : "beyond the table";
}

struct Row {
  double up_to;
  std::string_view copper, aluminum;
};

// clang-format off
const std::vector<Row> steps{
    {15, "14 AWG", "12 AWG"},        {20, "12 AWG", "10 AWG"},          {60, "10 AWG", "8 AWG"},
    {100, "8 AWG", "6 AWG"},         {200, "6 AWG", "4 AWG"},           {300, "4 AWG", "2 AWG"},
    {400, "3 AWG", "1 AWG"},         {500, "2 AWG", "1/0 AWG"},         {600, "1 AWG", "2/0 AWG"},
    {800, "1/0 AWG", "3/0 AWG"},     {1000, "2/0 AWG", "4/0 AWG"},      {1200, "3/0 AWG", "250 kcmil"},
    {1600, "4/0 AWG", "350 kcmil"},  {2000, "250 kcmil", "400 kcmil"},  {2500, "350 kcmil", "600 kcmil"},
    {3000, "400 kcmil", "600 kcmil"}, {4000, "500 kcmil", "750 kcmil"}};
// clang-format on

}  // namespace

TEST_CASE("grounding conductor at and around each step of the table") {
  for (std::string_view edition : edition_names)
    for (std::size_t i = 0; i < steps.size(); ++i) {
      const Row& row = steps[i];
      CAPTURE(edition, row.up_to);
      CHECK(size_for(row.up_to, Material::copper, edition) == row.copper);
      CHECK(size_for(row.up_to, Material::aluminum, edition) == row.aluminum);
      CHECK(size_for(row.up_to - 0.0001, Material::copper, edition) == row.copper);
      CHECK(size_for(row.up_to * (1 + 1e-10), Material::copper, edition) == row.copper);  // within the slack
      const bool last = i + 1 == steps.size();
      CHECK(size_for(row.up_to + 0.0001, Material::copper, edition) ==
            (last ? "beyond the table" : steps[i + 1].copper));
      CHECK(size_for(row.up_to + 0.0001, Material::aluminum, edition) ==
            (last ? "beyond the table" : steps[i + 1].aluminum));
    }
}

TEST_CASE("ratings between the steps") {
  const std::vector<std::pair<double, std::string_view>> rows{{0.1, "14 AWG"}, {10, "14 AWG"}, {25, "10 AWG"},
                                                              {30, "10 AWG"},  {175, "6 AWG"}, {225, "4 AWG"},
                                                              {450, "2 AWG"}};
  for (const auto& [amps, size] : rows) {
    CAPTURE(amps);
    CHECK(size_for(amps, Material::copper, "2017") == size);
  }
}

TEST_CASE("never smaller than the least size, whatever the table says") {
  Edition e = edition_of("2017");
  const auto in = [&](double amps, Material material) {
    return std::string(grounding_size(Amps(amps), material, e)->name());
  };
  e.grounding.least_copper = *Size::parse("10 AWG");
  e.grounding.least_aluminum = *Size::parse("8 AWG");
  CHECK(in(15, Material::copper) == "10 AWG");
  CHECK(in(20, Material::copper) == "10 AWG");
  CHECK(in(100, Material::copper) == "8 AWG");
  CHECK(in(15, Material::aluminum) == "8 AWG");
  CHECK(in(100, Material::aluminum) == "6 AWG");
}

TEST_CASE("the rating to assume for a 10 A string without a device, and its conductor") {
  struct Assumed {
    std::string_view edition;
    double amps;
    std::string_view copper;
  };
  // 10 A in 2008 and 2011, 12.5 A in 2014, 15.625 A from 2017 on: beyond the 15 A step
  for (const Assumed& row : std::vector<Assumed>{{"2008", 10, "14 AWG"},
                                                 {"2011", 10, "14 AWG"},
                                                 {"2014", 12.5, "14 AWG"},
                                                 {"2017", 15.625, "12 AWG"},
                                                 {"2020", 15.625, "12 AWG"},
                                                 {"2023", 15.625, "12 AWG"}}) {
    CAPTURE(row.edition);
    const double assumed = edition_of(row.edition).grounding.assumed_factor * 10;
    CHECK(assumed == row.amps);
    CHECK(size_for(assumed, Material::copper, row.edition) == row.copper);
  }
}
