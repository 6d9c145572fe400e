#include "src/read/object.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "boxproof/quantity.hpp"
#include "src/text/nearest.hpp"

namespace boxproof::read {
namespace {

std::string_view kind_words(Kind kind) {
  switch (kind) {
    case Kind::null: return "null";
    case Kind::boolean: return "true or false";
    case Kind::number: return "a number";
    case Kind::text: return "text in quotes";
    case Kind::array: return "a list […]";
    case Kind::object: return "an object {…}";
  }
  return {};
}

std::string expected_number(const Measure& m, double value) {
  std::string what = m.whole ? "a whole number" : "a number";
  if (!m.unit.empty()) what += fmt::format(" of {}", m.unit);
  if (m.most >= 1e9 && value < m.most)
    return what + (m.above_least ? fmt::format(" above {:.10g}", m.least)
                                 : fmt::format(" of at least {:.10g}", m.least));
  return what + fmt::format(" {} {:.10g} to {:.10g}", m.above_least ? "above" : "from", m.least, m.most);
}

}  // namespace

void Reading::problem(const Value& at, std::string message) const {
  if (at.tree() == silent) return;
  if (home == nullptr || at.tree() == home)
    return problems.add(at.offset(), pointer_of(at), std::move(message));
  // What is wrong stands in our data, because of something near it in the user's.
  const std::string there = pointer_of(at);
  const Value near = follow(Value(*home, 0), there);
  problems.add(near.offset(), pointer_of(near),
               fmt::format("{} (at {} of the amended edition)", message, there));
}

Field Field::find(std::string_view key) const {
  Field out;
  for (const Value& layer : layers()) {
    const Value v = layer.find(key);
    if (!v) continue;
    if (v.kind() == Kind::object) {
      out.push(v);
      continue;
    }
    if (!out) out.push(v);  // a scalar, a list or null hides what is below it
    break;
  }
  return out;
}

std::vector<std::string_view> Field::keys() const {
  std::vector<std::string_view> out;
  for (std::size_t i = count_; i-- > 0;)
    for (Value v = layers_[i].first(); v; v = v.next_within(layers_[i])) {
      if (std::find(out.begin(), out.end(), v.key()) == out.end()) out.push_back(v.key());
    }
  std::erase_if(out, [&](std::string_view key) { return find(key).kind() == Kind::null; });
  return out;
}

bool expect(const Value& value, Kind kind, const Reading& reading) {
  if (value.kind() == kind) return true;
  std::string hint;
  if (kind == Kind::number && value.kind() == Kind::text) hint = "; write numbers without quotes and units";
  if (kind == Kind::boolean && value.kind() == Kind::text) hint = "; write true or false without quotes";
  if (value.kind() == Kind::null) hint = "; leave the key out where the value is not known";
  reading.problem(value, fmt::format("found {}, expected {}{}", describe(value), kind_words(kind), hint));
  return false;
}

std::optional<double> to_number(const Value& value, const Measure& m, const Reading& reading) {
  if (!expect(value, Kind::number, reading)) return std::nullopt;
  const double n = value.number();
  const bool fits = !exceeds(n, m.most) && (m.above_least ? n > m.least : !exceeds(m.least, n)) &&
                    (!m.whole || n == std::floor(n));
  if (fits) return n;
  const std::string_view hint = m.whole ? "check the count" : "check the unit and the decimal point";
  reading.problem(value,
                  fmt::format("found {}, expected {}; {}", describe(value), expected_number(m, n), hint));
  return std::nullopt;
}

std::optional<std::string_view> to_text_value(const Value& value, const Reading& reading) {
  if (!expect(value, Kind::text, reading)) return std::nullopt;
  return value.text();
}

std::optional<std::size_t> to_word(const Value& value, std::span<const std::string_view> words,
                                   const Reading& reading) {
  if (!expect(value, Kind::text, reading)) return std::nullopt;
  const auto found = std::find(words.begin(), words.end(), value.text());
  if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
  reading.problem(value, fmt::format("found {}, expected one of \"{}\"{}", describe(value),
                                     fmt::join(words, "\", \""), text::did_you_mean(value.text(), words)));
  return std::nullopt;
}

ObjectReader::ObjectReader(const Field& object, const Reading& reading, bool null_removes)
    : object_(object), reading_(reading), null_removes_(null_removes) {
  is_object_ = object && expect(object.top(), Kind::object, reading);
}

void ObjectReader::know(std::string_view key) {
  known_[known_count_++] = key;
}

Field ObjectReader::take(std::string_view key) {
  know(key);
  Field found = object_.find(key);
  if (found && found.kind() == Kind::null && null_removes_) return {};
  return found;
}

Field ObjectReader::required(std::string_view key) {
  Field found = take(key);
  if (!found)
    reading_.problem(object_.top(), fmt::format("found no \"{}\", expected it here; it is required", key));
  return found;
}

std::optional<double> ObjectReader::number(std::string_view key, const Measure& measure) {
  const Field found = take(key);
  return found ? to_number(found.top(), measure, reading_) : std::nullopt;
}

std::optional<std::uint32_t> ObjectReader::count(std::string_view key, const Measure& measure) {
  const std::optional<double> value = number(key, measure);
  return value ? std::optional<std::uint32_t>(static_cast<std::uint32_t>(*value)) : std::nullopt;
}

std::optional<bool> ObjectReader::boolean(std::string_view key) {
  const Field found = take(key);
  if (!found || !expect(found.top(), Kind::boolean, reading_)) return std::nullopt;
  return found.top().boolean();
}

std::optional<std::string_view> ObjectReader::text_view(std::string_view key) {
  const Field found = take(key);
  return found ? to_text_value(found.top(), reading_) : std::nullopt;
}

std::optional<std::string> ObjectReader::text(std::string_view key) {
  const std::optional<std::string_view> view = text_view(key);
  return view ? std::optional<std::string>(std::string(*view)) : std::nullopt;
}

std::optional<std::size_t> ObjectReader::word(std::string_view key, std::span<const std::string_view> words) {
  const Field found = take(key);
  return found ? to_word(found.top(), words, reading_) : std::nullopt;
}

void check_format(const Value& value, std::string_view format, std::string_view what,
                  const Reading& reading) {
  if (to_text_value(value, reading) && value.text() != format)
    reading.problem(value,
                    fmt::format("found {}, expected \"{}\"; is this a {}?", describe(value), format, what));
}

std::optional<Date> to_date(const Value& value, const Reading& reading) {
  const auto found = to_text_value(value, reading);
  if (!found) return std::nullopt;
  const std::optional<Date> date = parse_date(*found);
  if (!date)
    reading.problem(value, fmt::format("found {}, expected {}", describe(value), expected_date(*found)));
  return date;
}

void unknown_key(const Value& member, std::span<const std::string_view> known, const Reading& reading) {
  reading.problems.add(
      member.key_offset(), pointer_of(member),
      fmt::format("found the key \"{}\", which is not known here{}; known keys are {}", member.key(),
                  text::did_you_mean(member.key(), known), fmt::join(known, ", ")));
}

void ObjectReader::finish() {
  if (!is_object_ || object_.top().tree() == reading_.silent) return;
  const std::span<const std::string_view> known(known_.data(), known_count_);
  const Value& top = object_.top();
  for (Value v = top.first(); v; v = v.next_within(top))
    if (v.key() != "note" && std::find(known.begin(), known.end(), v.key()) == known.end())
      unknown_key(v, known, reading_);
}

}  // namespace boxproof::read
