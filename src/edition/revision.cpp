#include "src/edition/revision.hpp"

#include <fmt/format.h>

#include <vector>

#include "boxproof/edition.hpp"
#include "boxproof/report.hpp"
#include "src/edition/embedded.hpp"
#include "src/text/hash.hpp"

namespace boxproof {

std::string revision_of(std::span<const std::pair<std::string, std::string_view>> files) {
  text::Hash hash;
  for (const auto& [name, text] : files) {
    hash.add(name);
    hash.add(text);
  }
  return hash.hex();
}

std::string data_revision() {
  std::vector<std::pair<std::string, std::string_view>> files;
  const auto add = [&files](std::string_view name) {
    std::string path = fmt::format("editions/{}.json", name);
    const std::string_view text = embedded(path);
    files.emplace_back(std::move(path), text);
  };
  add("base");
  for (const std::string_view name : edition_names) add(name);
  return revision_of(files);
}

}  // namespace boxproof
