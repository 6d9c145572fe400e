// The whole log: pieces are kept until all are known, for the worst stand first and a consumer has its limit.
#include <unordered_map>

#include "boxproof/rule.hpp"
#include "src/report/phrases.hpp"
#include "src/report/sarif.hpp"
#include "src/report/sarif_results.hpp"
#include "src/rules/notes.hpp"

namespace boxproof {
namespace report {
namespace {

// Of our own: enough for whoever has to put right what could not be read.
constexpr std::size_t most_notifications = 1'000;

std::string in_words(const SeverityCounts& counts) {
  std::string out;
  for (std::size_t i = 0; i < counts.size(); ++i)
    if (counts[i] > 0)
      out += fmt::format("{}{} {}", out.empty() ? "" : ", ", counts[i],
                         word_of(static_cast<Severity>(i), counts[i]));
  return out;
}

void put_list(Buffer& out, std::string_view key, const std::string& elements) {
  put(out, fmt::format("\"{}\": [", key));
  if (!elements.empty()) put(out, "\n" + elements + "\n    ");
  put(out, "]");
}

void append(std::string& list, std::string_view element) {
  if (element.empty()) return;
  if (!list.empty()) list += ",\n";
  list += element;
}

class SarifReport : public RunReport {
 public:
  SarifReport() {
    for (const Rule* rule : all_rules()) index_.emplace(rule, index_.size());
  }

  RunPiece piece(const RunDesign& design) const override {
    RunPiece out;
    if (design.judged == nullptr) {
      out.text = sarif_notifications(design);
      return out;
    }
    out.text = sarif_design(design);
    const ReportInput& r = *design.judged;
    std::vector<SarifResult> all;
    all.reserve(r.judgement.findings.size() + r.judgement.agreed.size());
    std::unordered_map<std::string, std::uint32_t> times;
    const auto add = [&](const Finding& f, const AgreedFinding* agreed) {
      all.push_back({f, agreed, index_.at(f.rule), design.path, ++times[fingerprint(f)]});
    };
    for (const Finding& f : r.judgement.findings) add(f, nullptr);
    for (const AgreedFinding& a : r.judgement.agreed) add(a.finding, &a);
    std::size_t room = most_results;
    for (std::size_t rank = 0; rank < 2 * severities; ++rank)
      for (const SarifResult& result : all) {
        const auto severity = static_cast<std::size_t>(result.finding.severity);
        const bool aside = result.agreed != nullptr || result.finding.known;
        if (rank != severity + (aside ? severities : 0)) continue;
        if (room == 0) {
          ++out.left_out[severity];
          continue;
        }
        --room;
        (aside ? out.set_aside : out.findings)[severity].push_back(sarif_result(result, r));
      }
    return out;
  }

  void take(RunPiece piece, const Write&) override {
    if (piece.text.starts_with(R"({"location")")) {  // a design that was judged
      append(designs_, piece.text);
    } else if (!piece.text.empty() && ++unread_ <= most_notifications) {
      append(notifications_, piece.text);
    }
    for (std::size_t i = 0; i < severities; ++i) {
      left_out_[i] += piece.left_out[i];
      for (std::string& result : piece.findings[i]) results_.add(i, std::move(result));
      for (std::string& result : piece.set_aside[i]) results_.add(severities + i, std::move(result));
    }
    results_.trim(left_out_);
  }

  void finish(const RunTotals& totals, const Write& write) override {
    Buffer out;
    // Where OASIS keeps the schema (from memory, unverified).
    put(out, R"({
  "$schema": "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
  "version": "2.1.0",
  "runs": [{
)");
    put_sarif_tool(out);
    put_invocation(out, totals);
    put(out, R"(    "originalUriBaseIds": {"%SRCROOT%": {"description": {"text": )");
    put_text(out, "The folder in which boxproof was run, for a code host the top of the repository.");
    put(out, "}}},\n    ");
    put_list(out, "artifacts", designs_);
    put(out, ",\n    \"columnKind\": \"unicodeCodePoints\",\n    \"results\": [");
    write({out.data(), out.size()});
    std::string_view between = "\n";
    results_.each([&](const std::string& result) {
      write(between);
      write(result);
      between = ",\n";
    });
    out.clear();
    put(out, results_.empty() ? "],\n" : "\n    ],\n");
    put_run_properties(out, totals);
    put(out, "  }]\n}\n");
    write({out.data(), out.size()});
  }

 private:
  // What a reader must know who sees no result: what was left out, and that nothing was judged.
  std::string remarks_on_run(const RunTotals& totals) const {
    std::string out;
    if (const std::string left_out = in_words(left_out_); !left_out.empty())
      append(out,
             sarif_notification(
                 "warning", fmt::format("Left out for the limit of {} results in one run, what is agreed or "
                                        "known first and then the mildest: {}. The format json has them all.",
                                        most_results, left_out)));
    if (unread_ > most_notifications)
      append(out, sarif_notification("error",
                                     fmt::format("{} more designs were not judged; standard error has the "
                                                 "reasons.",
                                                 unread_ - most_notifications)));
    if (totals.skipped > 0)
      append(out, sarif_notification(
                      "note",
                      fmt::format("{} in folders {} no boxproof-design/1 and {} passed over.",
                                  counted(totals.skipped, "JSON file", "JSON files"),
                                  totals.skipped == 1 ? "is" : "are", totals.skipped == 1 ? "was" : "were")));
    if (totals.designs == 0 && totals.unread == 0)
      append(out, sarif_notification("error", "Found no design, so nothing was judged."));
    return out;
  }

  void put_invocation(Buffer& out, const RunTotals& totals) const {
    const bool whole = totals.unread == 0 && totals.designs > 0;
    put(out, fmt::format(R"(    "invocations": [{{"executionSuccessful": {}, )", whole ? "true" : "false"));
    std::string said = notifications_;
    append(said, remarks_on_run(totals));
    put_list(out, "toolExecutionNotifications", said);
    put(out, "}],\n");
  }

  void put_run_properties(Buffer& out, const RunTotals& totals) const {
    const auto counts = [&](std::string_view key, const SeverityCounts& n) {
      put(out, fmt::format(", \"{}\": {{", key));
      for (std::size_t i = 0; i < severities; ++i)
        put(out, fmt::format("{}\"{}\": {}", i > 0 ? ", " : "", severity_names[i], n[i]));
      put(out, "}");
    };
    put(out, fmt::format(R"(    "properties": {{"designs": {}, "unread": {}, "skipped": {})", totals.designs,
                         totals.unread, totals.skipped));
    counts("counts", totals.counts);
    counts("known", totals.known);
    counts("left_out", left_out_);
    put(out, R"(, "caution": )");
    put_text(out, caution());
    put(out, "}\n");
  }

  std::unordered_map<const Rule*, std::size_t> index_;
  SarifResults results_;
  SeverityCounts left_out_{};
  std::string designs_, notifications_;
  std::size_t unread_ = 0;
};

}  // namespace
}  // namespace report

std::unique_ptr<RunReport> sarif_report() {
  return std::make_unique<report::SarifReport>();
}

}  // namespace boxproof
