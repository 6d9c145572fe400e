#include "tests/support/judge_text.hpp"

#include <fmt/format.h>

#include <algorithm>

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

}  // namespace boxproof::test
