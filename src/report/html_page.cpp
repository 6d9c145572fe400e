#include "src/report/html_page.hpp"

#include <fmt/format.h>

#include "src/edition/embedded.hpp"
#include "src/report/html_text.hpp"

namespace boxproof::report {
namespace {

std::string_view page_file(std::string_view name, std::string_view ending) {
  return embedded(fmt::format("pages/{}.{}", name, ending));
}

}  // namespace

void write_page_head(std::string_view title, std::initializer_list<std::string_view> styles,
                     const Write& write, std::string_view more_css) {
  write(fmt::format(
      "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      // Whatever a design file holds, the page calls nobody.
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; "
      "script-src 'nonce-page'; img-src data:; form-action 'none'; base-uri 'none'\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta name=\"generator\" content=\"boxproof {}\">\n<title>{}</title>\n<style>\n",
      version(), html(title)));
  for (std::string_view name : styles) write(page_file(name, "css"));
  write(more_css);
  write("</style>\n</head>\n<body>\n");
}

void write_page_data(std::string_view id, std::string_view json, const Write& write) {
  write(fmt::format("<script type=\"application/json\" id=\"{}\">", id));
  // Within a script element only "<" can end it or begin a comment; JSON has another way to write it.
  for (std::size_t at = 0; at < json.size();) {
    const std::size_t next = std::min(json.find('<', at), json.size());
    write(json.substr(at, next - at));
    if (next < json.size()) write("\\u003c");
    at = next + 1;
  }
  write("</script>\n");
}

void write_page_script(std::string_view name, const Write& write) {
  write("<script nonce=\"page\">\n");
  write(page_file(name, "js"));
  write("</script>\n");
}

void write_page_end(const Write& write) {
  write("</body>\n</html>\n");
}

}  // namespace boxproof::report
