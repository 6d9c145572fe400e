#include "src/read/report_parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "src/read/entry_values.hpp"

namespace boxproof::read {
namespace {

// topic/name, in small letters, digits and hyphens.
bool is_rule_id(std::string_view id) {
  const auto fits = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; };
  const auto slash = id.find('/');
  if (slash == std::string_view::npos || slash == 0 || slash + 1 == id.size()) return false;
  const std::string_view topic = id.substr(0, slash), name = id.substr(slash + 1);
  return std::all_of(topic.begin(), topic.end(), fits) && std::all_of(name.begin(), name.end(), fits);
}

// The value of a required member; nothing where it is absent, which is told, or null.
Field present(ObjectReader& object, std::string_view key) {
  const Field field = object.required(key);
  return field && field.kind() != Kind::null ? field : Field();
}

template <std::size_t N>
void read_values(ObjectReader& object, const std::array<ValueName, N>& names, std::array<double, N>& out,
                 const Reading& reading) {
  for (std::size_t i = 0; i < N; ++i)
    out[i] = number_or_null(object, names[i].key, reading).value_or(std::numeric_limits<double>::quiet_NaN());
}

Amount amount(ObjectReader& object, std::string_view key, const Reading& reading) {
  const Field field = present(object, key);
  if (!field) return {};
  const Value& v = field.top();
  if (v.kind() == Kind::number) return v.number();
  if (v.kind() == Kind::text) return std::string(v.text());
  reading.problem(v, fmt::format("found {}, expected a number, text in quotes or null", describe(v)));
  return {};
}

template <class E, std::size_t N>
std::optional<E> word(const Field& field, const std::array<std::string_view, N>& words,
                      const Reading& reading) {
  if (!field) return std::nullopt;
  const auto index = to_word(field.top(), words, reading);
  return index ? std::optional<E>(static_cast<E>(*index)) : std::nullopt;
}

void read_circuit(const Value& value, ReportedBox& box, const Reading& reading) {
  ObjectReader r(Field(value), reading);
  if (!r.ok()) return;
  ReportedBox::Circuit& c = box.circuits.emplace_back();
  c.id = text_or_null(r, "id", reading);
  if (const Field needed = present(r, "fuse_needed"); needed && expect(needed.top(), Kind::boolean, reading))
    c.fuse_needed = needed.top().boolean();
  read_values(r, circuit_values, c.values, reading);
}

void read_calc(const Field& calc, ReportedBox& box, const Reading& reading) {
  ObjectReader r(calc, reading);
  if (!r.ok()) return;
  read_values(r, box_values, box.values, reading);
  if (const Field circuits = r.required("circuits"); circuits && expect(circuits.top(), Kind::array, reading))
    for (Value v = circuits.top().first(); v; v = v.next_within(circuits.top()))
      read_circuit(v, box, reading);
  if (const Field output = r.required("output")) {
    ObjectReader o(output, reading);
    if (!o.ok()) return;
    read_values(o, output_values, box.output, reading);
    box.suggested_size = text_or_null(o, "suggested_size", reading);
  }
}

}  // namespace

std::string text_or_null(ObjectReader& object, std::string_view key, const Reading& reading) {
  const Field field = present(object, key);
  return field ? std::string(to_text_value(field.top(), reading).value_or("")) : std::string();
}

std::optional<double> number_or_null(ObjectReader& object, std::string_view key, const Reading& reading) {
  const Field field = present(object, key);
  if (!field || !expect(field.top(), Kind::number, reading)) return std::nullopt;
  return field.top().number();
}

