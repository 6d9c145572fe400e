#include "src/rules/measured_strings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <unordered_map>

#include "boxproof/measured.hpp"
#include "src/check/as_built.hpp"
#include "src/rules/tally_accounts.hpp"

namespace boxproof {
namespace {

bool one_module(const Combiner& plan) {
  return std::all_of(plan.circuits.begin(), plan.circuits.end(),
                     [&](const Circuit& g) { return g.module == plan.circuits.front().module; });
}

// Whether it matters which group a string is in. A count of modules in series speaks for itself.
bool groups_differ(const VisitCase& c) {
  return !one_module(c.plan) || (c.visited.count.series.empty() && planned_series(c.plan).size() > 1);
}

// Whether all strings of the box as found are alike.
bool one_kind(const VisitCase& c) {
  if (!one_module(c.plan)) return false;
  std::optional<std::uint32_t> series;
  for (const auto& shares : series_of_groups(c.plan, c.visited))
    for (const SeriesShare& share : shares) {
      if (share.strings == 0) continue;
      if (series && *series != share.series) return false;
      series = share.series;
    }
  return true;
}

std::vector<std::string> positions_of(const std::vector<const Reading*>& readings) {
  std::vector<std::uint32_t> numbers;
  for (const Reading* r : readings) numbers.push_back(r->position);
  std::sort(numbers.begin(), numbers.end());
  numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
  std::vector<std::string> out;
  for (const std::uint32_t n : numbers) out.push_back(std::to_string(n));
  return out;
}

// Tells which readings belong to no known string, in one query for each reason.
struct Strays {
  std::vector<const Reading*> unnumbered, doubled, beyond;

