// SARIF 2.1.0 (OASIS Standard, with errata 01), piece by piece.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "boxproof/report.hpp"
#include "boxproof/run_report.hpp"
#include "src/report/json_text.hpp"

namespace boxproof::report {

// Text for people: unseen characters shown as escapes, bytes that are no UTF-8 replaced.
std::string sarif_text(std::string_view text);
// The same for a message, with nothing in it that a reader of SARIF takes for a placeholder or a link
// (sections 3.11.5 and 3.11.6, from memory), nor, where a link of ours is to follow, for the beginning of
// that.
std::string sarif_words(std::string_view text, bool before_link = false);
// "message": words that are made ready for one.
void put_message(Buffer& out, std::string_view words);

// error, warning or note.
std::string_view sarif_level(Severity severity);

// The path as a code host knows the file: "./a", "a//b" and "b/../a" are one. "-" is "<stdin>".
std::string one_path(std::string_view path);
// An artifact location: under the root of the sources where the path is relative and stays in it.
void put_file(Buffer& out, std::string_view path);
// "physicalLocation": the file, and the bytes of the value in it where they are known.
void put_physical_location(Buffer& out, const FilePlace& place);

// "tool": the program and every rule with its page.
void put_sarif_tool(Buffer& out);

// What a result needs beside its finding.
struct SarifResult {
  const Finding& finding;
  const AgreedFinding* agreed = nullptr;  // it was set aside by an exception
  std::size_t rule_index = 0;
  std::string_view design;   // its path, as the run shows it
  std::uint32_t number = 1;  // among findings of the design with the same fingerprint
};
// One element of "results", on a line of its own.
std::string sarif_result(const SarifResult& result, const ReportInput& report);

// One element of "artifacts": a design that was judged, and what its report says in its head.
std::string sarif_design(const RunDesign& design);
// Elements of "toolExecutionNotifications": why a design was not judged, one a problem.
std::string sarif_notifications(const RunDesign& design);
// One such element that no file stands behind.
std::string sarif_notification(std::string_view level, std::string_view words);

}  // namespace boxproof::report
