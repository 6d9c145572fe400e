#include "src/read/entry_values.hpp"

#include <fmt/format.h>

#include <charconv>

#include "boxproof/rule.hpp"
#include "src/text/nearest.hpp"

namespace boxproof::read {

const Rule* to_rule(const Value& value, const Reading& reading, std::string_view hint) {
  const auto id = to_text_value(value, reading);
  if (!id) return nullptr;
  if (const Rule* found = find_rule(*id)) return found;
  std::vector<std::string_view> known;
  for (const Rule* r : all_rules()) known.push_back(r->id);
  reading.problem(value, fmt::format("found {}, expected the id of a rule{}; boxproof rules lists them{}",
                                     describe(value), text::did_you_mean(*id, known), hint));
  return nullptr;
}

std::string to_words(const Value& value, std::string_view what, const Reading& reading) {
  const auto found = to_text_value(value, reading);
  if (found && found->find_first_not_of(" \t\r\n") == std::string_view::npos)
    reading.problem(value, fmt::format("found an empty text, expected {}", what));
  return std::string(found.value_or(""));
}

std::vector<std::string> to_word_list(const Value& list, std::string_view what, std::string_view empty,
                                      const Reading& reading) {
  std::vector<std::string> out;
  if (!expect(list, Kind::array, reading)) return out;
  if (!list.first()) reading.problem(list, fmt::format("found an empty list, expected {}", empty));
  for (Value v = list.first(); v; v = v.next_within(list)) out.push_back(to_words(v, what, reading));
  return out;
}

std::optional<std::uint64_t> to_fingerprint(const Value& value, std::string_view why,
                                            const Reading& reading) {
  constexpr std::size_t digits = 16;
  const auto text = to_text_value(value, reading);
  if (!text) return std::nullopt;
  std::uint64_t out = 0;
  const auto parsed = std::from_chars(text->data(), text->data() + text->size(), out, 16);
  if (text->size() == digits && parsed.ec == std::errc() && parsed.ptr == text->data() + text->size())
    return out;
  reading.problem(value, fmt::format("found {}, expected 16 hexadecimal digits; {}", describe(value), why));
  return std::nullopt;
}

}  // namespace boxproof::read
