#include "src/read/list_span.hpp"

#include <array>

#include "src/read/tree.hpp"

namespace boxproof::read {
namespace {

enum class Class : std::uint8_t { other, space, quote, open, close, comma };

constexpr std::array<Class, 256> classes = [] {
  std::array<Class, 256> out{};
  for (const char c : {' ', '\t', '\n', '\r'}) out[static_cast<unsigned char>(c)] = Class::space;
  out['"'] = Class::quote;
  out['['] = out['{'] = Class::open;
  out[']'] = out['}'] = Class::close;
  out[','] = Class::comma;
  return out;
}();

Class class_of(char c) {
  return classes[static_cast<unsigned char>(c)];
}

// Behind the closing quote of the string that starts at `at`; the end of the text where it does not close.
const char* behind_string(const char* at, const char* end) {
  for (++at; at < end && *at != '"'; ++at)
    if (*at == '\\') ++at;
  return at < end ? at + 1 : end;
}

const char* behind_space(const char* at, const char* end) {
  while (at < end && class_of(*at) == Class::space) ++at;
  return at;
}

// The text of the string that starts at `at`; empty where it is none.
std::string decoded(std::string_view source, const char* at) {
  const Tree tree = parse_value(source, static_cast<std::uint32_t>(at - source.data()));
  return tree.nodes.empty() ? std::string() : std::string(Value(tree, 0).text());
}

// Notes the elements of the list whose bracket stands at `at`; true if it closes.
bool scan_list(const char* begin, const char* at, const char* end, ListSpan& span) {
  const auto offset = [begin](const char* p) { return static_cast<std::uint32_t>(p - begin); };
  span.open = offset(at);
  at = behind_space(at + 1, end);
  if (at < end && *at != ']') span.elements.push_back(offset(at));
  for (int depth = 0; at < end; ++at) {
    switch (class_of(*at)) {
      case Class::quote: at = behind_string(at, end) - 1; break;
      case Class::open: ++depth; break;
      case Class::close:
        if (--depth < 0) {
          span.close = offset(at);
          return *at == ']';
        }
        break;
      case Class::comma:
        if (depth == 0) {
          at = behind_space(at + 1, end);
          span.elements.push_back(offset(at));
          --at;  // the loop steps onto the element
        }
        break;
      case Class::space:
      case Class::other: break;
    }
  }
  return false;
}

// Calls look(quote, text, value) for each member of the top object that the brackets and quotes tell of:
// where its key stands, the key as it is written, and where its value begins. Ends where look() says so.
template <class Look>
void each_member(std::string_view source, Look&& look) {
  const char* const begin = source.data();
  const char* const end = begin + source.size();
  int depth = 0;
  for (const char* at = begin; at < end; ++at) {
    switch (class_of(*at)) {
      case Class::quote: {
        const char* const behind = behind_string(at, end);
        if (depth == 1) {
          const std::string_view text(at + 1,
                                      static_cast<std::size_t>(behind - at) - (behind > at + 1 ? 2 : 1));
          const char* const colon = behind_space(behind, end);
          if (colon < end && *colon == ':' && look(at, text, behind_space(colon + 1, end))) return;
        }
        at = behind - 1;
        break;
      }
      case Class::open: ++depth; break;
      case Class::close: --depth; break;
      default: break;
    }
  }
}

bool is_key(std::string_view source, const char* quote, std::string_view text, std::string_view key) {
  return text == key || (text.find('\\') != std::string_view::npos && decoded(source, quote) == key);
}

}  // namespace

ListSpan find_list(std::string_view source, std::string_view key) {
  ListSpan span;
  const char* const begin = source.data();
  const char* const end = begin + source.size();
  each_member(source, [&](const char* quote, std::string_view text, const char* value) {
    if (!is_key(source, quote, text, key) || value == end || *value != '[') return false;
    span.found = scan_list(begin, value, end, span);
    return true;
  });
  return span;
}

bool any_member(std::string_view source, std::string_view key,
                const std::function<bool(std::uint32_t)>& is_it) {
  bool found = false;
  each_member(source, [&](const char* quote, std::string_view text, const char* value) {
    found = is_key(source, quote, text, key) && is_it(static_cast<std::uint32_t>(value - source.data()));
    return found;
  });
  return found;
}

}  // namespace boxproof::read
