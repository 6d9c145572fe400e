// The field sheet as a page: what stands in it before its scripts run.
#include <fmt/format.h>

#include "src/report/html_page.hpp"
#include "src/report/html_text.hpp"
#include "src/report/phrases.hpp"
#include "src/report/tally.hpp"
#include "src/report/tally_data.hpp"

namespace boxproof::report {
namespace {

// Of a second visit: what makes the report fit the plan not wholly, and what is open elsewhere.
void write_second_on_page(const SecondVisit& second, const Write& write) {
  for (const std::string& text : second.remarks)
    write(fmt::format("<p class=\"cell full isolate\"><strong>{}</strong></p>\n", html(text)));
  if (second.elsewhere.empty()) return;
  write(fmt::format(
      "<details class=\"cell full elsewhere\"><summary>Open elsewhere: {} of the site or of boxes that "
      "are not on the plan</summary><ul>\n",
      second.elsewhere.size()));
  for (const std::string& text : second.elsewhere)
    write(fmt::format("<li class=\"isolate\">{}</li>\n", html(text)));
  write("</ul></details>\n");
}

// The head: whose boxes, how far one is, and what must be known before a box is opened.
void write_page_head(const TallySheet& sheet, const Write& write) {
  const Site& site = sheet.design.design.site;
  write(fmt::format(
      "<a class=\"skip\" href=\"#box-name\">To the box</a>\n"
      "<header class=\"block head screen\">\n"
      "<div class=\"cell site\"><b>{}, NEC {}{}</b><h1 class=\"isolate\">{}</h1></div>\n",
      sheet.second ? "Field sheet to look again" : "Field sheet", html(sheet.edition.name),
      site.permit.number.empty() ? std::string() : ", permit " + html(site.permit.number), html(site.name)));
  write(
      "<div class=\"cell reach\"><label id=\"progress-text\" for=\"progress\">&nbsp;</label>"
      "<progress id=\"progress\" value=\"0\" max=\"1\"></progress></div>\n"
      "<div class=\"cell tools\"><button type=\"button\" id=\"export\">Export</button>"
      "<button type=\"button\" id=\"undo\">Undo</button>"
      "<button type=\"button\" id=\"more\" aria-expanded=\"false\" aria-controls=\"tools\">More</button></div>\n"
      "<div class=\"cell full\" id=\"tools\" hidden>"
      "<label class=\"button\" for=\"load\">Load a field record<input type=\"file\" id=\"load\" "
      "accept=\".json,application/json\"></label>"
      "<button type=\"button\" id=\"as-text\">Show as text</button>"
      "<button type=\"button\" id=\"print\">Print what was counted</button>"
      "<button type=\"button\" id=\"clear-all\">Clear everything</button></div>\n"
      "<p class=\"cell full live\"><strong>A box stays energised from the array with its switch open.</strong> "
      "Work in it is for qualified persons.</p>\n");
  for (const std::string& text : changes(sheet.overrides, sheet.edition))
    write(fmt::format("<p class=\"cell full\">{}</p>\n", html(text)));
  if (sheet.second) write_second_on_page(*sheet.second, write);
  write("</header>\n");
}

void write_panes(const Write& write) {
  write(
      "<noscript><p class=\"bar\">This page counts with a script, and scripts are switched off here. Open it in a "
      "browser that runs them, or print the sheet instead: boxproof tally DESIGN --format text.</p></noscript>\n"
      "<p id=\"say\" class=\"unseen\" aria-live=\"polite\"></p>\n"
      "<main class=\"screen\">\n"
      "<nav id=\"list-pane\" aria-label=\"Boxes\">\n"
      "<details id=\"visit\"><summary>The visit: <span id=\"visit-words\"></span></summary><div></div></details>\n"
      "<label class=\"label\" for=\"find\">Find by id or sheet</label>\n"
      "<input id=\"find\" type=\"search\" autocomplete=\"off\" autocapitalize=\"characters\" "
      "spellcheck=\"false\">\n"
      "<p id=\"found\" class=\"hint\"></p><div id=\"adding\"></div>\n<div id=\"list\"></div>\n</nav>\n"
      "<section id=\"box-pane\" aria-labelledby=\"box-name\"></section>\n"
      "</main>\n<div id=\"paper\"></div>\n<dialog id=\"ask\" aria-labelledby=\"ask-title\"></dialog>\n");
}

void write_foot(const TallySheet& sheet, const Write& write) {
  write("<footer>\n<h2>This sheet</h2>\n");
  for (const std::string& text : sheet.how) write(fmt::format("<p>{}</p>\n", html(text)));
  write(fmt::format("<p class=\"caution\">{}</p>\n</footer>\n", html(caution())));
  write("<div id=\"bars\" class=\"screen\"></div>\n");
}

}  // namespace

void write_tally_html(const TallySheet& sheet, const Write& write) {
  write_page_head("Field sheet: " + sheet.design.design.site.name, {"page", "tally"}, write);
  write_page_head(sheet, write);
  write_panes(write);
  write_foot(sheet, write);
  write_page_data("plan", tally_data(sheet), write);
  for (const std::string_view script :
       {"tally_format", "tally_store", "tally_fields", "tally_compare", "tally_again", "tally_lists",
        "tally_box", "tally_list", "tally_files", "tally"})
    write_page_script(script, write);
  write_page_end(write);
}

}  // namespace boxproof::report
