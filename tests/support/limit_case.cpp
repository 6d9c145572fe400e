#include "tests/support/limit_case.hpp"

#include "tests/support/catch.hpp"

namespace boxproof::test {
namespace {

// Either side of the relative slack of 1e-9 that comparisons allow.
constexpr double within_slack = 5e-10, beyond_slack = 2e-9;

const double* number(const Amount& amount) {
  return std::get_if<double>(&amount);
}

void check_fires(const LimitCase& limit, double stated, bool far) {
  const auto judged = judge(put(limit.design, limit.stated, stated), limit.edition);
  CAPTURE(stated, judged->summary());
  const Finding* f = judged->find(limit.rule, limit.part);
  REQUIRE(f != nullptr);
  CHECK(severity_names[static_cast<std::size_t>(f->severity)] == limit.severity);
  CHECK(f->unit == limit.unit);
  CHECK(f->section == limit.section);
  REQUIRE(number(f->found) != nullptr);
  REQUIRE(number(f->required) != nullptr);
  const double& plan = limit.stated_is_found ? *number(f->found) : *number(f->required);
  const double& other = limit.stated_is_found ? *number(f->required) : *number(f->found);
  CHECK(plan == stated);
  CHECK_THAT(other, Catch::Matchers::WithinRel(limit.bound, 1e-13));
  if (!far) return;
  for (std::string_view text : limit.numbers)
    CHECK(says(*f, std::string(text) + " " + std::string(limit.unit)));
}

void check_silent(const LimitCase& limit, double stated) {
  const auto judged = judge(put(limit.design, limit.stated, stated), limit.edition);
  CAPTURE(stated, judged->summary());
  CHECK(judged->find(limit.rule, limit.part) == nullptr);
}

}  // namespace

bool says(const Finding& finding, std::string_view text) {
  UNSCOPED_INFO("message: " << finding.message);
  return finding.message.find(text) != std::string::npos;
}

Json put(Json design, const std::string& pointer, const Json& value) {
  design[Json::json_pointer(pointer)] = value;
  return design;
}

Json without(Json design, const std::string& pointer) {
  const Json::json_pointer path(pointer);
  REQUIRE(design.contains(path));
  design.at(path.parent_pointer()).erase(path.back());
  return design;
}

void check_limit(const LimitCase& limit) {
  const std::string rule(limit.rule), part(limit.part), edition(limit.edition);
  CAPTURE(rule, part, edition);
  const double out = limit.must_be == Stated::at_most ? 1 : -1;  // towards the wrong side
  check_silent(limit, limit.bound * (1 - out * 1e-3));
  check_silent(limit, limit.bound);
  check_silent(limit, limit.bound * (1 + out * within_slack));
  check_fires(limit, limit.bound * (1 + out * beyond_slack), false);
  check_fires(limit, limit.far, true);
}

void check_missing(const Json& design, const std::vector<MissingCase>& cases, std::string_view edition) {
  for (const MissingCase& c : cases) {
    const auto judged = judge(without(design, c.pointer), edition);
    CAPTURE(c.pointer, std::string(edition));
    CHECK(judged->summary() ==
          std::vector<std::string>{std::string(c.rule) + " query " + std::string(c.part)});
    if (judged->findings().empty()) continue;
    const Finding& f = judged->findings().front();
    CHECK(f.rule->id == c.rule);
    CHECK((says(f, c.rule) || c.rule == "voltage/no-factor"));  // which names those that wait for it
    CHECK_FALSE(f.section.empty());
  }
}

}  // namespace boxproof::test
