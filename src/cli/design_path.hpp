// Designs as the files beside them name them: a baseline, agreed exceptions.
#pragma once

#include <string>

namespace boxproof::cli {

// The design's path from the folder of the file that names it, or from the working folder where that is
// standard input or output (- or empty). The same from whatever folder and by whatever spelling it is asked,
// and in every checkout. Folders that are links are followed, the design itself is not.
std::string path_from(const std::string& file, const std::string& design);

// The way back: a path that path_from() gave, from the working folder.
std::string path_to(const std::string& file, const std::string& design);

}  // namespace boxproof::cli
