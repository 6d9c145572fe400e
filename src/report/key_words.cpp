#include "src/report/key_words.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <stdexcept>
#include <utility>

#include "src/edition/embedded.hpp"

namespace boxproof::report {
namespace {

using read::Value;

class NoProblems : public read::Sink {
  void problem(std::uint32_t, std::string, std::string message) override { throw std::logic_error(message); }
};

read::Tree parsed(std::string_view text) {
  NoProblems sink;
  auto tree = read::parse_whole(text, sink);
  if (!tree) throw std::logic_error("a schema that is not JSON");
  return std::move(*tree);
}

// The beginning of a description, up to what limits the value, as words within a sentence: "rated current,
// A".
std::string within_sentence(std::string_view description) {
  std::size_t end = description.size();
  for (const std::string_view stop : {". ", ";", ":"}) end = std::min(end, description.find(stop));
  std::string words(description.substr(0, end));
  if (words.ends_with('.')) words.pop_back();
  const auto upper = [&](std::size_t at) {
    return at < words.size() && std::isupper(static_cast<unsigned char>(words[at])) != 0;
  };
  if (upper(0) && !upper(1)) words[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(words[0])));
  return words;
}

}  // namespace

KeyWords::KeyWords(bool of_record)
    : of_record_(of_record),
      tree_(parsed(embedded(of_record ? "schema/asbuilt.schema.json" : "schema/design.schema.json"))) {}

Value KeyWords::definition(std::string_view name) const {
  return Value(tree_, 0).find("$defs").find(name);
}

// What a schema says by naming another, or as the first of several.
Value KeyWords::resolved(Value schema) const {
  constexpr std::string_view here = "#/$defs/";
  while (schema && !schema.find("properties")) {
    if (const Value ref = schema.find("$ref"))
      schema = ref.text().starts_with(here) ? definition(ref.text().substr(here.size())) : Value();
    else if (const Value all = schema.find("allOf"))
      schema = all.first();
    else if (const Value any = schema.find("anyOf"))
      schema = any.first();
    else
      break;
  }
  return schema;
}

Value KeyWords::step(const Value& from, std::string_view token) const {
  const Value schema = resolved(from);
  if (!schema) return {};
  if (const Value properties = schema.find("properties"))
    if (const Value found = properties.find(token)) return found;
  if (const Value items = schema.find("items")) return items;
  const Value others = schema.find("additionalProperties");
  return others && others.kind() == read::Kind::object ? others : Value();
}

Value KeyWords::walk(Value schema, std::string_view path) const {
  while (schema && !path.empty()) {
    const auto end = path.find('/');
    schema = step(schema, path.substr(0, end));
    path = end == std::string_view::npos ? std::string_view() : path.substr(end + 1);
  }
  return schema;
}

std::string KeyWords::of(std::string_view key) const {
  return within_sentence(description(key));
}

std::string KeyWords::sentence(std::string_view key) const {
  const std::string_view whole = description(key);
  std::string out(whole.substr(0, whole.find(". ")));
  if (out.ends_with('.')) out.pop_back();
  return out;
}

std::string_view KeyWords::description(std::string_view key) const {
  constexpr std::string_view circuits = "circuits ", as_found = " as found/";
  constexpr std::array<std::string_view, 4> named{"site/", "modules/", "inverters/", "conductors/"};
  Value schema;
  if (of_record_) {
    schema = walk(definition("box"), key);
  } else if (std::any_of(named.begin(), named.end(), [&](auto top) { return key.starts_with(top); })) {
    schema = walk(Value(tree_, 0), key);
  } else if (key.starts_with(circuits)) {  // the circuit's id may itself hold strokes
    for (auto at = key.find('/'); !schema && at != std::string_view::npos; at = key.find('/', at + 1))
      schema = walk(definition("circuit"), key.substr(at + 1));
  } else if (const auto found = key.find(as_found); found != std::string_view::npos) {
    schema = walk(definition("conductor"), key.substr(found + as_found.size()));
  } else {
    schema = walk(definition("combiner"), key);
  }
  if (!schema) return {};
  if (const Value own = schema.find("description")) return own.text();
  const Value meant = resolved(schema);
  const Value words = meant ? meant.find("description") : Value();
  return words ? words.text() : std::string_view();
}

}  // namespace boxproof::report
