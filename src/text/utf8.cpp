#include "src/text/utf8.hpp"

namespace boxproof::text {
namespace {

// Code points that start with such a byte: how many bytes follow it, and between what the first of them lies
// (RFC 3629 section 4).
struct Form {
  unsigned char first, last;
  std::size_t following;
  unsigned char least = 0x80, most = 0xBF;
};
constexpr Form forms[] = {{0x00, 0x7F, 0},
                          {0xC2, 0xDF, 1},
                          {0xE0, 0xE0, 2, 0xA0},
                          {0xE1, 0xEC, 2},
                          {0xED, 0xED, 2, 0x80, 0x9F},
                          {0xEE, 0xEF, 2},
                          {0xF0, 0xF0, 3, 0x90},
                          {0xF1, 0xF3, 3},
                          {0xF4, 0xF4, 3, 0x80, 0x8F}};

const Form* form_of(unsigned char byte) {
  for (const Form& form : forms)
    if (byte >= form.first && byte <= form.last) return &form;
  return nullptr;
}

}  // namespace

std::size_t utf8_length(std::string_view text, std::size_t at) {
  const auto byte_at = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const Form* form = form_of(byte_at(at));
  if (form == nullptr || text.size() - at <= form->following) return 0;
  for (std::size_t i = 1; i <= form->following; ++i) {
    const unsigned char byte = byte_at(at + i);
    if (byte < (i == 1 ? form->least : 0x80) || byte > (i == 1 ? form->most : 0xBF)) return 0;
  }
  return form->following + 1;
}

std::size_t invalid_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = utf8_length(text, at);
    if (length == 0) return at;
    at += length;
  }
  return std::string_view::npos;
}

}  // namespace boxproof::text
