// A look at a file that may be a design, without parsing it.
#pragma once

#include <string>
#include <string_view>

namespace boxproof::read {

// Why a file that nobody named is not taken for a design; empty: it is one, if perhaps a broken one, and its
// reader has the word. A stranger says another format at its top, or none and has no boxes there either. Of a
// text that is no JSON nobody can tell; it is a broken design if it names the format or combiners anywhere.
std::string why_no_design(std::string_view source);

}  // namespace boxproof::read
