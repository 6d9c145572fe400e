// The keys of a field record in words, for somebody who stands in front of the box.
#pragma once

#include <string>
#include <string_view>

namespace boxproof {

// "fuse A" for "fuse/a", "string 9: Voc" for "measured/9/voc_v"; empty where a field record has no such key.
std::string words_of_key(std::string_view key);

}  // namespace boxproof
