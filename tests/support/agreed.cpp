#include "tests/support/agreed.hpp"

#include <fmt/format.h>

#include "boxproof/exceptions.hpp"
#include "tests/support/catch.hpp"

namespace boxproof::test {

Json an_exception(std::string_view rule, const Json& patch) {
  Json entry{{"rule", rule},          {"boxes", {"A-01"}},    {"reason", "a screen stands there"},
             {"agreed_by", "office"}, {"date", "2027-01-10"}, {"expires", "2027-02-20"}};
  entry.merge_patch(patch);
  return entry;
}

void agree(Judged& judged, const Json& entries, std::string_view day) {
  const Document document{"exceptions.json",
                          Json{{"format", "boxproof-exceptions/1"}, {"exceptions", entries}}.dump(2)};
  const auto date = parse_date(day);
  REQUIRE(date.has_value());
  apply_exceptions(judged.judgement, judged.design.design, read_exceptions(document),
                   {*date, DayFrom::command_line});
}

std::unique_ptr<Judged> judge_agreed(const Json& design, const Json& entries, std::string_view day) {
  auto judged = judge(design);
  agree(*judged, entries, day);
  return judged;
}

std::string what_became(const Judged& judged, std::size_t entry) {
  const ExceptionResult& r = judged.judgement.exceptions.at(entry);
  return fmt::format("{}, {} set aside, {} standing",
                     exception_state_names[static_cast<std::size_t>(r.state)], r.findings, r.standing);
}

}  // namespace boxproof::test
