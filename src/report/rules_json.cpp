// The rules for programs (boxproof-rules/1): one rule a line, in the order of the rules page.
#include "src/report/json_text.hpp"
#include "src/report/rules.hpp"

namespace boxproof::report {
namespace {

void put_rule(Buffer& out, const Rule& rule, std::span<const Edition> editions) {
  put_text(out, R"(    {"id": )", rule.id);
  put_text(out, R"(, "severity": )", severity_names[static_cast<std::size_t>(rule.severity)]);
  put_text(out, R"(, "title": )", rule.title);
  put_text(out, R"(, "finds": )", rule.explain[0]);
  put_text(out, R"(, "why": )", rule.explain[1]);
  put_text(out, R"(, "computed": )", rule.explain[2]);
  put_text(out, R"(, "remedy": )", rule.remedy);
  put(out, R"(, "editions": {)");
  for (const Edition& e : editions) {
    if (&e != &editions.front()) put(out, ", ");
    put_text(out, e.name);
    const auto found = e.rules.find(rule.id);
    if (found == e.rules.end()) {
      put(out, ": null");
      continue;
    }
    put_text(out, R"(: {"section": )", found->second.section);
    put(out, found->second.unverified ? R"(, "unverified": true})" : R"(, "unverified": false})");
  }
  put(out, "}}");
}

}  // namespace

void write_rules_json(std::span<const Rule* const> rules, std::span<const Edition> editions,
                      const Write& write) {
  Buffer out;
  put(out, "{\n  \"format\": \"boxproof-rules/1\",\n  \"editions\": [\n");
  for (const Edition& e : editions) {
    put_text(out, R"(    {"edition": )", e.name);
    put_text(out, R"(, "title": )", e.title);
    put(out, &e == &editions.back() ? "}\n" : "},\n");
  }
  put(out, "  ],\n  \"rules\": [\n");
  for (const Rule* const& rule : rules) {
    put_rule(out, *rule, editions);
    put(out, &rule == &rules.back() ? "\n" : ",\n");
  }
  put_text(out, "  ],\n  \"caution\": ", caution());
  put(out, "\n}\n");
  write({out.data(), out.size()});
}

}  // namespace boxproof::report
