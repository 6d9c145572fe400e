// What SARIF says of the designs of a run: what they are judged as, and why some were not.
#include <algorithm>

#include "src/report/agreed.hpp"
#include "src/report/phrases.hpp"
#include "src/report/sarif.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {
namespace {

void put_notification(Buffer& out, std::string_view level, const std::string& words) {
  put(out, fmt::format(R"({{"level": "{}", )", level));
  put_message(out, sarif_words(words));
}

}  // namespace

std::string sarif_design(const RunDesign& design) {
  const ReportInput& r = *design.judged;
  Buffer out;
  put(out, R"({"location": )");
  put_file(out, design.path);
  put(out, R"(, "roles": ["analysisTarget"], "properties": {"verdict": )");
  put_text(out, verdict_names[static_cast<std::size_t>(r.judgement.verdict)]);
  put(out, R"(, "basis": )");
  put_text(out, basis_names[static_cast<std::size_t>(r.judgement.basis)]);
  put(out, R"(, "edition": )");
  put_text(out, r.edition.name);
  std::vector<std::string> said = remarks(r);
  if (r.judgement.exceptions_day) said.push_back(exceptions_summary(r.judgement) + ".");
  if (r.judgement.baseline && !r.judgement.baseline->stale.empty())
    said.push_back(fmt::format("Entries of the baseline that no longer occur here: {}.",
                               r.judgement.baseline->stale.size()));
  put(out, R"(, "remarks": [)");
  for (std::string& text : said) text = sarif_text(text);
  put_texts(out, said);
  put(out, "]}}");
  return fmt::to_string(out);
}

std::string sarif_notifications(const RunDesign& design) {
  const InputError& e = *design.unread;
  Buffer out;
  for (const Problem& p : e.problems()) {
    if (out.size() > 0) put(out, ",\n");
    put_notification(out, "error",
                     fmt::format("{} was not judged: {}{}{}", design.path, p.pointer,
                                 p.pointer.empty() ? "" : ": ", p.message));
    put(out, R"(, "locations": [{)");
    FilePlace place;
    place.file = p.file;
    place.line = p.line;
    place.column = p.column;
    put_physical_location(out, place);
    put(out, "}]}");
  }
  if (e.total() > e.problems().size()) {
    put(out, ",\n");
    put_notification(out, "error",
                     fmt::format("{} was not judged, for {} more.", design.path,
                                 counted(e.total() - e.problems().size(), "problem", "problems")));
    put(out, "}");
  }
  return fmt::to_string(out);
}

std::string sarif_notification(std::string_view level, std::string_view words) {
  Buffer out;
  put_notification(out, level, std::string(words));
  put(out, "}");
  return fmt::to_string(out);
}

}  // namespace boxproof::report
