// One finding as a result of SARIF.
#include <cctype>

#include "boxproof/rule.hpp"
#include "src/report/layout.hpp"
#include "src/report/phrases.hpp"
#include "src/report/sarif.hpp"
#include "src/text/hash.hpp"

namespace boxproof::report {
namespace {

// Whether the sentence has the id, and not only as a part of a longer one.
bool names(std::string_view sentence, std::string_view id) {
  const auto in_a_word = [&](std::size_t at) {
    return at < sentence.size() && (static_cast<unsigned char>(sentence[at]) >= 0x80 ||
                                    std::isalnum(static_cast<unsigned char>(sentence[at])) != 0);
  };
  for (auto at = sentence.find(id); at != std::string_view::npos; at = sentence.find(id, at + 1))
    if (!(at > 0 && in_a_word(at - 1)) && !in_a_word(at + id.size())) return true;
  return false;
}

// Where the other account stands, as the words of a link.
std::string_view other_words(const Finding& f) {
  if (!f.other_account.pointer.starts_with("/boxes")) return "What the plan says";
  return f.in_record ? "What else the field record says" : "What the field record says";
}

// The first sentence stands alone where there is little room; a code host links to the other account only
// where the message does.
std::string message_of(const SarifResult& result, const ReportInput& r) {
  const Finding& f = result.finding;
  std::string text;
  if (!f.box_id.empty() && !names(f.message, f.box_id)) text = fmt::format("Box {}: ", f.box_id);
  text += f.message;
  const std::string found = shown(f.found, f.unit, f.required), required = shown(f.required, f.unit, f.found);
  if (!f.lacking && !found.empty() && !required.empty())
    text += fmt::format(" Found: {}; required: {}.", found, required);
  if (!f.section.empty()) text += fmt::format(" Section: {} (edition {}).", f.section, r.edition.name);
  if (result.agreed == nullptr) text += fmt::format(" What to do: {}", to_do(f));
  const bool with_link = !f.other_account.file.empty();
  const std::string words = sarif_words(text, with_link);
  return with_link ? fmt::format("{} [{}](1).", words, other_words(f)) : words;
}

// The box, the part of it, and the value in its file.
void put_logical_locations(Buffer& out, const Finding& f) {
  const std::string whole = f.box_id.empty() ? "site" : f.box_id;
  put(out, R"("logicalLocations": [)");
  put_text(out, R"({"name": )", whole);
  put_text(out, R"(, "fullyQualifiedName": )", whole);
  put_text(out, R"(, "kind": )", f.box_id.empty() ? "site" : "box");
  if (!f.part.empty()) {
    put_text(out, R"(}, {"name": )", f.part);
    put_text(out, R"(, "fullyQualifiedName": )", fmt::format("{}/{}", whole, f.part));
    put(out, R"(, "kind": "part")");
  }
  if (!f.place.pointer.empty()) {
    const std::string_view pointer = f.place.pointer;
    put_text(out, R"(}, {"name": )", pointer.substr(pointer.rfind('/') + 1));
    put_text(out, R"(, "fullyQualifiedName": )", pointer);
    put(out, R"(, "kind": "value")");
  }
  put(out, "}]");
}

void put_locations(Buffer& out, const Finding& f) {
  put(out, R"("locations": [{)");
  put_physical_location(out, f.place);
  put(out, ", ");
  put_logical_locations(out, f);
  put(out, "}]");
  if (f.other_account.file.empty()) return;
  put(out, R"(, "relatedLocations": [{"id": 1, )");
  put_physical_location(out, f.other_account);
  put(out, ", ");
  put_message(out, fmt::format("{}.", other_words(f)));
  put(out, "}]");
}

// For consumers that pair results by these alone, the path of the design is in the first one: two sites may
// have boxes of the same name, and a finding must not vanish behind its namesake. The second is that of the
// other reports and of baselines.
void put_fingerprints(Buffer& out, const SarifResult& result) {
  const std::string own = fingerprint(result.finding);
  text::Hash hash;
  hash.add(one_path(result.design));
  hash.add(own);
  put(out,
      fmt::format(R"("partialFingerprints": {{"primaryLocationLineHash": "{}:{}", "boxproof/v1": "{}"}})",
                  hash.hex(), result.number, own));
}

std::string justification(const Exception& e) {
  return fmt::format("{} Agreed by {}, in force from {} {}.", e.reason, e.agreed_by, to_text(e.date),
                     e.expires ? "to the end of " + to_text(*e.expires) : std::string("without an end"));
}

std::string justification(const BaselineUse& baseline) {
  return fmt::format("On the baseline of {}: {} This is no news, and no approval.", to_text(baseline.date),
                     baseline.reason);
}

void put_suppression(Buffer& out, const SarifResult& result, const Judgement& j) {
  const auto put_one = [&](const std::string& why, std::string_view status, const FilePlace& place) {
    put_text(out, R"(, "suppressions": [{"kind": "external", "justification": )", sarif_text(why));
    put(out, status);
    put(out, R"(, "location": {)");
    put_physical_location(out, place);
    put(out, "}}]");
  };
  if (result.agreed != nullptr) {
    const Exception& e = j.exceptions[result.agreed->exception].entry;
    put_one(justification(e), R"(, "status": "accepted")", e.place);
  } else if (result.finding.known && j.baseline) {
    FilePlace whole;
    whole.file = j.baseline->name;
    put_one(justification(*j.baseline), "", whole);
  }
  if (j.baseline)
    put(out, result.finding.known ? R"(, "baselineState": "unchanged")" : R"(, "baselineState": "new")");
}

void put_properties(Buffer& out, const Finding& f, const ReportInput& r) {
  const auto stated = [&](std::string_view lead, std::string_view value) {
    if (!value.empty()) put_text(out, lead, value);
  };
  put(out, fmt::format(R"("properties": {{"severity": "{}", "basis": "{}")",
                       severity_names[static_cast<std::size_t>(f.severity)],
                       basis_names[static_cast<std::size_t>(f.basis)]));
  stated(R"(, "box": )", f.box_id);
  stated(R"(, "part": )", f.part);
  stated(R"(, "section": )", f.section);
  put_text(out, R"(, "edition": )", r.edition.name);
  if (f.found.index() != 0) {
    put(out, R"(, "found": )");
    put_amount(out, f.found);
  }
  if (f.required.index() != 0) {
    put(out, R"(, "required": )");
    put_amount(out, f.required);
  }
  stated(R"(, "unit": )", f.unit);
  if (f.disposition) stated(R"(, "disposition": )", name_of(*f.disposition));
  if (!f.amended.empty()) {
    put(out, R"(, "amended": [)");
    put_texts(out, f.amended);
    put(out, "]");
  }
  if (f.lacking) {
    put_text(out, R"(, "cannot_judge": [)", f.rule->id);
    for (const Rule* rule : f.also) put_text(out, ", ", rule->id);
    put(out, "]");
  }
  if (r.show_work && !f.working.empty()) {
    put(out, R"(, "working": )");
    put_working(out, f.working);
  }
  put(out, "}");
}

}  // namespace

std::string sarif_result(const SarifResult& result, const ReportInput& r) {
  const Finding& f = result.finding;
  Buffer out;
  put_text(out, R"({"ruleId": )", f.rule->id);
  put(out, fmt::format(R"(, "ruleIndex": {}, "level": "{}", )", result.rule_index, sarif_level(f.severity)));
  put_message(out, message_of(result, r));
  put(out, ", ");
  put_locations(out, f);
  put(out, ", ");
  put_fingerprints(out, result);
  put_suppression(out, result, r.judgement);
  put(out, ", ");
  put_properties(out, f, r);
  put(out, "}");
  return fmt::to_string(out);
}

}  // namespace boxproof::report
