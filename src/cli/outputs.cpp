#include "src/cli/outputs.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <filesystem>
#include <sstream>

#include "src/cli/case.hpp"
#include "src/cli/files.hpp"
#include "src/text/nearest.hpp"

namespace boxproof::cli {
namespace {

namespace fs = std::filesystem;

std::string_view ending(std::string_view format) {
  if (format == "text") return ".txt";
  if (format == "markdown") return ".md";
  if (format == "html") return ".html";
  if (format == "json") return ".json";
  if (format == "sarif") return ".sarif";
  return format == "junit" ? ".xml" : ".log";
}

}  // namespace

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
  const auto place = [](const Output& output) { return output.path.empty() ? "" : real_path(output.path); };
  for (auto one = out.begin(); one != out.end(); ++one)
    for (auto other = std::next(one); other != out.end(); ++other)
      if (place(*one) == place(*other) && (!one->is_folder() || one->format == other->format))
        throw WrongUse(fmt::format("found {} and {} that both go to {}, expected a place for each",
                                   one->format, other->format,
                                   one->path.empty() ? "standard output" : one->path));
  return out;
}

std::string path_in(const Output& output, std::string_view design) {
  fs::path inside;
  if (design == "-" || design == "<stdin>")
    inside = "stdin";
  else
    for (const fs::path& part : fs::path(design).lexically_normal())
      if (part != ".." && part != "/" && part != ".") inside /= part;
  if (inside.extension() == ".json") inside.replace_extension();
  inside += ending(output.format);
  return (fs::path(output.path) / inside).string();
}

Targets::Targets(const std::vector<Output>& outputs, const std::vector<DesignInput>& designs) {
  for (const Output& output : outputs) {
    if (output.path.empty()) continue;
    if (!output.is_folder()) {
      add(output.path, fmt::format("the {} report", output.format));
      continue;
    }
    for (const DesignInput& design : designs)
      add(path_in(output, design.path), fmt::format("the {} report of {}", output.format, design.path));
  }
}

void Targets::add(const std::string& path, std::string what) {
  const auto [there, fresh] = what_.try_emplace(real_path(path), std::move(what));
  if (!fresh)
    throw WrongUse(
        fmt::format("found {} and {} that would both be written to {}, expected a file for each; give them "
                    "other paths, or check the designs in several runs",
                    there->second, what, path));
}

void Targets::keep(const std::string& input, const std::string& real) const {
  const auto found = what_.find(real);
  if (found != what_.end())
    throw WrongUse(
        fmt::format("found {}, which is an input, where {} would be written, expected another "
                    "place: it would be lost",
                    input, found->second));
}

void Targets::keep(const std::string& input) const {
  if (!input.empty() && input != "-" && input != "<stdin>" && !what_.empty()) keep(input, real_path(input));
}

void Targets::expect_under(const FilePlace& asked) const {
  const std::string beside = fs::path(asked.file).parent_path().string();  // the file itself may be a link
  const fs::path folder = real_path(beside.empty() ? "." : beside);
  for (const auto& [real, what] : what_) {
    const fs::path place = real;
    const auto [end, rest] = std::mismatch(folder.begin(), folder.end(), place.begin(), place.end());
    if (end == folder.end() && rest != place.end()) continue;
    throw InputError(
        {{asked.file, asked.line, asked.column, asked.pointer,
          fmt::format("found {} that would be written, by a link, to {}, expected a place under the folder "
                      "of this file; name other places on the command line",
                      what, real)}},
        1);
  }
}

void Targets::leave_out(std::vector<DesignInput>& designs) const {
  if (what_.empty()) return;
  std::istringstream nothing;
  std::erase_if(designs, [&](const DesignInput& design) {
    if (what_.find(design.real) == what_.end()) return false;
    if (design.named) keep(design.path, design.real);
    try {
      if (why_skipped(read_file(design.path, nothing)).empty()) keep(design.path, design.real);
    } catch (const InputError&) {
      return false;  // the run tells it
    }
    return true;
  });
}

}  // namespace boxproof::cli
