// The reports of many designs for programs (boxproof-reports/1): each is a boxproof-report/1, written as it
// comes. What is known only at the end stands at the end.
#include <fmt/format.h>

#include "boxproof/run_report.hpp"
#include "src/report/json_text.hpp"

namespace boxproof {
namespace report {
namespace {

// Null where the problem is with the file itself.
std::string place_text(std::uint32_t number) {
  return number > 0 ? fmt::format("{}", number) : "null";
}

void put_unread(Buffer& out, std::string_view design, const InputError& e) {
  put(out, R"({"file": )");
  put_text(out, design);
  put(out, R"(, "problems": [)");
  for (const Problem& p : e.problems()) {
    put(out, &p == &e.problems().front() ? R"({"file": )" : R"(, {"file": )");
    put_text(out, p.file);
    put(out,
        fmt::format(R"(, "line": {}, "column": {}, "pointer": )", place_text(p.line), place_text(p.column)));
    put_text(out, p.pointer);
    put(out, R"(, "message": )");
    put_text(out, p.message);
    put(out, "}");
  }
  put(out, fmt::format(R"(], "total": {}}})", e.total()));
}

std::string text_of(const Buffer& buffer) {
  return {buffer.data(), buffer.size()};
}

}  // namespace
}  // namespace report

namespace {

using report::Buffer;
using report::put;

// A design that could not be judged is as bad as a hazard.
constexpr auto unread_at = static_cast<std::size_t>(Severity::hazard);

class JsonReports : public RunReport {
 public:
  RunPiece piece(const RunDesign& design) const override {
    RunPiece out;
    Buffer buffer;
    if (design.judged == nullptr) {
      report::put_unread(buffer, design.path, *design.unread);
      out.findings[unread_at].push_back(report::text_of(buffer));
      return out;
    }
    put(buffer, R"({"file": )");
    report::put_text(buffer, design.path);
    put(buffer, R"(, "report": )");
    out.text = report::text_of(buffer);
    write_json(*design.judged, [&](std::string_view text) { out.text += text; });
    out.text.back() = '}';  // in the place of the line end
    out.numbers = {design.judged->judgement.agreed.size()};
    return out;
  }

  void take(RunPiece piece, const Write& write) override {
    for (std::string& text : piece.findings[unread_at]) unread_.push_back(std::move(text));
    if (piece.text.empty()) return;
    begin(write);
    write(any_ ? ",\n    " : "\n    ");
    write(piece.text);
    any_ = true;
    agreed_ += piece.numbers[0];
  }

  void finish(const RunTotals& totals, const Write& write) override {
    begin(write);
    Buffer out;
    put(out, any_ ? "\n  ],\n  \"unread\": [" : "],\n  \"unread\": [");
    for (const std::string& text : unread_) {
      put(out, &text == &unread_.front() ? "\n    " : ",\n    ");
      put(out, text);
    }
    put(out, unread_.empty() ? "],\n" : "\n  ],\n");
    put(out, fmt::format(R"(  "totals": {{"designs": {}, "unread": {}, "skipped": {})", totals.designs,
                         totals.unread, totals.skipped));
    report::put_counts(out, R"(, "counts": )", totals.counts);
    report::put_counts(out, R"(, "known": )", totals.known);
    put(out, fmt::format(", \"agreed\": {}}},\n  \"caution\": ", agreed_));
    report::put_text(out, caution());
    put(out, "\n}\n");
    write({out.data(), out.size()});
  }

 private:
  void begin(const Write& write) {
    if (begun_) return;
    begun_ = true;
    Buffer out;
    put(out, "{\n  \"format\": \"boxproof-reports/1\",\n  \"tool\": {\"version\": ");
    report::put_text(out, version());
    put(out, "},\n  \"reports\": [");
    write({out.data(), out.size()});
  }

  bool begun_ = false, any_ = false;
  std::vector<std::string> unread_;
  std::size_t agreed_ = 0;
};

}  // namespace

std::unique_ptr<RunReport> json_report() {
  return std::make_unique<JsonReports>();
}

}  // namespace boxproof
