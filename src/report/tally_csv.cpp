// The field sheet for a spreadsheet.
#include "src/read/field_columns.hpp"
#include "src/report/csv_text.hpp"
#include "src/report/tally.hpp"

namespace boxproof::report {

void write_tally_csv(const TallySheet& sheet, const Write& write) {
  const auto& columns = read::field_column_names;
  static_assert(columns.front() == "id", "a row begins with the id, and has nothing else");
  std::string rows;
  for (std::size_t i = 0; i < columns.size(); ++i)
    put_cell(rows, columns[i], i + 1 < columns.size() ? ',' : '\r');
  rows += '\n';
  constexpr std::size_t enough = 1U << 16;  // bytes
  const std::string open(columns.size() - 2, ',');
  for (const TallyBox& entry : sheet.boxes) {
    put_cell(rows, entry.box->id);
    (rows += open) += "\r\n";
    if (rows.size() < enough) continue;
    write(rows);
    rows.clear();
  }
  write(rows);
}

}  // namespace boxproof::report
