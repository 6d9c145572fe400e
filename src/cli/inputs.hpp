// The design files of a run: files, folders and patterns, looked up.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "boxproof/input_error.hpp"
#include "boxproof/read.hpp"

namespace boxproof::cli {

struct DesignInput {
  std::string path;       // - for standard input
  bool named = true;      // and so expected to be a design; else found in a folder or by a pattern
  std::string real = {};  // the path without links, by which a file is known; - for standard input
  std::vector<std::size_t> arguments = {};    // that lead to it, by number
  std::optional<InputError> unread = {};      // a folder that cannot be looked through
  std::shared_ptr<const Document> text = {};  // read already; null: not yet
};

// Each file once, those of an argument in the order of their paths. In folders, what ends in .json; what
// starts with a dot is passed over there, and folders that are links. A folder that cannot be looked through
// stands in the place of what is in it. Throws WrongUse where a pattern matches nothing.
std::vector<DesignInput> find_designs(const std::vector<std::string>& arguments);

// Whether the arguments lead to designs. Whoever names a folder means that there is one in it: to find none
// must not look like success.
class ArgumentsUsed {
 public:
  explicit ArgumentsUsed(const std::vector<std::string>& arguments);
  void add_design(const DesignInput& input);
  void add_skipped(const DesignInput& input);
  // Those without a design, each with what is wrong with it.
  std::vector<std::pair<std::string, InputError>> without_design() const;

 private:
  struct Use {
    bool leads = false;
    std::size_t skipped = 0;
  };
  const std::vector<std::string>& arguments_;
  std::vector<Use> uses_;
};

// Why a JSON file found in a folder is not taken for a design; empty: it is one. A file that cannot be parsed
// but names the format, or states combiners and no format, is a broken design and no stranger.
std::string why_skipped(const Document& document);

// The path without links, so far as it is there.
std::string real_path(const std::string& path);

}  // namespace boxproof::cli
