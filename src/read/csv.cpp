#include "src/read/csv.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "src/text/utf8.hpp"

namespace boxproof::read {
namespace {

constexpr std::string_view ends_of_cell = ",\r\n";

}  // namespace

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view space = " \t\r\n";
  const auto first = text.find_first_not_of(space);
  if (first == std::string_view::npos) return text.substr(0, 0);
  return text.substr(first, text.find_last_not_of(space) + 1 - first);
}

CsvRows::CsvRows(std::string_view source, Problems& problems)
    : source_(source),
      problems_(problems),
      at_(source.starts_with(byte_order_mark) ? byte_order_mark.size() : 0),
      all_utf8_(text::invalid_utf8(source) == std::string_view::npos) {}

bool CsvRows::broken() const {
  return std::any_of(cells_.begin(), cells_.end(), [](const Cell& cell) { return cell.broken; });
}

void CsvRows::problem(std::size_t at, std::string message) {
  problems_.add(static_cast<std::uint32_t>(at), "",
                with_place(std::move(message), fmt::format(" in row {}", row_)));
}

bool CsvRows::next() {
  while (at_ < source_.size()) {
    ++row_;
    cells_.clear();
    decoded_.clear();
    while (cell()) {
    }
    const auto filled = [](const Cell& cell) { return cell.broken || !trimmed(cell.text).empty(); };
    if (std::any_of(cells_.begin(), cells_.end(), filled)) return true;
  }
  cells_.clear();
  return false;
}

// Reads one cell and what ends it; true if that is a comma.
bool CsvRows::cell() {
  Cell& cell = cells_.emplace_back();
  const std::size_t start = at_;
  cell.offset = cell.end = static_cast<std::uint32_t>(start);
  if (at_ < source_.size() && source_[at_] == '"')
    quoted_cell(cell);
  else
    plain_cell(cell);
  if (!all_utf8_) check_utf8(cell, start);
  if (at_ < source_.size() && source_[at_] == ',') {
    ++at_;
    return true;
  }
  line_end();
  return false;
}

void CsvRows::plain_cell(Cell& cell) {
  const std::size_t end = std::min(source_.find_first_of(ends_of_cell, at_), source_.size());
  const std::string_view written = source_.substr(at_, end - at_);
  cell.text = trimmed(written);
  if (!cell.text.empty()) {
    cell.offset = cell.offset_of(cell.text, source_);
    cell.end = cell.end_of(cell.text, source_);
  }
  if (const auto quote = written.find('"'); quote != std::string_view::npos) {
    cell.broken = true;
    problem(
        at_ + quote,
        "found a quote in the middle of a cell, expected quotes around the whole of it; write a quote that "
        "belongs to the text twice");
  }
  at_ = end;
}

void CsvRows::quoted_cell(Cell& cell) {
  const std::size_t from = at_ + 1;
  std::size_t close = source_.find('"', from);
  bool doubled = false;
  for (; close < source_.size() && source_.substr(close + 1, 1) == "\""; close = source_.find('"', close + 2))
    doubled = true;
  if (close == std::string_view::npos) {
    cell.broken = true;
    problem(at_, "found a quote that is not closed, expected another one at the end of the cell");
    at_ = source_.size();
    return;
  }
  cell.text = source_.substr(from, close - from);
  if (doubled) {
    std::string& text = decoded_.emplace_back(cell.text);
    for (auto at = text.find('"'); at != std::string::npos; at = text.find('"', at + 1)) text.erase(at, 1);
    cell.text = text;
    cell.as_written = false;
  }
  at_ = close + 1;
  cell.end = static_cast<std::uint32_t>(at_);
  const std::size_t end = std::min(source_.find_first_of(ends_of_cell, at_), source_.size());
  if (end == at_) return;
  cell.broken = true;
  problem(at_,
          "found text behind the closing quote of a cell, expected a comma or the end of the line; write a "
          "quote that belongs to the text twice");
  at_ = end;
}

void CsvRows::line_end() {
  if (at_ >= source_.size()) return;
  const bool line_feed = source_.substr(at_).starts_with("\r\n") || source_[at_] == '\n';
  if (!line_feed && !told_of_return_) {
    told_of_return_ = true;  // all rows of such a file have it
    problem(at_,
            "found a carriage return without a line feed, expected lines that end in LF or CRLF; save the "
            "file as CSV in UTF-8");
  }
  at_ += line_feed && source_[at_] == '\r' ? 2 : 1;
}

void CsvRows::check_utf8(Cell& cell, std::size_t start) {
  const auto bad = text::invalid_utf8(source_.substr(start, at_ - start));
  if (bad == std::string_view::npos) return;
  cell.broken = true;
  problem(start + bad,
          fmt::format("found the byte 0x{:02X}, expected text in UTF-8; save the file as CSV in UTF-8",
                      static_cast<unsigned char>(source_[start + bad])));
}

}  // namespace boxproof::read
