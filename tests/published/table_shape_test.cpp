// What must hold of any table of any edition, whatever its numbers: a larger conductor carries no less, a
// hotter column no less, copper no less than aluminium, free air more than a raceway; a hotter ambient, more
// conductors and a lower roof clearance never help.
#include <string_view>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

namespace {

using boxproof::Size;

void check_ampacity_shape(const boxproof::AmpacityTable& table) {
  for (const auto& sizes : table.rows) {
    const std::vector<double>* smaller = nullptr;
    for (std::size_t i = 0; i < Size::count; ++i) {
      const std::vector<double>& row = sizes[i];
      if (row.empty()) continue;
      CAPTURE(Size(i).name());
      REQUIRE(row.size() == table.columns.size());
      CHECK(row[0] > 0);
      for (std::size_t c = 1; c < row.size(); ++c) CHECK(row[c] >= row[c - 1]);
      if (smaller)
        for (std::size_t c = 0; c < row.size(); ++c) CHECK(row[c] > (*smaller)[c]);
      smaller = &row;
    }
  }
  for (std::size_t i = 0; i < Size::count; ++i)
    for (std::size_t c = 0; c < table.rows[1][i].size(); ++c)
      CHECK(table.rows[0][i][c] > table.rows[1][i][c]);
}

void check_correction_shape(const boxproof::CorrectionTable& table) {
  for (std::size_t b = 0; b < table.bands.size(); ++b) {
    CAPTURE(table.bands[b].up_to.value());
    REQUIRE(table.bands[b].factors.size() == table.columns.size());
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
      const auto& factor = table.bands[b].factors[c];
      if (factor) CHECK(*factor > 0);
      if (b == 0) continue;
      const auto& cooler = table.bands[b - 1].factors[c];
      CHECK(table.bands[b].up_to > table.bands[b - 1].up_to);
      if (factor) {
        REQUIRE(cooler.has_value());  // a column that has ended does not start again
        CHECK(*factor < *cooler);
      }
    }
  }
}

}  // namespace

TEST_CASE("shape of the ampacity tables") {
  for (const std::string_view name : boxproof::edition_names) {
    CAPTURE(name);
    const boxproof::Edition& edition = edition_of(name);
    check_ampacity_shape(edition.raceway);
    check_ampacity_shape(edition.free_air);
    if (edition.pv_wire_raceway) check_ampacity_shape(*edition.pv_wire_raceway);
    for (std::size_t material = 0; material < 2; ++material)
      for (std::size_t i = 0; i < Size::count; ++i)
        for (std::size_t c = 0; c < edition.raceway.rows[material][i].size(); ++c) {
          CAPTURE(material, Size(i).name(), c);
          CHECK(edition.free_air.rows[material][i][c] > edition.raceway.rows[material][i][c]);
        }
  }
}

TEST_CASE("shape of the correction, adjustment and cold tables") {
  for (const std::string_view name : boxproof::edition_names) {
    CAPTURE(name);
    const boxproof::Edition& edition = edition_of(name);
    check_correction_shape(edition.correction);
    if (edition.pv_wire_correction) check_correction_shape(*edition.pv_wire_correction);
    const auto& adjustment = edition.adjustment.bands;
    CHECK_FALSE(adjustment.back().up_to.has_value());
    for (std::size_t i = 1; i < adjustment.size(); ++i) {
      CHECK(adjustment[i].factor < adjustment[i - 1].factor);
      REQUIRE(adjustment[i - 1].up_to.has_value());
      if (adjustment[i].up_to) CHECK(*adjustment[i].up_to > *adjustment[i - 1].up_to);
    }
    const auto& cold = edition.cold.bands;
    for (std::size_t i = 1; i < cold.size(); ++i) {
      CHECK(cold[i].down_to < cold[i - 1].down_to);
      CHECK(cold[i].factor > cold[i - 1].factor);
    }
  }
}

TEST_CASE("shape of the roof, grounding and resistance tables") {
  for (const std::string_view name : boxproof::edition_names) {
    CAPTURE(name);
    const boxproof::Edition& edition = edition_of(name);
    const auto& roof = edition.roof_adder.bands;
    for (std::size_t i = 1; i < roof.size(); ++i) {
      CHECK(roof[i].up_to > roof[i - 1].up_to);
      CHECK(roof[i].adder < roof[i - 1].adder);
    }
    const auto& rows = edition.grounding.rows;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      CAPTURE(rows[i].up_to.value());
      CHECK(rows[i].aluminum > rows[i].copper);
      if (i == 0) continue;
      CHECK(rows[i].up_to > rows[i - 1].up_to);
      CHECK(rows[i].copper > rows[i - 1].copper);
      CHECK(rows[i].aluminum >= rows[i - 1].aluminum);
    }
    for (const auto& sizes : edition.resistance.stranded_ohm_per_km)
      for (std::size_t i = 1; i < Size::count; ++i) {
        CAPTURE(Size(i).name());
        REQUIRE((sizes[i].has_value() && sizes[i - 1].has_value()));
        CHECK(*sizes[i] < *sizes[i - 1]);
      }
  }
}
