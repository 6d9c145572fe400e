#include "src/report/margin_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include "boxproof/calculate.hpp"
#include "boxproof/rule.hpp"
#include "src/check/open_limits.hpp"

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

std::int32_t tenths_of(double share) {
  constexpr double tenths_of_percent = 1000;
  return static_cast<std::int32_t>(std::clamp(std::round(tenths_of_percent * share), 0.0,
                                              double(std::numeric_limits<std::int32_t>::max())));
}

// The rules that a bar tells of, where it is over its limit or has a question mark.
struct ToldLimit {
  std::string_view rule;
  LimitKind kind;
};
constexpr ToldLimit told[] = {{"voltage/site-limit", LimitKind::voltage},
                              {"voltage/module-rating", LimitKind::voltage},
                              {"voltage/inverter-input", LimitKind::voltage},
                              {"voltage/equipment-rating", LimitKind::voltage},
                              {"current/box-rating", LimitKind::current},
                              {"disconnect/current-rating", LimitKind::current},
                              {"fuse/too-small", LimitKind::current},
                              {"conductor/before-conditions", LimitKind::ampacity},
                              {"conductor/after-conditions", LimitKind::ampacity}};

bool is_told(const Rule& rule, const UsedShares& shares, bool lacking) {
  return std::any_of(std::begin(told), std::end(told), [&](const ToldLimit& t) {
    const UsedShare& share = shares[static_cast<std::size_t>(t.kind)];
    return t.rule == rule.id && (lacking ? share.incomplete : share.over);
  });
}

bool is_told(const Finding& f, const UsedShares& shares) {
  return is_told(*f.rule, shares, f.lacking) &&
         std::all_of(f.also.begin(), f.also.end(),
                     [&](const Rule* rule) { return is_told(*rule, shares, f.lacking); });
}

std::vector<std::size_t> besides(const PageIndex& page, std::uint32_t box, const UsedShares& shares) {
  std::vector<std::size_t> out;
  for (const Finding& f : page.findings_of(box)) {
    if (f.severity == Severity::advice || is_told(f, shares)) continue;
    if (f.rule->id == "tally/not-visited") continue;  // the verdict's own word
    const std::size_t entry = page.entry_of(f);
    if (std::find(out.begin(), out.end(), entry) == out.end()) out.push_back(entry);
  }
  return out;
}

bool any_open(const UsedShares& shares) {
  return std::any_of(shares.begin(), shares.end(), [](const UsedShare& s) { return s.incomplete; });
}

// Of what is worst, the least: an accepted box of which something is not stated is no calmer than a query.
int rank_of(const BoxShares& b) {
  switch (b.verdict) {
    case Verdict::stop: return 0;
    case Verdict::correct: return 1;
    case Verdict::clarify:
    case Verdict::not_visited: return 2;
    case Verdict::accept: return any_open(b.shares) ? 2 : 3;
  }
  return 0;
}

// What is not stated counts as a limit that is reached.
std::int32_t used_for_order(const UsedShares& shares) {
  return any_open(shares) ? std::max(limit_tenths, most_used(shares)) : most_used(shares);
}

bool comes_before(const BoxShares& a, const BoxShares& b) {
  const auto order = [](const BoxShares& s) {
    return std::tuple(rank_of(s), -used_for_order(s.shares), -most_used(s.shares));
  };
  const auto order_a = order(a), order_b = order(b);
  if (order_a != order_b) return order_a < order_b;
  const auto key = [](const UsedShare& s) { return std::tie(s.tenths, s.limit, s.over, s.incomplete); };
  for (std::size_t i = 0; i < a.shares.size(); ++i)
    if (a.shares[i] != b.shares[i]) return key(a.shares[i]) > key(b.shares[i]);
  return std::tie(b.verdict, a.besides, a.box) < std::tie(a.verdict, b.besides, b.box);
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
  const OpenLimits open = open_limits(facts);
  out[0].incomplete = open.voltage;
  out[1].incomplete = open.current;
  out[2].incomplete = open.ampacity;
  return out;
}

std::int32_t most_used(const UsedShares& shares) {
  return std::max({shares[0].tenths, shares[1].tenths, shares[2].tenths});
}

std::vector<BoxShares> box_shares(const PageIndex& page) {
  const ReportInput& r = page.r;
  std::vector<BoxShares> out;
  out.reserve(r.judgement.boxes.size());
  BoxFacts facts;
  FoundBox own;
  for (const BoxResult& box : r.judgement.boxes) {
    facts_of(r.design, r.edition, r.record, box, own, facts);
    BoxShares& row = out.emplace_back(
        BoxShares{used_shares(r.design.design, facts, r.edition), box.verdict, {}, box.index});
    row.besides = besides(page, box.index, row.shares);
  }
  std::sort(out.begin(), out.end(), comes_before);
  return out;
}

}  // namespace boxproof::report
