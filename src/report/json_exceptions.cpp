// Agreed exceptions in the report for programs.
#include "boxproof/rule.hpp"
#include "src/report/agreed.hpp"

namespace boxproof::report {

void put_exceptions(Buffer& out, const Judgement& j) {
  if (!j.exceptions_day) return;
  put(out, R"(  "exceptions_on": )");
  put_text(out, to_text(j.exceptions_day->date));
  if (j.exceptions_elsewhere > 0)
    put(out, fmt::format(",\n  \"exceptions_elsewhere\": {}", j.exceptions_elsewhere));
  put(out, ",\n  \"exceptions\": [");
  for (const ExceptionResult& r : j.exceptions) {
    const Exception& e = r.entry;
    const auto texts = [&](const std::vector<std::string>& list) {
      put(out, "[");
      put_texts(out, list);
      put(out, "]");
    };
    put(out, &r == &j.exceptions.front() ? "\n" : ",\n");
    put(out, R"(    {"rule": )");
    put_text(out, e.rule->id);
    put(out, R"(, "boxes": )");
    texts(e.boxes);
    if (!e.designs.empty()) {
      put(out, R"(, "designs": )");
      texts(e.designs);
    }
    put(out, R"(, "reason": )");
    put_text(out, e.reason);
    put(out, R"(, "agreed_by": )");
    put_text(out, e.agreed_by);
    put(out, R"(, "date": )");
    put_text(out, to_text(e.date));
    put(out, R"(, "expires": )");
    put_text_or_null(out, e.expires ? to_text(*e.expires) : std::string());
    put(out, e.hazard ? R"(, "hazard": true)" : R"(, "hazard": false)");
    put(out, R"(, "state": )");
    put_text(out, exception_state_names[static_cast<std::size_t>(r.state)]);
    put(out, fmt::format(R"(, "findings": {}, "standing": {}, "unknown_boxes": )", r.findings, r.standing));
    texts(r.unknown);
    put(out, "}");
  }
  put(out, j.exceptions.empty() ? "],\n" : "\n  ],\n");
}

}  // namespace boxproof::report
