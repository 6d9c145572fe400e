// Schedules written as CSV.
#include <algorithm>

#include "src/draft/design_schedule.hpp"
#include "src/report/csv_text.hpp"

namespace boxproof::draft {

std::vector<std::size_t> columns_in_use(const Schedule& schedule) {
  std::array<bool, columns.size()> used{};
  for (const std::string_view name : required_columns)
    used[static_cast<std::size_t>(std::find(column_names.begin(), column_names.end(), name) -
                                  column_names.begin())] = true;
  used[column("type")] = true;  // else types would be made up
  for (const Box& box : schedule.boxes) {
    for (std::size_t c = 0; c < columns.size(); ++c) used[c] = used[c] || box.cells[c] != 0;
    for (const Cells& circuit : box.circuits)
      for (std::size_t c = circuit_begin; c < circuit_end; ++c) used[c] = used[c] || circuit[c] != 0;
  }
  std::vector<std::size_t> out;
  for (std::size_t c = 0; c < columns.size(); ++c)
    if (used[c]) out.push_back(c);
  return out;
}

void write_schedule_csv(const Schedule& schedule, std::span<const std::size_t> shown, const Write& write) {
  std::string rows;
  const auto end_row = [&rows] {
    rows.back() = '\r';  // in place of a comma
    rows += '\n';
  };
  for (const std::size_t c : shown) report::put_cell(rows, columns[c].name);
  end_row();
  constexpr std::size_t enough = 1U << 16;  // bytes
  for (const Box& box : schedule.boxes) {
    for (const Cells& circuit : box.circuits) {
      const bool first = &circuit == box.circuits.data();
      for (const std::size_t c : shown) {
        const bool here = first || is_of_circuit(c) || c == column("id");
        const std::string_view text = schedule.texts.at(!here              ? 0
                                                        : is_of_circuit(c) ? circuit[c]
                                                                           : box.cells[c]);
        if (columns[c].holds == Holds::number)
          (rows += text) += ',';  // a number below zero is no formula
        else
          report::put_cell(rows, text);
      }
      end_row();
    }
    if (rows.size() < enough) continue;
    write(rows);
    rows.clear();
  }
  write(rows);
}

}  // namespace boxproof::draft
