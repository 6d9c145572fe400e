#include "tests/support/rule_cells.hpp"

#include <nlohmann/json.hpp>

#include "boxproof/edition.hpp"
#include "src/edition/embedded.hpp"
#include "tests/support/catch.hpp"

namespace boxproof::test {
namespace {

using Json = nlohmann::json;

const Json& rules_of(std::string_view edition) {
  static std::map<std::string, Json, std::less<>> read;
  if (const auto known = read.find(edition); known != read.end()) return known->second;
  Json data = Json::parse(embedded("editions/base.json"));
  data.merge_patch(Json::parse(embedded("editions/" + std::string(edition) + ".json")));
  return read.emplace(std::string(edition), data["rules"]).first->second;
}

}  // namespace

std::string cell_of(std::string_view edition, std::string_view rule) {
  const Json& rules = rules_of(edition);
  const auto found = rules.find(std::string(rule));
  if (found == rules.end()) return "–";
  const bool from_memory = found->value("source", std::string()).find("memory") != std::string::npos;
  return found->at("section").get<std::string>() + (from_memory ? "*" : "");
}

std::map<std::string, std::string> cells_of_row(const std::string& row) {
  constexpr std::size_t year = 4;  // digits
  const std::string dash = "–";
  std::map<std::string, std::string> out;
  for (std::size_t at = 0; at < row.size();) {
    const std::size_t end = std::min(row.find("; ", at), row.size());
    const std::string piece = row.substr(at, end - at);
    at = end + 2;
    const std::string first = piece.substr(0, year);
    const bool range = piece.compare(year, dash.size(), dash) == 0;
    const std::string last = range ? piece.substr(year + dash.size(), year) : first;
    const std::size_t text = range ? 2 * year + dash.size() : year;
    REQUIRE(piece.at(text) == ' ');
    std::size_t filled = 0;
    for (const std::string_view name : edition_names)
      if (name >= first && name <= last) {
        CHECK(out.emplace(std::string(name), piece.substr(text + 1)).second);  // no edition twice
        ++filled;
      }
    CHECK(filled >= (range ? 2U : 1U));
  }
  return out;
}

std::map<std::string, std::string> cells_of_data(std::string_view rule) {
  std::map<std::string, std::string> out;
  for (const std::string_view name : edition_names) out[std::string(name)] = cell_of(name, rule);
  return out;
}

}  // namespace boxproof::test
