// Boxes of a plan that come in another format than JSON.
#pragma once

#include <memory>
#include <string>

#include "boxproof/read.hpp"
#include "src/read/made_text.hpp"
#include "src/read/problems.hpp"

namespace boxproof::read {

// Reads the boxes of the text that was made out of the file ("combiners", without box types) into the design,
// which has all that they can name. `problems` are those of the file so far; throws them with what else is
// wrong, each at the place in the file.
void read_made_boxes(Design& design, const std::string& file, std::shared_ptr<const MadeText> made,
                     Problems problems, const ProgressHook& progress);

}  // namespace boxproof::read
