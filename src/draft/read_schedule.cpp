#include "src/draft/read_schedule.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "src/draft/labels_cell.hpp"
#include "src/draft/made_boxes.hpp"
#include "src/read/csv.hpp"
#include "src/read/csv_header.hpp"
#include "src/read/field_cell.hpp"
#include "src/read/field_csv.hpp"
#include "src/read/made_boxes.hpp"
#include "src/read/tree.hpp"
#include "src/text/formula_guard.hpp"

namespace boxproof::draft {
namespace {

using read::Cell;

constexpr std::size_t id_column = column("id"), type_column = column("type"),
                      inverter_column = column("inverter"), module_column = column("module"),
                      series_column = column("series"), circuit_id_column = column("circuit_id");

template <class T>
std::string first_id(const Library<T>& library) {
  return library.entries().empty() ? std::string() : library.entries().front().id;
}

class ScheduleCsv {
 public:
  ScheduleCsv(const Document& document, const Design& site)
      : file_(document.name),
        source_(document.text),
        problems_(document.name, document.text),
        rows_(source_, problems_),
        made_(source_),
        some_module_(first_id(site.modules)),
        some_inverter_(first_id(site.inverters)) {}

  Schedule read(Design site, const ProgressHook& progress) {
    read::check_csv_text(source_, problems_);
    header_ =
        read_header(rows_, source_, {column_names, required_columns, "boxproof draft --columns"}, problems_);
    for (const std::string_view name : required_columns)
      if (const auto c = std::find(column_names.begin(), column_names.end(), name);
          !header_.has(static_cast<std::size_t>(c - column_names.begin())))
        problems_.raise();  // without these no row can be understood
    out_.has_types = header_.has(type_column);
    while (rows_.next())
      if (told_apart(rows_, header_, problems_)) row();
    finish_box();
    if (out_.boxes.empty() && !problems_.any())
      problems_.add(static_cast<std::uint32_t>(source_.size()), "",
                    "found no row below the names of the columns, expected at least one combiner box");
    if (out_.boxes.empty()) problems_.raise();
    const auto made = made_.finish();
    read::Problems all(file_, *made);
    all.take(std::move(problems_));
    read::read_made_boxes(site, file_, made, std::move(all), progress);
    return std::move(out_);
  }

 private:
  const Cell& cell(std::size_t c) const { return rows_.cells()[header_.place[c]]; }
  CellPlace place(std::size_t c) const { return {cell(c).offset, rows_.row()}; }

  // Whether the cell can be read. Blanks say nothing, except as a text in quotes, which are there for them.
  bool filled(std::size_t c) const {
    const Cell& here = cell(c);
    if (here.broken || here.text.empty()) return false;
    return !read::trimmed(here.text).empty() ||
           (columns[c].holds == Holds::text && source_[here.offset] == '"');
  }

  void row() {
    const std::string_view id =
        filled(id_column) ? text::without_formula_guard(cell(id_column).text) : std::string_view();
    if (id.empty() || id != id_) begin_box(id);
    inverter_told_ = inverter_told_ || cell(inverter_column).broken;
    Cells& circuit = box_.circuits.emplace_back();
    Places& places = places_.circuits.emplace_back();
    for (std::size_t c = 0; c < columns.size(); ++c) {
      if (c == id_column || !header_.has(c) || !filled(c)) continue;
      const std::optional<std::uint32_t> stated = value(c);
      if (!stated) continue;
      if (!is_of_circuit(c)) {
        state(c, *stated);
        continue;
      }
      circuit[c] = *stated;
      places[c] = place(c);
    }
    require(circuit, places, module_column, "the id of a module", some_module_);
    require(circuit, places, series_column, "the number of modules in each string", "1");
    settle_parts(circuit, places, circuit_begin, circuit_end);
    check_same_circuit(circuit);
  }

  void begin_box(std::string_view id) {
    finish_box();
    box_ = {};
    places_ = {};
    id_ = id;
    places_.box[id_column] = place(id_column);
    inverter_ = place(inverter_column);
    inverter_told_ = false;
    bool fresh = !id.empty();
    if (fresh) {
      const auto [first, is_first] = first_rows_.emplace(id, rows_.row());
      fresh = is_first;
      if (!fresh)
        wrong(id_column, fmt::format("found the id {} a second time (first in row {}), expected the rows of "
                                     "one box together; correct the id, or move its rows together",
                                     read::in_quotes(id), first->second));
    } else if (!cell(id_column).broken) {
      wrong(id_column, "found an empty cell, expected the id of the box; it is required in each of its rows");
    }
    // In place of what is wrong: nobody's id, as no cell holds a byte of value zero.
    const std::string nobody = std::string(1, '\0') + std::to_string(rows_.row());
    box_.cells[id_column] = out_.texts.add(fresh ? id : nobody);
  }

  void finish_box() {
    if (box_.circuits.empty()) return;
    if (box_.cells[inverter_column] == 0) {
      if (!inverter_told_)
        problems_.add(inverter_.offset, pointer(inverter_column),
                      read::with_place("found an empty cell, expected the id of the inverter that the box "
                                       "feeds; it is required",
                                       in_cell(inverter_.row, inverter_column)));
      box_.cells[inverter_column] = out_.texts.add(some_inverter_);
      places_.box[inverter_column] = inverter_;
    }
    settle_parts(box_.cells, places_.box, 0, circuit_begin);
    settle_parts(box_.cells, places_.box, circuit_end, columns.size());
    const std::uint32_t type =
        std::exchange(box_.cells[type_column], 0);  // types are made of what is read here
    made_.add(box_, out_.texts, places_);
    box_.cells[type_column] = type;
    out_.boxes.push_back(std::move(box_));
    box_ = {};
  }

