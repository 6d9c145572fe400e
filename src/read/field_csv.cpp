#include "src/read/field_csv.hpp"

#include <fmt/format.h>

#include "src/read/csv.hpp"
#include "src/read/csv_header.hpp"
#include "src/read/field_cell.hpp"
#include "src/read/field_columns.hpp"
#include "src/read/tree.hpp"
#include "src/text/formula_guard.hpp"

namespace boxproof::read {
namespace {

constexpr std::array<std::string_view, 1> required{"id"};

class FieldCsv {
 public:
  FieldCsv(std::string_view source, Problems& problems)
      : source_(source), problems_(problems), rows_(source, problems), made_(std::make_shared<MadeText>()) {
    made_->source = source;
    made_->columns = field_column_names;
  }

  std::shared_ptr<const MadeText> make() {
    header_ = read_header(rows_, source_, {field_column_names, required}, problems_);
    made_->pieces.emplace_back().source_end = static_cast<std::uint32_t>(source_.size());
    made_->text = R"({"format":"boxproof-asbuilt/1","boxes":[)";
    for (index_ = 0; rows_.next(); ++index_) {
      if (index_ > 0) made_->text += ",\n";
      box();
    }
    made_->text += "]}";
    return std::move(made_);
  }

 private:
  // One row as the JSON of one box. A row that cannot be told apart into its columns gives a box without
  // values, so that those behind it keep their numbers.
  void box() {
    const bool apart = told_apart(rows_, header_, problems_);
    const Cell* const id = apart && header_.has(0) ? &rows_.cells()[header_.place[0]] : nullptr;
    const Cell& first = id != nullptr ? *id : rows_.cells().front();
    mark(0, first.offset, first.end);
    made_->text += '{';
    if (id == nullptr || id->broken)  // nobody's id, as no cell holds a byte of value zero
      made_->text += fmt::format(R"("id":"\u0000{}",)", rows_.row());
    if (apart) values();
    if (made_->text.back() == ',') made_->text.pop_back();
    made_->text += '}';
  }

  void values() {
    std::string_view group;
    for (std::uint32_t c = 0; c < field_columns.size(); ++c) {
      if (!header_.has(c)) continue;
      const Cell& cell = rows_.cells()[header_.place[c]];
      if (cell.broken || trimmed(cell.text).empty()) continue;
      const FieldColumn& column = field_columns[c];
      if (column.group != group) {
        close(group);
        group = column.group;
        if (!group.empty()) {
          key(group, c, cell);
          made_->text += '{';
        }
      }
      key(column.key, c, cell);
      value(c, cell);
      made_->text += ',';
    }
    close(group);
  }

  void key(std::string_view key, std::uint32_t column, const Cell& cell) {
    (((made_->text += '"') += key) += "\":");
    mark(column, cell.offset, cell.end);
  }
  void close(std::string_view group) {
    if (group.empty()) return;
    made_->text.back() = '}';  // in place of a comma
    made_->text += ',';
  }
  // What is written next comes from there.
  void mark(std::uint32_t column, std::uint32_t source_at, std::uint32_t source_end) {
    made_->pieces.push_back(
        {static_cast<std::uint32_t>(made_->text.size()), source_at, source_end, rows_.row(), column});
  }

  void value(std::uint32_t c, const Cell& cell) {
    switch (field_columns[c].holds) {
      case Holds::text: put_text(made_->text, text::without_formula_guard(cell.text)); break;
      case Holds::number: number(cell.text, ""); break;
      case Holds::truth:
        if (!put_truth(made_->text, cell.text)) wrong(not_truth(cell.text), "");
        break;
      case Holds::series: series(c, cell); break;
      case Holds::words: words(c, cell); break;
    }
  }

  void number(std::string_view text, std::string_view below) {
    if (!put_number(made_->text, text)) wrong(not_a_number(text), below);
  }

  // Tells what is wrong with the value that was marked last; `below` is its pointer from the cell's value on.
  void wrong(std::string message, std::string_view below) {
    const MadeText::Piece& here = made_->pieces.back();
    const FieldColumn& column = field_columns[here.column];
    problems_.add(here.source_at,
                  fmt::format("/boxes/{}{}{}/{}{}", index_, column.group.empty() ? "" : "/", column.group,
                              column.key, below),
                  made_->with_cell(here, std::move(message)));
  }

  // Calls visit(part) for what stands between the semicolons of a cell.
  template <class Visit>
  void parts(std::uint32_t c, const Cell& cell, Visit&& visit) {
    made_->text += '[';
    for (std::size_t at = 0, end = 0; end != std::string_view::npos; at = end + 1) {
      end = cell.text.find(';', at);
      const std::string_view part = trimmed(cell.text.substr(at, end - at));
      mark(c, cell.offset_of(part, source_), cell.end_of(part, source_));
      visit(part);
      if (made_->text.back() != '[' && made_->text.back() != ',') made_->text += ',';
    }
    if (made_->text.back() == ',') made_->text.pop_back();
    made_->text += ']';
  }

  void series(std::uint32_t c, const Cell& cell) {
    if (cell.text.find(';') == std::string_view::npos) return number(cell.text, "");
    std::uint32_t position = 0;
    parts(c, cell, [&](std::string_view part) { number(part, fmt::format("/{}", position++)); });
  }

  void words(std::uint32_t c, const Cell& cell) {
    if (trimmed(cell.text) == "none") {  // looked for, and nothing seen
      made_->text += "[]";
      return;
    }
    parts(c, cell, [&](std::string_view part) {
      if (part.empty()) return;  // a semicolon behind the last word
      made_->text += R"({"what":)";
      put_text(made_->text, part);
      made_->text += '}';
    });
  }

  std::string_view source_;
  Problems& problems_;
  CsvRows rows_;
  std::shared_ptr<MadeText> made_;
  CsvHeader header_;
  std::uint32_t index_ = 0;  // of the box
};

}  // namespace

std::shared_ptr<const MadeText> json_of_field_csv(std::string_view source, Problems& problems) {
  check_csv_text(source, problems);
  return FieldCsv(source, problems).make();
}

}  // namespace boxproof::read
