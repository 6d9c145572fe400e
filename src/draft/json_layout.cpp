#include "src/draft/json_layout.hpp"

namespace boxproof::draft {
namespace {

using read::Kind;
using read::Value;
using report::Buffer;
using report::put;

constexpr std::size_t line_width = 110;  // as in our examples
constexpr std::size_t step = 2;          // of indentation

bool is_nested(const Value& value) {
  return (value.kind() == Kind::object || value.kind() == Kind::array) && value.first();
}

void put_key(Buffer& out, const Value& member) {
  report::put_text(out, member.key());
  put(out, ": ");
}

void new_line(Buffer& out, std::size_t indent) {
  out.push_back('\n');
  for (std::size_t i = 0; i < indent; ++i) out.push_back(' ');
}

}  // namespace

void put_one_line(Buffer& out, const Value& value) {
  switch (value.kind()) {
    case Kind::null: return put(out, "null");
    case Kind::boolean: return put(out, value.boolean() ? "true" : "false");
    case Kind::number: return report::put_number(out, value.number());
    case Kind::text: return report::put_text(out, value.text());
    case Kind::array:
    case Kind::object: break;
  }
  const bool object = value.kind() == Kind::object;
  out.push_back(object ? '{' : '[');
  bool first = true;
  for (Value v = value.first(); v; v = v.next_within(value)) {
    put(out, first ? " " : ", ");
    first = false;
    if (object) put_key(out, v);
    put_one_line(out, v);
  }
  if (!first) out.push_back(' ');
  out.push_back(object ? '}' : ']');
}

void lay_out(Buffer& out, const Value& value, std::size_t indent, std::size_t column) {
  const std::size_t start = out.size();
  put_one_line(out, value);
  const std::size_t width = report::width_of({out.data() + start, out.size() - start});
  if (!is_nested(value) || column + width < line_width) return;  // and room for a comma
  out.resize(start);
  const bool object = value.kind() == Kind::object;
  out.push_back(object ? '{' : '[');
  std::size_t line = 0;  // columns of the line that short values share; 0: there is none
  bool first = true;
  Buffer piece;
  for (Value v = value.first(); v; v = v.next_within(value)) {
    piece.clear();
    if (object) put_key(piece, v);
    const std::size_t key = report::width_of({piece.data(), piece.size()});
    if (is_nested(v)) {
      lay_out(piece, v, indent + step, indent + step + key);
      line = 0;
    } else {
      put_one_line(piece, v);
    }
    const std::size_t wide = report::width_of({piece.data(), piece.size()});
    const bool shares = line != 0 && line + 2 + wide < line_width;
    if (!first) out.push_back(',');
    first = false;
    if (shares)
      out.push_back(' ');
    else
      new_line(out, indent + step);
    line = is_nested(v) ? 0 : (shares ? line + 2 : indent + step) + wide;
    out.append(piece.data(), piece.data() + piece.size());
  }
  new_line(out, indent);
  out.push_back(object ? '}' : ']');
}

}  // namespace boxproof::draft
