// The labels of a box in one cell of a schedule:
//
//   box-identification; max-voltage(max_v=970, max_a=232); directory('in the hall'='north door')
//
// A kind, and in brackets what the label states: numbers, or texts in single quotes, in which a quote is
// doubled. A name that is not made of letters, digits and _ stands in quotes too. "none": no label is called
// for.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace boxproof::draft {

// Writes such a cell, label by label.
class LabelsText {
 public:
  void label(std::string_view kind);
  // What the label stated last states.
  void value(std::string_view name, std::string_view text);
  void value(std::string_view name, double number);
  std::string finish();

 private:
  void name(std::string_view name);
  std::string text_;
  bool has_values_ = false;
};

struct LabelsCell {
  std::string text;  // as we write the cell
  std::string json;  // the labels as a design file has them
  // Where in the cell (second) the JSON from there on (first) comes from.
  std::vector<std::pair<std::uint32_t, std::uint32_t>> places;
  std::string problem;           // what is wrong with the cell; empty: nothing
  std::uint32_t problem_at = 0;  // in the cell
};

// Reads the cell of a schedule.
LabelsCell read_labels_cell(std::string_view cell);

// The shortest digits that read back equal; zero without a sign.
std::string number_text(double number);

}  // namespace boxproof::draft
