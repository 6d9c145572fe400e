// What differs between two reports of one box.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "boxproof/quantity.hpp"
#include "src/check/compare_parts.hpp"

namespace boxproof {
namespace {

Amount amount(double value) {
  return std::isnan(value) ? Amount() : Amount(value);
}
Amount amount(const std::string& text) {
  return text.empty() ? Amount() : Amount(text);
}

// But for the last digits of the arithmetic, which another version may do in another order.
bool differ(double a, double b) {
  if (std::isnan(a) || std::isnan(b)) return std::isnan(a) != std::isnan(b);
  return exceeds(a, b) || exceeds(b, a);
}

template <std::size_t N>
void add(std::vector<ValueChange>& out, const std::string& where, const std::array<ValueName, N>& names,
         const std::array<double, N>& before, const std::array<double, N>& after) {
  for (std::size_t i = 0; i < N; ++i)
    if (differ(before[i], after[i])) out.push_back({where, &names[i], amount(before[i]), amount(after[i])});
}

std::string needed(const ReportedBox::Circuit* circuit) {
  if (circuit == nullptr || !circuit->fuse_needed) return {};
  return *circuit->fuse_needed ? "needed" : "not needed";
}

std::string word(const std::optional<Disposition>& disposition) {
  return disposition ? std::string(disposition_names[static_cast<std::size_t>(*disposition)]) : std::string();
}

// The circuit of the same id; where neither has one, the one in the same place.
const ReportedBox::Circuit* same_circuit(const ReportedBox& box, const ReportedBox::Circuit& like,
                                         std::size_t place) {
  if (like.id.empty())
    return place < box.circuits.size() && box.circuits[place].id.empty() ? &box.circuits[place] : nullptr;
  const auto found =
      std::find_if(box.circuits.begin(), box.circuits.end(), [&](auto& c) { return c.id == like.id; });
  return found == box.circuits.end() ? nullptr : &*found;
}

constexpr ValueName circuit_value{"circuit", "circuit", ""};

}  // namespace

std::vector<ValueChange> value_changes(const ReportedBox& before, const ReportedBox& after) {
  std::vector<ValueChange> out;
  add(out, "", box_values, before.values, after.values);
  const auto text = [&](const std::string& where, const ValueName& name, const std::string& one,
                        const std::string& two) {
    if (one != two) out.push_back({where, &name, amount(one), amount(two)});
  };
  const auto where_of = [](const ReportedBox::Circuit& c, std::size_t place) {
    return "circuit " + (c.id.empty() ? fmt::format("{}", place + 1) : c.id);
  };
  for (std::size_t i = 0; i < after.circuits.size(); ++i) {
    const ReportedBox::Circuit& circuit = after.circuits[i];
    const std::string where = where_of(circuit, i);
    const ReportedBox::Circuit* earlier = same_circuit(before, circuit, i);
    if (earlier == nullptr) {
      text(where, circuit_value, "", "there");
      continue;
    }
    add(out, where, circuit_values, earlier->values, circuit.values);
    text(where, fuse_needed_value, needed(earlier), needed(&circuit));
  }
  for (std::size_t i = 0; i < before.circuits.size(); ++i)
    if (same_circuit(after, before.circuits[i], i) == nullptr)
      text(where_of(before.circuits[i], i), circuit_value, "there", "");
  add(out, "output", output_values, before.output, after.output);
  text("output", suggested_size_value, before.suggested_size, after.suggested_size);
  text("", disposition_value, word(before.disposition), word(after.disposition));
  return out;
}

}  // namespace boxproof
