// What is written beside the parts of a drawn box.
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "boxproof/report.hpp"

namespace boxproof::report {

// A box to be drawn, with its plan and, where it was visited, what the record says of it.
struct DrawnBox {
  const ReportInput& report;
  const BoxFacts& facts;
  const Combiner& box;  // as found where it was visited
  const Combiner& plan;
  const VisitedBox* visited = nullptr;
};

struct DrawnLine {
  enum class Kind : std::uint8_t {
    title,
    detail,
    differs,  // as found, and not as on the plan
    heads,    // of the columns below
    row       // a name and up to three numbers: plan, posted, found
  };
  Kind kind = Kind::detail;
  std::string text;
  std::array<std::string, 3> columns{};
  std::array<bool, 3> odd{};  // the number is not what the others say
};
using DrawnLines = std::vector<DrawnLine>;

DrawnLines words_of_strings(const DrawnBox& b);  // all of the box
DrawnLines words_of_circuit(const DrawnBox& b, std::size_t circuit, std::size_t inputs_drawn);
DrawnLines words_of_fuses(const DrawnBox& b);
DrawnLines words_of_bus(const DrawnBox& b);
DrawnLines words_of_disconnect(const DrawnBox& b);
DrawnLines words_of_output(const DrawnBox& b);
DrawnLines words_of_device(const DrawnBox& b);
DrawnLines words_of_grounding(const DrawnBox& b);
DrawnLines words_of_bond(const DrawnBox& b);
DrawnLines words_of_labels(const DrawnBox& b);
DrawnLines words_of_enclosure(const DrawnBox& b);
DrawnLines words_of_inverter(const DrawnBox& b);

// Fuses on one input: 0 without fuses, 1 or 2; nothing where the plan does not say in how many poles.
std::optional<unsigned> fuses_an_input(const Combiner& box);

// The lines that bear the sign "≠", in words: "strings: plan 16, posted 16, found 17".
std::vector<std::string> differing_in(const DrawnLines& lines);

// The whole box in a sentence or two.
std::string sentence_of(const DrawnBox& b);

// The conductors of the box that bond its source circuits, each kind once.
std::vector<GroundingConductor> bonds_of(const Combiner& box);

}  // namespace boxproof::report
