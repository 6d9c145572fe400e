// Strings and modules in series of a box as found.
#include <algorithm>
#include <numeric>

#include "src/check/as_built.hpp"

namespace boxproof {
namespace {

// Groups from the highest short-circuit current to the lowest; equals stay in the plan's order.
std::vector<std::size_t> by_current(const Combiner& plan) {
  std::vector<std::size_t> order(plan.circuits.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return plan.circuits[a].module->isc_for_circuits() > plan.circuits[b].module->isc_for_circuits();
  });
  return order;
}

void add(std::vector<SeriesShare>& shares, std::uint32_t series, std::uint32_t strings) {
  for (SeriesShare& share : shares)
    if (share.series == series) {
      share.strings += strings;
      return;
    }
  shares.push_back({series, strings});
}

// The strings that stand on so many inputs, more or fewer than planned.
std::uint32_t strings_on(const Combiner& plan, std::uint32_t inputs) {
  const std::uint64_t planned = planned_inputs(plan);
  std::uint64_t strings = planned_strings(plan);
  const std::vector<std::size_t> order = by_current(plan);
  if (inputs >= planned) {
    const std::uint32_t joined = order.empty() ? 1 : plan.circuits[order.front()].strings_per_fuse;
    return static_cast<std::uint32_t>(strings + (inputs - planned) * joined);
  }
  std::uint64_t lack = planned - inputs;
  for (const std::size_t group : order) {
    const Circuit& c = plan.circuits[group];
    const std::uint64_t taken = std::min<std::uint64_t>(lack, c.inputs());
    strings -= std::min<std::uint64_t>(taken * c.strings_per_fuse, c.strings);
    lack -= taken;
  }
  return static_cast<std::uint32_t>(strings);
}

// The series of the record's list that are judged, in its order: as many as there are strings, the longest.
std::vector<std::uint32_t> judged_list(const std::vector<std::uint32_t>& list, std::uint64_t strings) {
  if (list.size() <= strings) return list;
  std::vector<std::size_t> order(list.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return list[a] > list[b]; });
  order.resize(strings);
  std::sort(order.begin(), order.end());
  std::vector<std::uint32_t> out;
  for (const std::size_t i : order) out.push_back(list[i]);
  return out;
}

}  // namespace

std::uint64_t planned_strings(const Combiner& plan) {
  std::uint64_t sum = 0;
  for (const Circuit& c : plan.circuits) sum += c.strings;
  return sum;
}

std::uint64_t planned_inputs(const Combiner& plan) {
  std::uint64_t sum = 0;
  for (const Circuit& c : plan.circuits) sum += c.inputs();
  return sum;
}

std::optional<StringCount> counted_strings(const Combiner& plan, const VisitedBox& visited) {
  const std::uint64_t strings = planned_strings(plan), inputs = planned_inputs(plan);
  std::optional<StringCount> larger;
  const auto consider = [&](const std::optional<std::uint32_t>& count, std::string_view key) {
    if (!count) return;
    const auto away = [&](std::uint64_t planned) {
      return *count > planned ? *count - planned : planned - *count;
    };
    const bool as_inputs = inputs != strings && away(inputs) <= away(strings);
    const std::uint32_t meant = as_inputs ? strings_on(plan, *count) : *count;
    if (!larger || meant > larger->strings) larger = {meant, key, *count, as_inputs};
  };
  consider(visited.count.positive, "positive");
  consider(visited.count.negative, "negative");
  return larger;
}

std::size_t surplus_group(const Combiner& plan) {
  const std::vector<std::size_t> order = by_current(plan);
  return order.empty() ? 0 : order.front();
}

std::vector<std::uint32_t> strings_of_groups(const Combiner& plan, const VisitedBox& visited) {
  std::vector<std::uint32_t> out;
  for (const Circuit& c : plan.circuits) out.push_back(c.strings);
  const auto counted = counted_strings(plan, visited);
  if (!counted || out.empty()) return out;
  const std::uint64_t planned = planned_strings(plan);
  if (counted->strings >= planned) {
    out[surplus_group(plan)] += static_cast<std::uint32_t>(counted->strings - planned);
    return out;
  }
  std::uint64_t lack = planned - counted->strings;
  for (const std::size_t group : by_current(plan)) {
    const auto taken = static_cast<std::uint32_t>(std::min<std::uint64_t>(lack, out[group]));
    out[group] -= taken;
    lack -= taken;
  }
  return out;
}

std::vector<std::vector<SeriesShare>> series_of_groups(const Combiner& plan, const VisitedBox& visited) {
  const std::vector<std::uint32_t> strings = strings_of_groups(plan, visited);
  const Count& count = visited.count;
  const std::vector<std::uint32_t> list =
      count.series_of_each
          ? judged_list(count.series, std::accumulate(strings.begin(), strings.end(), std::uint64_t{0}))
          : std::vector<std::uint32_t>();
  std::vector<std::vector<SeriesShare>> out(plan.circuits.size());
  std::size_t next = 0;  // in the list of the record
  for (std::size_t i = 0; i < plan.circuits.size(); ++i) {
    const std::uint32_t planned = plan.circuits[i].series;
    if (!count.series_of_each) {
      out[i].push_back({count.series.empty() ? planned : count.series.front(), strings[i]});
      continue;
    }
    std::uint32_t left = strings[i];
    for (; left > 0 && next < list.size(); --left) add(out[i], list[next++], 1);
    if (left > 0 || out[i].empty()) add(out[i], planned, left);
  }
  return out;
}

}  // namespace boxproof
