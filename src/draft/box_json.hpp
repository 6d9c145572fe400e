// Boxes of a schedule as JSON, whole or as merge patches onto what their type states.
#pragma once

#include <string>
#include <string_view>

#include "src/draft/labels_cell.hpp"
#include "src/draft/schedule.hpp"
#include "src/read/field_cell.hpp"

namespace boxproof::draft {

// Writes objects, without spaces. `mark(column, circuit)` is called before each value and each circuit's
// object; the circuit is null outside of circuits.
template <class Mark>
class BoxJson {
 public:
  BoxJson(const Texts& texts, std::string& out, Mark mark) : texts_(texts), out_(out), mark_(mark) {}

  // The box, or what it states differently from the base: null, where only the base states something.
  void box(const Box& box, const Box* base = nullptr) {
    box_ = &box;
    base_ = base;
    circuit_ = nullptr;
    object(box.cells, base != nullptr ? &base->cells : nullptr, 0, columns.size());
  }

 private:
  void object(const Cells& cells, const Cells* base, std::size_t from, std::size_t to) {
    out_ += '{';
    const std::size_t start = out_.size();
    for (std::size_t c = from; c < to;) {
      if (c == circuit_begin && circuit_ == nullptr) {
        circuits(start);
        c = circuit_end;
      } else if (columns[c].holds == Holds::part) {
        part(cells, base, c, start);
        c = part_end(c);
      } else {
        const std::uint32_t in_base = base != nullptr ? (*base)[c] : 0;
        if (cells[c] != in_base) {
          key(c, start);
          cells[c] != 0 ? value(c, texts_.at(cells[c])) : null();
        }
        ++c;
      }
    }
    out_ += '}';
  }

  void part(const Cells& cells, const Cells* base, std::size_t c, std::size_t start) {
    const std::size_t end = part_end(c);
    const bool here = states(cells, c, end), in_base = base != nullptr && states(*base, c, end);
    if (here && !(in_base && std::equal(cells.begin() + c, cells.begin() + end, base->begin() + c))) {
      key(c, start);
      object(cells, in_base ? base : nullptr, c + 1, end);
    } else if (!here && in_base) {
      key(c, start);
      null();
    }
  }

  void circuits(std::size_t start) {
    if (box_->circuits.empty() || (base_ != nullptr && base_->circuits == box_->circuits)) return;
    put_key("circuits", start);
    out_ += '[';
    for (const Cells& circuit : box_->circuits) {
      if (&circuit != box_->circuits.data()) out_ += ',';
      circuit_ = &circuit;
      mark_(circuit_begin, circuit_);
      object(circuit, nullptr, circuit_begin, circuit_end);
    }
    circuit_ = nullptr;
    out_ += ']';
  }

  void put_key(std::string_view key, std::size_t start) {
    if (out_.size() > start) out_ += ',';
    ((out_ += '"') += key) += "\":";
  }
  void key(std::size_t c, std::size_t start) {
    put_key(key_of(c), start);
    mark_(c, circuit_);
  }
  void null() { out_ += "null"; }
  void value(std::size_t c, std::string_view text) {
    if (columns[c].holds == Holds::text)
      read::put_text(out_, text);
    else if (columns[c].holds == Holds::labels)
      out_ += read_labels_cell(text).json;
    else
      out_ += text;
  }

  const Texts& texts_;
  std::string& out_;
  Mark mark_;
  const Box* box_ = nullptr;
  const Box* base_ = nullptr;
  const Cells* circuit_ = nullptr;
};

}  // namespace boxproof::draft
