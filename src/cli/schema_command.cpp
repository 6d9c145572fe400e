// schema: the JSON Schema of a format, each whole in itself.
#include <fmt/format.h>

#include "src/cli/commands.hpp"
#include "src/cli/files.hpp"
#include "src/edition/embedded.hpp"

namespace boxproof::cli {
namespace {

constexpr std::string_view another = "\"$ref\": \"urn:boxproof:";  // begins a reference into another schema
constexpr std::string_view own = "\"$ref\": \"#";                  // and one within its own

void replace(std::string& text, std::string_view what, std::string_view with) {
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + with.size()))
    text.replace(at, what.size(), with);
}

std::string text_of(std::string_view name) {
  return std::string(embedded(fmt::format("schema/{}.schema.json", name)));
}

// A schema as one of another's definitions, by its name.
std::string as_definition(std::string_view name) {
  std::string schema = text_of(name);
  replace(schema, own, fmt::format("{}/$defs/{}", own, name));
  // With an $id of its own, its pointers would begin at it.
  const auto start = schema.find("  \"$schema\"");
  schema.erase(start, schema.find("  \"title\"") - start);
  replace(schema, "\n", "\n    ");
  schema.erase(schema.find_last_not_of(" \n") + 1);
  return fmt::format("    \"{}\": {}", name, schema);
}

// A schema that borrows from another, with that one among its definitions: so the one file is enough. All
// references are pointers within it, as not every reader of schemas follows names.
std::string whole(std::string_view name) {
  std::string schema = text_of(name);
  for (auto at = schema.find(another); at != std::string::npos; at = schema.find(another)) {
    const auto start = at + another.size();
    const std::string lender = schema.substr(start, schema.find(':', start) - start);
    const std::string named = fmt::format("{}{}:1", another, lender),
                      within = fmt::format("{}/$defs/{}", own, lender);
    replace(schema, named + "#", within);
    replace(schema, named, within);
    const std::string_view definitions = "\n  \"$defs\": {\n";
    if (const auto there = schema.find(definitions); there != std::string::npos)
      schema.insert(there + definitions.size(), as_definition(lender) + ",\n");
    else
      schema.replace(schema.rfind("\n}"), std::string::npos,
                     fmt::format(",{}{}\n  }}\n}}\n", definitions, as_definition(lender)));
  }
  return schema;
}

}  // namespace

int schema_command(const Options& o, Console& console) {
  Target target("", console.out);
  target.write(whole(o.schema));
  target.finish();
  return done;
}

}  // namespace boxproof::cli
