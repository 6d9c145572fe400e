// Files and places in SARIF.
#include <filesystem>

#include "src/report/sarif.hpp"

namespace boxproof::report {
namespace {

// What need not be escaped in the path of a URI (RFC 3986, section 2.3), and the stroke between its parts.
bool is_unreserved(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
         std::string_view("-._~/").find(c) != std::string_view::npos;
}

std::string percent_encoded(std::string_view path) {
  std::string out;
  for (const char c : path) {
    if (is_unreserved(c))
      out += c;
    else
      out += fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return out;
}

}  // namespace

std::string one_path(std::string_view path) {
  return path == "-" ? "<stdin>" : std::filesystem::path(path).lexically_normal().generic_string();
}

void put_file(Buffer& out, std::string_view path) {
  const std::string normal = one_path(path);
  put(out, R"({"uri": )");
  if (normal == "<stdin>") {
    put(out, R"("stdin", "description": {"text": "Standard input."}})");
    return;
  }
  if (normal.starts_with("/")) {
    put_text(out, "file://" + percent_encoded(normal));
  } else {
    put_text(out, percent_encoded(normal));
    if (normal != ".." && !normal.starts_with("../")) put(out, R"(, "uriBaseId": "%SRCROOT%")");
  }
  put(out, "}");
}

void put_physical_location(Buffer& out, const FilePlace& place) {
  put(out, R"("physicalLocation": {"artifactLocation": )");
  put_file(out, place.file);
  if (place.line > 0) {
    put(out, fmt::format(R"(, "region": {{"startLine": {}, "startColumn": {})", place.line, place.column));
    if (place.end_line > 0)
      put(out, fmt::format(R"(, "endLine": {}, "endColumn": {})", place.end_line, place.end_column));
    put(out, "}");
  }
  put(out, "}");
}

}  // namespace boxproof::report
