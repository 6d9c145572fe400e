#include "tests/support/judge_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "boxproof/rule.hpp"

namespace boxproof::test {

std::unique_ptr<Judged> judge_text(std::string design, const Edition& edition, std::string record) {
  auto out = std::make_unique<Judged>();
  out->document = {"design.json", std::move(design)};
  out->design = read_design(out->document);
  if (!record.empty()) {
    out->record_document = {"record.json", std::move(record)};
    out->record = read_field_record(out->record_document);
  }
  out->edition = edition;
  out->judgement = check(out->design, out->edition, out->record ? &*out->record : nullptr, {});
  return out;
}

std::vector<std::string> said(const std::vector<Finding>& findings, bool as_found) {
  std::vector<std::string> out;
  for (const Finding& f : findings) {
    const std::string message = as_found ? f.message : f.message.substr(0, f.message.find(" As found: "));
    out.push_back(fmt::format("{} {} {} {} {} [{}] {}", fingerprint(f), f.box_id, f.rule->id,
                              basis_names[static_cast<std::size_t>(f.basis)],
                              severity_names[static_cast<std::size_t>(f.severity)], f.section, message));
  }
  std::sort(out.begin(), out.end());
  return out;
}

std::vector<std::string> differences(const std::vector<std::string>& a, const std::vector<std::string>& b) {
  std::vector<std::string> out, first, second;
  std::set_difference(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(first));
  std::set_difference(b.begin(), b.end(), a.begin(), a.end(), std::back_inserter(second));
  for (const std::string& line : first) out.push_back("- " + line);
  for (const std::string& line : second) out.push_back("+ " + line);
  return out;
}

}  // namespace boxproof::test
