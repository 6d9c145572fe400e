#include "src/report/margin_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include "boxproof/calculate.hpp"

namespace boxproof::report {
namespace {

struct Named {
  std::string_view brief;
  LimitKind kind;
};
constexpr Named kinds[] = {{"site limit", LimitKind::voltage},       {"module voltage", LimitKind::voltage},
                           {"inverter voltage", LimitKind::voltage}, {"fuse voltage", LimitKind::voltage},
                           {"switch voltage", LimitKind::voltage},   {"box voltage", LimitKind::voltage},
                           {"wire voltage", LimitKind::voltage},     {"box current", LimitKind::current},
                           {"switch current", LimitKind::current},   {"fuse", LimitKind::current},
                           {"string wire", LimitKind::ampacity},     {"output wire", LimitKind::ampacity}};

bool rated(const Run* run) {
  return run != nullptr && run->conductor != nullptr && run->conductor->rated;
}

// Whether a voltage of the box, or what it is held against, is not stated.
bool voltages_incomplete(const BoxFacts& f) {
  const Combiner& box = *f.box;
  const bool circuits = std::any_of(box.circuits.begin(), box.circuits.end(), [](const Circuit& c) {
    return !c.module->max_system || !rated(c.run ? &*c.run : nullptr);
  });
  return circuits || !f.every_voltage_known || !box.inverter->max_dc || (box.fuse && !box.fuse->voltage) ||
         (box.disconnect && !box.disconnect->rated_voltage) || !box.enclosure ||
         !box.enclosure->rated_voltage || !rated(box.output && box.output->run ? &*box.output->run : nullptr);
}

bool currents_incomplete(const BoxFacts& f) {
  const Combiner& box = *f.box;
  return !box.enclosure || !box.enclosure->rated_current || (box.fuse && !box.fuse->rating) ||
         (box.disconnect && !box.disconnect->rated_current);
}

bool ampacities_incomplete(const BoxFacts& f) {
  const auto open = [](const RunAmpacity& a) { return a.lack != Lack::nothing || !a.in_use || !a.terminal; };
  return open(f.output_run) || std::any_of(f.circuits.begin(), f.circuits.end(),
                                           [&](const CircuitFacts& c) { return open(c.run); });
}

std::int32_t tenths_of(double share) {
  constexpr double tenths_of_percent = 1000;
  return static_cast<std::int32_t>(std::clamp(std::round(tenths_of_percent * share), 0.0,
                                              double(std::numeric_limits<std::int32_t>::max())));
}

}  // namespace

LimitKind kind_of_margin(const Margin& margin) {
  for (const Named& named : kinds)
    if (named.brief == margin.brief) return named.kind;
  return margin.unit == "V" ? LimitKind::voltage : LimitKind::current;
}

std::string UsedShare::words() const {
  constexpr std::int32_t ten = 10;
  return tenths < 0 ? "?" : fmt::format("{}.{} %", tenths / ten, tenths % ten);
}

UsedShares used_shares(const Design& design, const BoxFacts& facts, const Edition& edition) {
  UsedShares out;
  std::array<double, limit_kind_names.size()> most{};
  for (const Margin& m : margins(design, facts, edition)) {
    const auto kind = static_cast<std::size_t>(kind_of_margin(m));
    const double used = m.value / m.limit;
    if (out[kind].tenths >= 0 && used <= most[kind]) continue;
    most[kind] = used;
    out[kind] = {tenths_of(used), m.brief, exceeds(m.value, m.limit), false};
  }
  out[0].incomplete = voltages_incomplete(facts);
  out[1].incomplete = currents_incomplete(facts);
  out[2].incomplete = ampacities_incomplete(facts);
  return out;
}

std::int32_t most_used(const UsedShares& shares) {
  return std::max({shares[0].tenths, shares[1].tenths, shares[2].tenths});
}

std::vector<BoxShares> box_shares(const ReportInput& r) {
  std::vector<BoxShares> out;
  out.reserve(r.judgement.boxes.size());
  BoxFacts facts;
  FoundBox own;
  for (const BoxResult& box : r.judgement.boxes) {
    facts_of(r.design, r.edition, r.record, box, own, facts);
    out.push_back({used_shares(r.design.design, facts, r.edition), box.index});
  }
  const auto key = [](const UsedShare& s) { return std::tie(s.tenths, s.limit, s.over, s.incomplete); };
  std::sort(out.begin(), out.end(), [&](const BoxShares& a, const BoxShares& b) {
    const std::int32_t most_a = most_used(a.shares), most_b = most_used(b.shares);
    if (most_a != most_b) return most_a > most_b;
    for (std::size_t i = 0; i < a.shares.size(); ++i)
      if (a.shares[i] != b.shares[i]) return key(a.shares[i]) > key(b.shares[i]);
    return a.box < b.box;
  });
  return out;
}

}  // namespace boxproof::report
