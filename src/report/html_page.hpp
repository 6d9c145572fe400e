// What all our pages share: one file that needs nothing else, no network and no font but the reader's own.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>

#include "boxproof/report.hpp"

namespace boxproof::report {

// Everything up to the content: the style sheets are named without folder and ending ("page", "drawing"). The
// page may load nothing and run only scripts of write_page_script() and write_page_data(). What comes from a
// file stands in `more_css` as css_text() only.
void write_page_head(std::string_view title, std::initializer_list<std::string_view> styles,
                     const Write& write, std::string_view more_css = {});

// Data for a script, as an element that nothing runs: `json` may hold any text.
void write_page_data(std::string_view id, std::string_view json, const Write& write);

// A script out of data/pages, named without folder and ending.
void write_page_script(std::string_view name, const Write& write);

void write_page_end(const Write& write);

}  // namespace boxproof::report
