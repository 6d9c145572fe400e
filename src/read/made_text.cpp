#include "src/read/made_text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace boxproof::read {

MadeText::Piece MadeText::piece(std::uint32_t offset) const {
  const auto behind =
      std::upper_bound(pieces.begin(), pieces.end(), offset,
                       [](std::uint32_t wanted, const Piece& piece) { return wanted < piece.at; });
  return behind == pieces.begin() ? Piece() : behind[-1];
}

std::string MadeText::with_cell(const Piece& piece, std::string message) const {
  if (piece.row == 0) return message;
  return with_place(std::move(message),
                    fmt::format(" in row {}, column {}", piece.row, columns[piece.column]));
}

std::string with_place(std::string message, std::string_view place) {
  // The last one: what was found may hold anything, what is expected is made of our words.
  const auto at = message.rfind(", expected");
  message.insert(at == std::string::npos ? message.size() : at, place);
  return message;
}

}  // namespace boxproof::read
