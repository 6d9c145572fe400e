// The design files of a run: files, folders and patterns, looked up.
#pragma once

#include <string>
#include <vector>

#include "boxproof/read.hpp"

namespace boxproof::cli {

struct DesignInput {
  std::string path;  // - for standard input
  bool named =
      true;  // on the command line, and so expected to be a design; else found in a folder or by a pattern
};

// Each file once, those of an argument in the order of their paths. What starts with a dot is passed over,
// and folders that are links. Throws WrongUse where a pattern matches nothing, InputError where a folder
// cannot be read.
std::vector<DesignInput> find_designs(const std::vector<std::string>& arguments);

// Why a JSON file found in a folder is not taken for a design; empty: it is one. A file that cannot be parsed
// but names the format, or states combiners and no format, is a broken design and no stranger.
std::string why_skipped(const Document& document);

}  // namespace boxproof::cli