const Rule* RuleNames::rule(const Value& value, const Reading& reading) {
  const auto id = to_text_value(value, reading);
  if (!id) return nullptr;
  if (const Rule* own = find_rule(*id)) return own;
  if (!is_rule_id(*id)) {
    reading.problem(
        value, fmt::format("found {}, expected the id of a rule, such as \"fuse/not-dc\"", describe(value)));
    return nullptr;
  }
  const std::lock_guard lock(mutex_);
  const auto [at, fresh] = strange_.try_emplace(std::string(*id));
  if (fresh) {
    at->second.id = at->first;
    at->second.title = "A rule that this program does not have";
  }
  return &at->second;
}

ReportedBox read_reported_box(const Value& value, bool visits, const Reading& reading) {
  ReportedBox box;
  ObjectReader r(Field(value), reading);
  if (!r.ok()) return box;
  if (const Field id = r.required("id"); id && to_text_value(id.top(), reading)) box.id = id.top().text();
  box.verdict = word<Verdict>(r.required("verdict"), verdict_names, reading).value_or(Verdict::accept);
  if (const Field calc = r.required("calc")) read_calc(calc, box, reading);
  if (!visits) return box;
  box.disposition = word<Disposition>(present(r, "disposition"), disposition_names, reading);
  const Field keys = r.required("looked_at");
  if (!keys || !expect(keys.top(), Kind::array, reading)) return box;
  for (Value v = keys.top().first(); v; v = v.next_within(keys.top()))
    if (const auto key = to_text_value(v, reading)) {
      if (box.looked_at.empty()) box.looked_at = "\n";
      (box.looked_at += *key) += '\n';
    }
  return box;
}

ReportedFinding read_reported_finding(const Value& value, RuleNames& rules, const Reading& reading) {
  ReportedFinding out;
  Finding& f = out.finding;
  ObjectReader r(Field(value), reading);
  if (!r.ok()) return out;
  if (const Field rule = r.required("rule")) f.rule = rules.rule(rule.top(), reading);
  f.severity = word<Severity>(r.required("severity"), severity_names, reading).value_or(Severity::hazard);
  f.basis = word<Basis>(r.required("basis"), basis_names, reading).value_or(Basis::design);
  f.box_id = text_or_null(r, "box", reading);
  f.part = text_or_null(r, "part", reading);
  f.message = text_or_null(r, "message", reading);
  f.found = amount(r, "found", reading);
  f.required = amount(r, "required", reading);
  f.unit = text_or_null(r, "unit", reading);
  f.section = text_or_null(r, "section", reading);
  f.disposition = word<Disposition>(present(r, "disposition"), disposition_names, reading);
  f.place.file = text_or_null(r, "file", reading);
  f.place.pointer = text_or_null(r, "pointer", reading);
  constexpr double most = 4294967295;  // lines and columns have four bytes
  const auto place = [&](std::string_view key) {
    const Field n = present(r, key);
    const auto number = n ? to_number(n.top(), {0, most, "", false, true}, reading) : std::nullopt;
    return static_cast<std::uint32_t>(number.value_or(0));
  };
  f.place.line = place("line");
  f.place.column = place("column");
  if (const Field print = r.required("fingerprint"))
    out.fingerprint =
        to_fingerprint(print.top(),
                       "reports are matched by them, so they must be as boxproof check wrote them", reading)
            .value_or(0);
  out.exception = r.count("exception");
  const Field waiting = r.take("cannot_judge");
  if (!waiting || !expect(waiting.top(), Kind::array, reading)) return out;
  f.lacking = true;
  for (Value v = waiting.top().first(); v; v = v.next_within(waiting.top()))
    if (const Rule* rule = rules.rule(v, reading); rule != nullptr && rule != f.rule) f.also.push_back(rule);
  return out;
}

ReportedException read_reported_exception(const Value& value, const Reading& reading) {
  ReportedException out;
  ObjectReader r(Field(value), reading);
  if (!r.ok()) return out;
  out.reason = text_or_null(r, "reason", reading);
  out.agreed_by = text_or_null(r, "agreed_by", reading);
  out.expires = text_or_null(r, "expires", reading);
  return out;
}

}  // namespace boxproof::read
