// How the groups of an edition's data are read.
#pragma once

#include <fmt/format.h>

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/conductor_size.hpp"
#include "src/read/object.hpp"

namespace boxproof::read {

inline constexpr Measure any_number = between(-no_end, no_end, "");

// A group of an edition's data. Every member asked for must be there unless it is asked for as optional.
class Group {
 public:
  Group(Field field, const Reading& reading) : field_(std::move(field)), reading_(reading) {
    if (field_ && !expect(field_.top(), Kind::object, reading_)) field_ = {};
  }

  explicit operator bool() const { return static_cast<bool>(field_); }
  const Field& field() const { return field_; }
  const Reading& reading() const { return reading_; }
  bool has(std::string_view key) const { return static_cast<bool>(present(key)); }
  Group group(std::string_view key) const { return {need(key), reading_}; }

  double number(std::string_view key) const {
    const Field f = need(key);
    return f ? to_number(f.top(), any_number, reading_).value_or(0) : 0;
  }
  int whole(std::string_view key, int least, int most) const {
    const Field f = need(key);
    const Measure measure{static_cast<double>(least), static_cast<double>(most), "", false, true};
    return f ? static_cast<int>(to_number(f.top(), measure, reading_).value_or(least)) : least;
  }
  std::optional<double> number_if(std::string_view key) const {
    const Field f = present(key);
    return f ? to_number(f.top(), any_number, reading_) : std::nullopt;
  }
  std::string text(std::string_view key) const { return text_of(need(key)); }
  std::string text_if(std::string_view key) const { return text_of(present(key)); }
  bool boolean(std::string_view key) const {
    const Field f = need(key);
    return f && expect(f.top(), Kind::boolean, reading_) && f.top().boolean();
  }
  bool boolean_if(std::string_view key) const { return has(key) && boolean(key); }
  std::size_t word(std::string_view key, std::span<const std::string_view> words) const {
    const Field f = need(key);
    return f ? to_word(f.top(), words, reading_).value_or(0) : 0;
  }
  Size size(std::string_view key) const { return Size(word(key, Size::names)); }
  std::vector<double> numbers(std::string_view key) const {
    std::vector<double> out;
    for (const Value& v : items(key)) out.push_back(to_number(v, any_number, reading_).value_or(0));
    return out;
  }
  // A factor: nothing multiplied by it may vanish or turn round.
  double factor(std::string_view key) const {
    const Field f = need(key);
    return f ? to_number(f.top(), positive(""), reading_).value_or(1) : 1;
  }
  std::optional<double> factor_if(std::string_view key) const {
    return has(key) ? std::optional(factor(key)) : std::nullopt;
  }
  std::vector<Value> items(std::string_view key) const {
    std::vector<Value> out;
    const Field f = need(key);
    if (!f || !expect(f.top(), Kind::array, reading_)) return out;
    for (Value v = f.top().first(); v; v = v.next_within(f.top())) out.push_back(v);
    return out;
  }

 private:
  Field present(std::string_view key) const {
    Field f = field_.find(key);
    return f && f.kind() == Kind::null ? Field() : f;
  }
  Field need(std::string_view key) const {
    Field f = present(key);
    if (!f && field_)
      reading_.problem(field_.top(), fmt::format("found no \"{}\", expected it: the edition needs it", key));
    return f;
  }
  std::string text_of(const Field& f) const {
    return f && to_text_value(f.top(), reading_) ? std::string(f.top().text()) : std::string();
  }

  Field field_;
  const Reading& reading_;
};

// Whether a group is known from memory, all of it or a part.
inline bool from_memory(const Group& g) {
  return g.text_if("source").find("memory") != std::string::npos;
}

// Values by conductor size.
template <class T>
void by_size(const Group& g, std::array<T, Size::count>& out) {
  for (std::string_view key : g.field().keys())
    if (const auto size = Size::parse(key)) out[size->index()] = g.number(key);
}

}  // namespace boxproof::read
