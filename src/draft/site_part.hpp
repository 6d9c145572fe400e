// What a design states beside its boxes, as a site file has it: site, code, modules, inverters, conductors.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "boxproof/read.hpp"
#include "src/read/tree.hpp"
#include "src/report/json_text.hpp"

namespace boxproof::draft {

struct SitePart {
  std::vector<std::pair<std::string, read::Tree>> members;  // by key, in the order of a design file
};

// Of a site file, or of a design; the document has been read without a problem and must outlive it.
SitePart site_part(const Document& document);

// Gives local amendments that stand in a file of their own another path.
void set_amendments_path(SitePart& part, const std::string& path);

// The site file of it.
std::string site_text(const SitePart& part);

// Begins a document of the format, with the members of the site; each line ends behind a comma, but the last.
void put_site_part(report::Buffer& out, const SitePart& part, std::string_view schema,
                   std::string_view format);

}  // namespace boxproof::draft
