// Editions out of their data files: a base, the edition's patch, and a local amendment as one more patch.
#include <fmt/format.h>

#include "boxproof/read.hpp"
#include "src/edition/amend.hpp"
#include "src/edition/data.hpp"
#include "src/edition/embedded.hpp"
#include "src/edition/read_edition.hpp"
#include "src/read/object.hpp"

namespace boxproof {
namespace {

struct ToProblems : read::Sink {
  explicit ToProblems(read::Problems& p) : problems(p) {}
  void problem(std::uint32_t offset, std::string pointer, std::string message) override {
    problems.add(offset, std::move(pointer), std::move(message));
  }
  read::Problems& problems;
};

}  // namespace

Edition load_edition(std::string_view name, const Amendments* amendments) {
  const EditionData data(name);
  const read::Field edition = data.merged();
  if (amendments == nullptr) {
    const std::string own = fmt::format("editions/{}.json", name);
    read::Problems problems(own, embedded(own));
    Edition out = read::read_edition(edition, problems);
    problems.raise();
    return out;
  }

  const Document& document = *amendments->document;
  read::Problems problems(document.name, document.text);
  ToProblems sink(problems);
  std::optional<read::Tree> tree;
  if (amendments->offset) {
    tree = read::parse_value(document.text, *amendments->offset);
    tree->prefix = "/code/amendments";
  } else {
    tree = read::parse_whole(document.text, sink);
  }
  problems.raise();
  const read::Value amendment(*tree, 0);
  const std::vector<read::Amended> amended = read::check_amendment(amendment, edition, problems);
  problems.raise();
  Edition out = read::read_edition(read::Field(amendment, edition), problems);
  problems.raise();
  for (const read::Amended& a : amended) {
    out.amended.push_back(a.path);
    out.amended_to.push_back(a.to);
  }
  return out;
}

}  // namespace boxproof