  // What a row says of the box. Each of its rows may; they must agree.
  void state(std::size_t c, std::uint32_t stated) {
    CellPlace& first = places_.box[c];
    if (first.row == 0) {
      box_.cells[c] = stated;
      first = place(c);
    } else if (box_.cells[c] != stated) {
      wrong(c, fmt::format("found {}, expected an empty cell, or {} as in row {}: both rows are of one box",
                           shown(c, stated), shown(c, box_.cells[c]), first.row));
    }
  }

  std::string shown(std::size_t c, std::uint32_t number) const {
    const bool is_text = columns[c].holds == Holds::text || columns[c].holds == Holds::labels;
    const std::string_view text = out_.texts.at(number);
    return is_text ? read::in_quotes(text) : std::string(text);
  }

  // The value of a cell; nothing where it holds none, which is told.
  std::optional<std::uint32_t> value(std::size_t c) {
    const std::string_view text = cell(c).text;
    std::string json;
    switch (columns[c].holds) {
      case Holds::text:
        if (c != type_column || text != "note") return out_.texts.add(text::without_formula_guard(text));
        wrong(c, "found the type \"note\", expected another name: in a design file it is a remark");
        return std::nullopt;
      case Holds::number:
        if (read::put_number(json, text)) return out_.texts.add(json == "-0" ? "0" : json);
        wrong(c, read::not_a_number(text));
        return std::nullopt;
      case Holds::truth:
      case Holds::part:
        if (read::put_truth(json, text)) return out_.texts.add(json);
        wrong(c, read::not_truth(text, "it is not stated"));
        return std::nullopt;
      case Holds::labels: return labels(c, text);
    }
    return std::nullopt;
  }

  std::optional<std::uint32_t> labels(std::size_t c, std::string_view text) {
    LabelsCell labels = read_labels_cell(text);
    const auto offset = [&](std::uint32_t at) { return cell(c).offset_of(text.substr(at), source_); };
    if (!labels.problem.empty()) {
      wrong_at(offset(labels.problem_at), c, std::move(labels.problem));
      return std::nullopt;
    }
    if (places_.box[c].row == 0)
      for (const auto& [json, at] : labels.places) places_.labels.emplace_back(json, offset(at));
    return out_.texts.add(labels.text);
  }

  // What each row must state. Something else in its place keeps the reader from asking for it again.
  void require(Cells& circuit, Places& places, std::size_t c, std::string_view what, std::string_view other) {
    if (circuit[c] != 0) return;
    if (!filled(c) && !cell(c).broken)
      wrong(c, fmt::format("found an empty cell, expected {}; it is required in each row", what));
    circuit[c] = out_.texts.add(other);
    places[c] = place(c);
  }

  // What the columns of parts say, held against the columns behind them.
  void settle_parts(Cells& cells, const Places& places, std::size_t from, std::size_t to) {
    for (std::size_t c = to; c-- > from;) {  // a part within a part first
      if (columns[c].holds != Holds::part || cells[c] == 0) continue;
      const bool there = out_.texts.at(cells[c]) == "true";
      std::size_t stated = c + 1;
      while (stated < part_end(c) && cells[stated] == 0) ++stated;
      const bool stands_alone = stated == part_end(c);
      if (!there || !stands_alone) cells[c] = 0;
      if (there || stands_alone) continue;
      problems_.add(places[stated].offset, pointer(stated),
                    read::with_place(fmt::format("found {}, expected an empty cell, as column {} says false",
                                                 shown(stated, cells[stated]), columns[c].name),
                                     in_cell(places[stated].row, stated)));
    }
  }

  // A row that was pasted twice would double its strings unseen.
  void check_same_circuit(const Cells& circuit) {
    if (circuit[circuit_id_column] != 0) return;
    const auto same = std::find(box_.circuits.begin(), box_.circuits.end() - 1, circuit);
    if (same == box_.circuits.end() - 1) return;
    const auto before = static_cast<std::size_t>(same - box_.circuits.begin());
    wrong(module_column,
          fmt::format("found the same circuit as in row {}, expected another one; state all its strings "
                      "in one row, or give each circuit a circuit_id",
                      places_.circuits[before][module_column].row));
  }

  static std::string in_cell(std::uint32_t row, std::size_t c) {
    return fmt::format(" in row {}, column {}", row, columns[c].name);
  }
  void wrong(std::size_t c, std::string message) { wrong_at(cell(c).offset, c, std::move(message)); }
  void wrong_at(std::uint32_t offset, std::size_t c, std::string message) {
    problems_.add(offset, pointer(c), read::with_place(std::move(message), in_cell(rows_.row(), c)));
  }
  std::string pointer(std::size_t c) const {
    const std::string_view path = columns[c].path;
    if (!is_of_circuit(c)) return fmt::format("/combiners/{}/{}", out_.boxes.size(), path);
    return fmt::format("/combiners/{}/circuits/{}{}", out_.boxes.size(), box_.circuits.size() - 1,
                       path.substr(path.find('/')));
  }

  const std::string& file_;
  std::string_view source_;
  read::Problems problems_;
  read::CsvRows rows_;
  read::CsvHeader header_;
  MadeBoxes made_;
  Schedule out_;
  const std::string some_module_, some_inverter_;              // ids of the site; empty: it has none
  std::unordered_map<std::string, std::uint32_t> first_rows_;  // of each id
  // Of the box that is being read:
  Box box_;
  BoxPlaces places_;
  std::string id_;      // empty: it has none
  CellPlace inverter_;  // in its first row
  bool inverter_told_ = false;
};

}  // namespace

Schedule read_schedule(const Document& document, Design site, const ProgressHook& progress) {
  ScheduleCsv csv(document, site);
  return csv.read(std::move(site), progress);
}

}  // namespace boxproof::draft
