// A box of a design as a text in which every value of it stands: equal texts are equal boxes.
#pragma once

#include <string>
#include <vector>

#include "boxproof/design.hpp"

namespace boxproof::test {

std::string box_text(const Combiner& box);

// One a box.
std::vector<std::string> box_texts(const Design& design);

}  // namespace boxproof::test
