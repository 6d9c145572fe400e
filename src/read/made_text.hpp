// A JSON text that was made out of a file of another format, and where in that file its values stand.
//
// The reader reads the JSON and knows nothing of the file; what it says of a value is told at the cell that
// the value came from.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace boxproof::read {

struct MadeText {
  struct Piece {
    std::uint32_t at = 0;          // offset in the text; the piece goes to the next one
    std::uint32_t source_at = 0;   // offset in the file
    std::uint32_t source_end = 0;  // likewise, behind the cell or the part of it
    std::uint32_t row = 0;         // from 1; 0: of no cell
    std::uint32_t column = 0;      // index in `columns`
  };

  std::string text;
  std::string_view source;  // the file
  std::span<const std::string_view> columns;
  std::vector<Piece> pieces;  // in the order of the text

  // The piece that the offset in the text lies in.
  Piece piece(std::uint32_t offset) const;
  // A message about that piece, with its cell named.
  std::string with_cell(const Piece& piece, std::string message) const;
};

// Puts a place (" in row 4, column fuse_a") into a message, behind what was found.
std::string with_place(std::string message, std::string_view place);

}  // namespace boxproof::read
