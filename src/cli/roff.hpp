// Text for the macros of man(7).
#pragma once

#include <string>
#include <string_view>

namespace boxproof::cli {

// A page as it grows, line by line. Words go through text(), which makes them harmless: no word becomes a
// request, and no hyphen of an option a dash.
class Roff {
 public:
  void title(std::string_view name, std::string_view day, std::string_view source);
  void section(std::string_view heading);  // the heading as it is
  void subsection(std::string_view heading);
  void paragraph(std::string_view text);
  // A term in bold, what stands for its value in italics, and what it means.
  void term(std::string_view bold, std::string_view italic, std::string_view text);
  void example(std::string_view does, std::string_view line);
  void name(std::string_view page, std::string_view does);
  void synopsis(std::string_view bold, std::string_view rest);
  void reference(std::string_view page, bool last);

  const std::string& page() const { return out_; }

 private:
  void text(std::string_view text);  // broken into short lines
  std::string out_;
  bool headed_ = false;  // right behind a heading, where a paragraph begins by itself
};

// One word or more, with everything escaped that roff would read.
std::string roff(std::string_view text);

}  // namespace boxproof::cli
