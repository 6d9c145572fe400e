#include "tests/support/editions.hpp"

#include <map>
#include <string>

#include "boxproof/read.hpp"

const boxproof::Edition& edition_of(std::string_view name) {
  static std::map<std::string, boxproof::Edition, std::less<>> loaded;
  if (const auto found = loaded.find(name); found != loaded.end()) return found->second;
  return loaded.emplace(std::string(name), boxproof::load_edition(name)).first->second;
}
