// Which data judged: a number made of the content of the editions' files.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <utility>

namespace boxproof {

// Of files with their names, in this order: any byte of either makes another one.
std::string revision_of(std::span<const std::pair<std::string, std::string_view>> files);

}  // namespace boxproof
