// Reading typed values out of JSON objects, with RFC 7396 merge patches seen through rather than applied.
//
// One mechanism serves all that is "a base and a patch": an edition on its base, a local amendment on the
// edition, a box on its type. A Field is a value with the values below it that it patches; looking up a key
// goes through them.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/date.hpp"
#include "src/read/problems.hpp"
#include "src/read/tree.hpp"

namespace boxproof::read {

class Field {
 public:
  Field() = default;
  explicit Field(Value value) { push(value); }
  Field(Value patch, const Field& base) {
    push(patch);
    for (std::uint8_t i = 0; i < base.count_; ++i) push(base.layers_[i]);
  }

  explicit operator bool() const { return count_ > 0; }
  const Value& top() const { return layers_[0]; }
  Kind kind() const { return layers_[0].kind(); }
  std::span<const Value> layers() const { return {layers_.data(), count_}; }

  // The member of the merged object: absent where no layer has it; of kind null where the topmost that has it
  // says so.
  Field find(std::string_view key) const;
  // Keys of the merged object, in the order of the lowest layer, then what patches add.
  std::vector<std::string_view> keys() const;

 private:
  void push(Value value) {
    if (value) layers_[count_++] = value;
  }
  std::array<Value, 3> layers_{};
  std::uint8_t count_ = 0;
};

// What a number may be: its range, its unit, and whether the least value itself is allowed.
struct Measure {
  double least, most;
  std::string_view unit;
  bool above_least = false;
  bool whole = false;
};
inline constexpr double no_end = 1e15;
inline constexpr Measure any_count{0, 1e9, "", false, true};
inline constexpr Measure count_from_1{1, 1e9, "", false, true};
constexpr Measure positive(std::string_view unit) {
  return {0, no_end, unit, true};
}
constexpr Measure not_negative(std::string_view unit) {
  return {0, no_end, unit};
}
constexpr Measure between(double least, double most, std::string_view unit) {
  return {least, most, unit};
}

// Where problems go while a file is read.
struct Reading {
  Problems& problems;
  const Tree* silent = nullptr;  // a tree whose own problems have been told already (the box types)
  const Tree* home = nullptr;    // the one tree that is the user's, where others lie below it (an amendment)
  void problem(const Value& at, std::string message) const;
};

// Reads the members of one object by name. Every name asked for is a known key; finish() reports the others.
class ObjectReader {
 public:
  // `null_removes`: a member that is null counts as absent (merge patches); otherwise null is a wrong value.
  ObjectReader(const Field& object, const Reading& reading, bool null_removes = false);

  bool ok() const { return is_object_; }

  Field take(std::string_view key);      // as it is; null counts as absent only with null_removes
  Field required(std::string_view key);  // a problem where it is absent

  std::optional<double> number(std::string_view key, const Measure& measure);
  std::optional<std::uint32_t> count(std::string_view key, const Measure& measure = any_count);
  std::optional<bool> boolean(std::string_view key);
  std::optional<std::string> text(std::string_view key);
  std::optional<std::string_view> text_view(std::string_view key);
  // Index of the text in `words`.
  std::optional<std::size_t> word(std::string_view key, std::span<const std::string_view> words);
  template <class T>
  std::optional<T> quantity(std::string_view key, const Measure& measure) {
    const std::optional<double> value = number(key, measure);
    return value ? std::optional<T>(T(*value)) : std::nullopt;
  }
  template <class E>
  std::optional<E> choice(std::string_view key, std::span<const std::string_view> words) {
    const std::optional<std::size_t> index = word(key, words);
    return index ? std::optional<E>(static_cast<E>(*index)) : std::nullopt;
  }

  void know(std::string_view key);  // allowed, read by nobody
  void finish();  // a problem for each key that nobody asked for, with the nearest known one

 private:
  Field object_;
  const Reading& reading_;
  bool null_removes_, is_object_ = false;
  std::array<std::string_view, 24> known_{};
  std::size_t known_count_ = 0;
};

// A value that must be a number within `measure`; a problem and nothing if it is not.
std::optional<double> to_number(const Value& value, const Measure& measure, const Reading& reading);
std::optional<std::string_view> to_text_value(const Value& value, const Reading& reading);
std::optional<std::size_t> to_word(const Value& value, std::span<const std::string_view> words,
                                   const Reading& reading);
bool expect(const Value& value, Kind kind, const Reading& reading);
// A document's "format", which must be this one; `what` names the kind of document for the message.
void check_format(const Value& value, std::string_view format, std::string_view what, const Reading& reading);
// A day of the calendar, YYYY-MM-DD.
std::optional<Date> to_date(const Value& value, const Reading& reading);
// The problem of a key that nobody knows, with the nearest known one.
void unknown_key(const Value& member, std::span<const std::string_view> known, const Reading& reading);

}  // namespace boxproof::read
