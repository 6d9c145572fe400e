#include "src/cli/outputs.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "src/cli/case.hpp"
#include "src/text/nearest.hpp"

namespace boxproof::cli {

std::string about_report(const std::string& value) {
  const std::string format = value.substr(0, value.find('='));
  if (std::find(check_formats.begin(), check_formats.end(), format) == check_formats.end())
    return fmt::format("found \"{}\", expected FORMAT=FILE with a format out of {}{}", value,
                       fmt::join(check_formats, ", "), text::did_you_mean(format, check_formats));
  if (format.size() + 1 >= value.size())
    return fmt::format("found \"{}\", expected a file behind it, such as {}=FILE", value, format);
  return "";
}

std::vector<Output> outputs_of(const Options& o) {
  std::vector<Output> out{{o.format, o.output}};
  for (const std::string& report : o.reports) {
    const auto equals = report.find('=');
    std::string path = report.substr(equals + 1);
    if (path == "-") path.clear();
    out.push_back({report.substr(0, equals), std::move(path)});
  }
  for (auto one = out.begin(); one != out.end(); ++one)
    for (auto other = std::next(one); other != out.end(); ++other)
      if (one->path == other->path && !one->is_folder())
        throw WrongUse(fmt::format("found {} and {} that both go to {}, expected a place for each",
                                   one->format, other->format,
                                   one->path.empty() ? "standard output" : one->path));
  return out;
}

}  // namespace boxproof::cli
