// A sound one-box design to change one thing in, and the judgement of it.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/check.hpp"

namespace boxproof::test {

using Json = nlohmann::json;

// One site with one box "A-01" that gives no finding in any edition: nine strings of 18 modules on a solidly
// grounded inverter. Each value that a rule can ask for is stated.
Json sound_design();

// The sound design with an RFC 7396 merge patch over it. Arrays are replaced whole: to change the one box or
// its one circuit use with_box() and with_circuit().
Json with(const Json& patch);
Json with_box(const Json& patch);
Json with_circuit(const Json& patch);

// Owns all that a judgement points to.
struct Judged {
  Document document, record_document;
  DesignFile design;
  std::optional<RecordFile> record;
  Edition edition;
  Judgement judgement;

  const std::vector<Finding>& findings() const { return judgement.findings; }
  // The finding of this rule (about this part, if named); null if there is none. Fails the test if there are
  // several.
  const Finding* find(std::string_view rule, std::string_view part = {}) const;
  // "rule severity part" of every finding, for messages and comparisons.
  std::vector<std::string> summary() const;
};

// Reads and judges; the design's own edition unless one is named.
std::unique_ptr<Judged> judge(const Json& design, std::string_view edition = {}, const Json& record = nullptr,
                              const CheckOptions& options = {});

// The severity of the rule's one finding, or "none".
std::string severity_of(const Json& design, std::string_view rule, std::string_view edition = {},
                        std::string_view part = {});

}  // namespace boxproof::test
