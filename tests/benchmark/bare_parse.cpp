// The yardstick of the benchmark: a whole JSON file into nlohmann's own tree, and nothing else done.
#include <fstream>
#include <iostream>
#include <nlohmann/json.hpp>
#include <string>

int main(int count, char** arguments) {
  std::ifstream file(count == 2 ? arguments[1] : "", std::ios::binary | std::ios::ate);
  if (!file) {
    std::cerr << "usage: boxproof_bare_parse FILE (a readable one)\n";
    return 2;
  }
  std::string text(static_cast<std::size_t>(file.tellg()), '\0');
  file.seekg(0).read(text.data(), static_cast<std::streamsize>(text.size()));
  return nlohmann::json::parse(text).is_object() ? 0 : 1;
}