  void tell(const VisitCase& c, Notes& out, std::uint64_t strings) const {
    const auto query = [&](const std::vector<const Reading*>& strays, const std::string& because) {
      out.lacks_in_record(
          c.record_index, fmt::format("/measured/strings/{}", strays.front()->entry), because,
          "a string that is not known",
          strays.size() == 1 ? " of the string measured there" : " of the strings measured there");
    };
    const auto number = [](const std::vector<const Reading*>& strays) {
      const std::vector<std::string> words = positions_of(strays);
      return fmt::format("Position{} {}", words.size() == 1 ? "" : "s", listed(words));
    };
    if (!unnumbered.empty())
      query(unnumbered,
            fmt::format("{} of {} {} measured without a position, and the strings there are of several "
                        "kinds",
                        counted(unnumbered.size(), "string"), c.plan.id,
                        unnumbered.size() == 1 ? "was" : "were"));
    const auto are = [](const std::vector<const Reading*>& strays) {
      return positions_of(strays).size() == 1 ? "is" : "are";
    };
    if (!doubled.empty())
      query(doubled, fmt::format("{} of {} {} in the record more than once", number(doubled), c.plan.id,
                                 are(doubled)));
    if (!beyond.empty())
      query(beyond, fmt::format("{} of {} {} beyond its {}", number(beyond), c.plan.id, are(beyond),
                                counted(strings, "string")));
  }
};

// Puts group and modules in series to a reading. The list of counted modules runs through the strings as the
// positions do.
PlacedReading placed(const VisitCase& c, const Reading& reading, const std::vector<std::uint32_t>& strings) {
  PlacedReading out{reading};
  std::uint64_t left = reading.position;
  std::size_t group = 0;
  while (left > strings[group]) left -= strings[group++];
  out.group = &c.plan.circuits[group];
  const Count& count = c.visited.count;
  const std::size_t of_list = count.series_of_each ? reading.position - 1 : 0;
  out.counted = of_list < count.series.size();
  out.series = out.counted ? count.series[of_list] : out.group->series;
  return out;
}

}  // namespace

std::string Reading::part() const {
  return by_entry ? fmt::format("entry {}", entry + 1) : fmt::format("string {}", position);
}
std::string Reading::name() const {
  return by_entry ? fmt::format("Entry {} of the measurements", entry + 1)
                  : fmt::format("String {}", position);
}

std::vector<Reading> readings(const VisitCase& c, Has has) {
  std::vector<Reading> out;
  if (!c.visited.measured) return out;
  const std::vector<MeasuredString>& strings = c.visited.measured->strings;
  std::unordered_map<std::uint32_t, std::size_t> times;
  std::optional<bool> alike;  // asked for once, and only where a position is missing
  for (std::size_t i = 0; i < strings.size(); ++i) {
    if (!has(strings[i])) continue;
    Reading r{&strings[i], i, strings[i].position.value_or(static_cast<std::uint32_t>(i + 1)), false};
    if (!strings[i].position) {
      if (!alike) alike = one_kind(c);
      r.by_entry = !*alike;
    }
    if (!r.by_entry) ++times[r.position];
    out.push_back(r);
  }
  for (Reading& r : out)
    if (!r.by_entry && times[r.position] > 1) r.by_entry = true;
  return out;
}

std::vector<PlacedReading> placed_readings(const VisitCase& c, Notes& out, Has has) {
  std::vector<PlacedReading> known;
  const std::vector<Reading> all = readings(c, has);
  if (all.empty() || c.plan.circuits.empty()) return known;
  const std::vector<std::uint32_t> strings = strings_of_groups(c.plan, c.visited);
  const std::uint64_t there = std::accumulate(strings.begin(), strings.end(), std::uint64_t{0});
  if (there != planned_strings(c.plan) && groups_differ(c)) {
    out.lacks_in_record(
        c.record_index, "/measured/strings",
        fmt::format("The plan of {} has {} of several kinds and the inspector counted {}, so which "
                    "is at which position is not known",
                    c.plan.id, counted(planned_strings(c.plan), "string"), there),
        "another number of strings");
    return known;
  }
  Strays strays;
  const bool alike = one_kind(c);
  for (const Reading& r : all) {
    if (!r.string->position && !alike)
      strays.unnumbered.push_back(&r);
    else if (r.by_entry)
      strays.doubled.push_back(&r);
    else if (r.position > there)
      strays.beyond.push_back(&r);
    else
      known.push_back(placed(c, r, strings));
  }
  strays.tell(c, out, there);
  return known;
}

std::optional<double> fit_light(const VisitCase& c, Notes& out) {
  const std::optional<double>& light = c.visited.measured->irradiance_w_m2;
  if (light && fit_irradiance(*light, c.edition)) return light;
  if (!light) {
    out.lacks_in_record(c.record_index, "/measured/irradiance_w_m2");
    return std::nullopt;
  }
  const MeasuredRules& m = c.edition.measured;
  out.lacks_in_record(
      c.record_index, "/measured/irradiance_w_m2",
      fmt::format("{} was measured at {} W/m², outside {} to {} W/m²", c.plan.id,
                  shown(*light, *light < m.irradiance_min ? m.irradiance_min : m.irradiance_max),
                  shown(m.irradiance_min), shown(m.irradiance_max)),
      fmt::format("{} W/m²", shown(*light)));
  return std::nullopt;
}

std::string reading_pointer(const VisitCase& c, const Reading& reading, std::string_view key) {
  return record_pointer(c, fmt::format("/measured/strings/{}/{}", reading.entry, key));
}

std::vector<std::vector<PlacedReading>> lots_of(const std::vector<PlacedReading>& all,
                                                bool (*alike)(const PlacedReading&, const PlacedReading&)) {
  std::vector<std::vector<PlacedReading>> lots;
  for (const PlacedReading& r : all) {
    auto lot = std::find_if(lots.begin(), lots.end(), [&](const auto& l) { return alike(l.front(), r); });
    if (lot == lots.end()) lot = lots.insert(lots.end(), std::vector<PlacedReading>());
    lot->push_back(r);
  }
  return lots;
}

}  // namespace boxproof
