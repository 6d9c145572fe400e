#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "src/check/compare_parts.hpp"
#include "src/check/compare_reach.hpp"
#include "src/rules/notes.hpp"

namespace boxproof {
namespace {

std::string degrees(const std::optional<double>& value) {
  return value ? shown(*value) + " °C" : std::string("not stated");
}

// Site and program.
void about_source(const ReportFile& b, const ReportFile& a, std::vector<std::string>& out) {
  if (b.site != a.site)
    out.push_back(
        fmt::format("The sites' names differ: \"{}\" before, \"{}\" after. Are both reports of one "
                    "site?",
                    b.site, a.site));
  if (b.version != a.version)
    out.push_back(
        fmt::format("Two versions of the program made the reports: {} before, {} after. What differs "
                    "may come from the program; make both with one version.",
                    b.version, a.version));
  else if (!b.data.empty() && !a.data.empty() && b.data != a.data)
    out.push_back(
        fmt::format("Two revisions of the program's data judged: {} before, {} after. What differs may come "
                    "from the data; make both with one program.",
                    b.data, a.data));
  if (!b.visit_date.empty() && !a.visit_date.empty() && a.visit_date < b.visit_date)
    out.push_back(
        fmt::format("The visit of the later report ({}) is before that of the earlier one ({}). Were "
                    "the two reports exchanged?",
                    a.visit_date, b.visit_date));
}

// What was judged, and by what.
void about_code(const ReportFile& b, const ReportFile& a, std::vector<std::string>& out) {
  constexpr std::string_view so = "A finding that only this can have taken away is not called corrected.";
  if (b.edition != a.edition)
    out.push_back(
        fmt::format("Two editions of the code: NEC {} before, NEC {} after. {}", b.edition, a.edition, so));
  if (const auto keys = other_amendments(b, a); !keys.empty())
    out.push_back(fmt::format("Amended locally otherwise than before: {}. {}", fmt::join(keys, ", "), so));
  const auto about_temperature = [&](const auto& one, const auto& two, std::string_view key) {
    if (one == two) return;
    const bool given = other_temperature(b, a);
    out.push_back(fmt::format(
        "{} is {} before and {} after{}", key, degrees(one), degrees(two),
        given ? ", and was given on the command line. " + std::string(so)
              : ": the plan was changed. What hangs on it is corrected only if the new value is right."));
  };
  about_temperature(b.low, a.low, "site.low_c");
  about_temperature(b.high, a.high, "site.high_c");
}

// How much of the site each of them has.
void about_extent(const ReportFile& b, const ReportFile& a, std::vector<std::string>& out) {
  if (b.basis == Basis::as_built && a.basis == Basis::design)
    out.push_back(
        "The later report is a check of the plan alone: what was found on the boxes themselves cannot be "
        "corrected by it.");
  if (b.basis == Basis::design && a.basis == Basis::as_built)
    out.push_back(
        "The earlier report is a check of the plan alone: what the later one found on the boxes themselves is "
        "new because nobody had visited them.");
  if (a.selected)
    out.push_back(fmt::format("The later report shows only {}, and not what concerns the site as a whole.",
                              counted(a.boxes.size(), "box", "boxes")));
  if (b.selected)
    out.push_back(
        fmt::format("The earlier report shows only {}, and not what concerns the site as a whole: "
                    "what is new elsewhere may be old.",
                    counted(b.boxes.size(), "box", "boxes")));
  const bool visited_less =
      a.basis == Basis::as_built && b.basis == Basis::as_built &&
      std::any_of(a.boxes.begin(), a.boxes.end(), [](auto& box) { return !box.visited(); });
  if (visited_less) {
    const auto n = std::count_if(a.boxes.begin(), a.boxes.end(), [](auto& box) { return !box.visited(); });
    out.push_back(fmt::format("The later record has nothing of {}.",
                              counted(static_cast<std::size_t>(n), "box of the plan", "boxes of the plan")));
  }
  if (!b.exceptions_on.empty() && a.exceptions_on.empty())
    out.push_back(
        "The earlier report sets findings aside under agreed exceptions, the later one was made without them.");
}

}  // namespace

std::vector<std::string> compare_remarks(const ReportFile& before, const ReportFile& after) {
  std::vector<std::string> out;
  about_source(before, after, out);
  about_code(before, after, out);
  about_extent(before, after, out);
  return out;
}

}  // namespace boxproof
