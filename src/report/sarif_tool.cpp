// The program and its rules in SARIF.
#include <algorithm>
#include <vector>

#include "boxproof/rule.hpp"
#include "src/report/rules.hpp"
#include "src/report/sarif.hpp"

namespace boxproof::report {
namespace {

// "FuseOverModuleLimit"
std::string camel_case(std::string_view id) {
  std::string out;
  bool head = true;
  for (const char c : id) {
    const bool between = c == '/' || c == '-';
    if (!between) out += head && c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    head = between;
  }
  return out;
}

// In the words of code hosts.
std::string_view problem_severity(Severity severity) {
  switch (severity) {
    case Severity::hazard:
    case Severity::correction: return "error";
    case Severity::query: return "warning";
    case Severity::advice: return "recommendation";
  }
  return "error";
}

void text_member(Buffer& out, std::string_view name, std::string_view text) {
  put(out, fmt::format(R"(, "{}": {{"text": )", name));
  put_text(out, text);
  put(out, "}");
}

void put_sarif_rule(Buffer& out, const Rule& rule, std::span<const Edition> editions) {
  put(out, R"(      {"id": )");
  put_text(out, rule.id);
  put(out, R"(, "name": )");
  put_text(out, camel_case(rule.id));
  text_member(out, "shortDescription", rule.title);
  text_member(out, "fullDescription", rule.explain[0]);
  std::string page, markdown;
  write_rule(rule, editions, [&](std::string_view text) { page += text; });
  write_rule_markdown(rule, editions, [&](std::string_view text) { markdown += text; });
  put(out, R"(, "help": {"text": )");
  put_text(out, page);
  put(out, R"(, "markdown": )");
  put_text(out, markdown);
  put(out, fmt::format(R"(}}, "defaultConfiguration": {{"level": "{}"}}, "properties": {{"tags": ["{}"], )",
                       sarif_level(rule.severity), rule.id.substr(0, rule.id.find('/'))));
  put(out,
      fmt::format(R"("severity": "{}", "problem.severity": "{}"}}}})",
                  severity_names[static_cast<std::size_t>(rule.severity)], problem_severity(rule.severity)));
}

}  // namespace

void put_sarif_tool(Buffer& out) {
  std::vector<Edition> editions;
  for (const std::string_view name : edition_names) editions.push_back(load_edition(name));
  put(out, R"(    "tool": {"driver": {"name": "boxproof", "version": )");
  put_text(out, version());
  put(out, R"(, "semanticVersion": )");
  put_text(out, version());
  text_member(out, "shortDescription", "Checks the DC combiner boxes of photovoltaic arrays.");
  text_member(
      out, "fullDescription",
      fmt::format("Checks the DC combiner boxes of photovoltaic arrays against the adopted edition of "
                  "NFPA 70 (NEC) and against what was found on site. {}",
                  caution()));
  put(out, ", \"rules\": [\n");
  const auto rules = all_rules();
  for (const Rule* const& rule : rules) {
    put_sarif_rule(out, *rule, editions);
    put(out, &rule == &rules.back() ? "\n" : ",\n");
  }
  put(out, "    ]}},\n");
}

}  // namespace boxproof::report
