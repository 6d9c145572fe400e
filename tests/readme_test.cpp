// The README quotes real output: each block that names a command must be found in what the command prints,
// piece by piece in order; a line with an ellipsis alone stands for whatever is left out. A comment
// "run: <arguments>" is a command whose output nobody quotes, but a later one reads. The commands of the walk
// through a whole job stand with the exit status that each ends with.
#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "src/cli/run.hpp"
#include "tests/support/catch.hpp"

namespace {

std::string contents(const std::string& path) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

struct Block {
  std::vector<std::string> arguments;
  std::vector<std::string> pieces;
  bool quoted = true;
};

// Blocks behind a comment "output: <arguments>", and commands of a comment "run: <arguments>".
std::vector<Block> quoted_blocks(const std::string& readme) {
  std::vector<Block> blocks;
  std::istringstream lines(readme);
  const std::string output = "<!-- output: ", run = "<!-- run: ";
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind(output, 0) != 0 && line.rfind(run, 0) != 0) continue;
    Block& block = blocks.emplace_back();
    block.quoted = line.rfind(output, 0) == 0;
    const std::string& lead = block.quoted ? output : run;
    std::istringstream words(line.substr(lead.size(), line.rfind(" -->") - lead.size()));
    for (std::string word; words >> word;) block.arguments.push_back(word);
    if (!block.quoted) continue;
    std::getline(lines, line);  // the fence
    block.pieces.emplace_back();
    while (std::getline(lines, line) && line != "```") {
      if (line == "…")
        block.pieces.emplace_back();
      else
        block.pieces.back() += line + "\n";
    }
  }
  return blocks;
}

// The commands of the block behind the comment "walk": words, the last of them the exit status.
std::vector<std::vector<std::string>> walk(const std::string& readme) {
  std::vector<std::vector<std::string>> commands;
  std::istringstream lines(readme.substr(readme.find("<!-- walk -->")));
  std::string line;
  std::getline(lines, line);  // the comment
  std::getline(lines, line);  // the fence
  while (std::getline(lines, line) && line != "```") {
    std::istringstream words(line);
    std::string word;
    if (!(words >> word) || word != "build/boxproof") continue;
    std::vector<std::string>& command = commands.emplace_back();
    while (words >> word)
      if (word != "#") command.push_back(word);
  }
  return commands;
}

}  // namespace

TEST_CASE("the README's walk through a whole job ends as it says, step by step") {
  const auto before = std::filesystem::current_path();
  std::filesystem::current_path(BOXPROOF_SOURCE);
  std::filesystem::create_directories("build/job");
  const auto commands = walk(contents("README.md"));
  REQUIRE(commands.size() == 16);
  for (std::vector<std::string> command : commands) {
    const std::string status = command.back();
    command.pop_back();
    CAPTURE(command);
    std::istringstream in;
    std::ostringstream out, err;
    boxproof::cli::Console console{in, out, err};
    CHECK(std::to_string(boxproof::cli::run(command, console)) == status);
    CHECK(err.str().empty());
  }
  std::filesystem::current_path(before);
}

TEST_CASE("the README quotes what the program prints") {
  const auto before = std::filesystem::current_path();
  std::filesystem::current_path(BOXPROOF_SOURCE);  // paths in the output are those of the commands
  const auto blocks = quoted_blocks(contents("README.md"));
  CHECK(std::count_if(blocks.begin(), blocks.end(), [](const Block& b) { return b.quoted; }) == 12);
  std::filesystem::create_directories("build");  // where the reports of a command go that a later one reads
  for (const Block& block : blocks) {
    std::istringstream in;
    std::ostringstream out, err;
    boxproof::cli::Console console{in, out, err};
    boxproof::cli::run(block.arguments, console);
    REQUIRE(err.str().empty());
    std::size_t from = 0;
    for (const std::string& piece : block.pieces) {
      CAPTURE(piece);
      const auto at = out.str().find(piece, from);
      REQUIRE(at != std::string::npos);
      from = at + piece.size();
    }
  }
  std::filesystem::current_path(before);
}
