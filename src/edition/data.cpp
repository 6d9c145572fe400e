#include "src/edition/data.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "boxproof/edition.hpp"
#include "src/edition/embedded.hpp"

namespace boxproof {
namespace {

// The data files are ours and the tests read every one; a problem in them is a defect of the program.
struct NoProblems : read::Sink {
  void problem(std::uint32_t offset, std::string pointer, std::string message) override {
    throw std::logic_error(fmt::format("own data: byte {}: {}: {}", offset, pointer, message));
  }
};

std::string_view checked(std::string_view name) {
  if (std::find(edition_names.begin(), edition_names.end(), name) == edition_names.end())
    throw std::out_of_range(fmt::format("no edition {}", name));
  return name;
}

}  // namespace

read::Tree parsed_data(const std::string& path) {
  NoProblems sink;
  return *read::parse_whole(embedded(path), sink);
}

EditionData::EditionData(std::string_view name)
    : base_(parsed_data("editions/base.json")),
      patch_(parsed_data(fmt::format("editions/{}.json", checked(name)))) {}

}  // namespace boxproof
