#include "src/draft/column_list.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "src/draft/columns.hpp"
#include "src/report/key_words.hpp"
#include "src/report/layout.hpp"

namespace boxproof::draft {
namespace {

constexpr std::string_view head =
    "A combiner schedule is a table in CSV (UTF-8, commas between cells): its first row names the columns, in any "
    "order; then a row a box, or a row a circuit. Rows with the id of the row before are further circuits of that "
    "box; what is of the box stands in one of its rows, or alike in several. Columns marked * are required, all "
    "others may be left out. An empty cell: not stated. Ids of inverters, modules and conductors are those of the "
    "site file.";

constexpr std::string_view about_types =
    "Types: where there is no column type, boxes that agree in all but id, inverter, sheet, location, circuits, "
    "labels and output_length_m become a type. Where there is one, it says which boxes are of a type.";

constexpr std::string_view about_parts =
    "A part (true or false): it is there if one of the columns that begin with its name says something of it. "
    "true: it is there, and nothing is known of it. false: there is none, as when all its cells are empty: a box of "
    "which no fuse is stated has no fuses.";

constexpr std::string_view about_labels =
    "Labels: their kinds with semicolons between them, in brackets what each states, texts in single quotes: "
    "box-identification; max-voltage(max_v=970, max_a=232); directory(place='north door'). none: the plan calls "
    "for no label.";

std::string holds(const Column& column) {
  constexpr std::size_t few = 6;  // words; sizes of conductors are more
  switch (column.holds) {
    case Holds::text:
      if (column.words.empty()) return "text";
      if (column.words.size() <= few) return fmt::format("{}", fmt::join(column.words, ", "));
      return fmt::format("{}, … {}", fmt::join(column.words.first(3), ", "), column.words.back());
    case Holds::number: return "number";
    case Holds::truth: return "true or false";
    case Holds::part: return "part";
    case Holds::labels: return "labels";
  }
  return {};
}

// As queries name the key.
std::string named(const Column& column) {
  constexpr std::string_view circuits = "circuits/";
  return column.path.starts_with(circuits) ? fmt::format("circuits -/{}", column.path.substr(circuits.size()))
                                           : std::string(column.path);
}

}  // namespace

void write_column_list(const Write& write) {
  write(report::wrap(head, 0));
  const report::KeyWords words(false);
  constexpr std::size_t wide = 30;
  for (std::size_t c = 0; c < columns.size(); ++c) {
    if (c == 0 || c == circuit_begin || c == circuit_end)
      write(c == circuit_begin ? "\nOF THE CIRCUIT\n"
            : c == 0           ? "\nOF THE BOX\n"
                               : "\nOF THE BOX, further\n");
    const Column& column = columns[c];
    const bool required =
        std::find(required_columns.begin(), required_columns.end(), column.name) != required_columns.end();
    const std::string about =
        column.about.empty() ? words.sentence(named(column)) : std::string(column.about);
    write(report::wrap(fmt::format("{}; {}", about, holds(column)), wide,
                       report::left(fmt::format("  {}{}", column.name, required ? " *" : ""), wide)));
  }
  for (const std::string_view about : {about_types, about_parts, about_labels})
    write("\n" + report::wrap(about, 0));
}

}  // namespace boxproof::draft
