// Text put into Markdown: it reads back as it was, and none of it is markup.
//
// The expected lines were rendered once with three readers of Markdown (commonmark.js, marked, remark with
// the GitHub extensions): each showed the text and nothing but the text.
#include "src/report/markdown_text.hpp"

#include <cctype>

#include "src/report/layout.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/hostile.hpp"

using namespace boxproof::report;
using namespace boxproof::test;

namespace {

// What a reader shows of a line that has only backslashes and fixed-width type in it (CommonMark 0.31, 2.4
// and 6.1). Fails on anything else that could be markup.
std::string read_back(std::string_view line) {
  std::string out;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (line[i] == '\\' && i + 1 < line.size() && std::ispunct(static_cast<unsigned char>(line[i + 1]))) {
      out += line[++i];
    } else if (line[i] == '`') {
      std::size_t ticks = 0;
      while (i + ticks < line.size() && line[i + ticks] == '`') ++ticks;
      std::size_t end = i + ticks;  // the next run of as many
      for (std::size_t run = 0; end < line.size(); end += run) {
        run = 0;
        while (end + run < line.size() && line[end + run] == '`') ++run;
        if (run == ticks) break;
        run = std::max<std::size_t>(run, 1);
      }
      REQUIRE(end < line.size());
      std::string_view code = line.substr(i + ticks, end - i - ticks);
      if (code.size() > 1 && code.front() == ' ' && code.back() == ' ' &&
          code.find_first_not_of(' ') != std::string_view::npos)
        code = code.substr(1, code.size() - 2);
      out += code;
      i = end + ticks - 1;
    } else {
      if (std::string_view("*_<>[]|&~$\\").find(line[i]) != std::string_view::npos)
        FAIL_CHECK("bare " << line[i] << " in " << line.substr(0, 200));
      out += line[i];
    }
  }
  return out;
}

std::string trimmed(std::string text) {
  text.erase(text.find_last_not_of(' ') + 1);
  text.erase(0, text.find_first_not_of(' '));
  return text;
}

}  // namespace

TEST_CASE("hostile text as a line of Markdown reads back as it was") {
  for (const auto& list : {markdown_texts(), hostile_texts()})
    for (const Hostile& hostile : list) {
      CAPTURE(std::string(hostile.what));
      const std::string line = markdown_line(hostile.text);
      CHECK(line.find('\n') == std::string::npos);
      CHECK(harm_in(line) == "");
      CHECK(read_back(line) == trimmed(plain(hostile.text)));
      CHECK(read_back(markdown_code(hostile.text)) == plain(hostile.text));
    }
}

TEST_CASE("lines of Markdown") {
  struct Row {
    std::string_view text, line;
  };
  for (const Row& row : std::vector<Row>{{"A-01 in hall A", "A-01 in hall A"},
                                         {"690.8(A)(2)", "690.8(A)(2)"},
                                         {"# head", "\\# head"},
                                         {"> quote", "\\> quote"},
                                         {"- item", "\\- item"},
                                         {"+ item", "\\+ item"},
                                         {"* item", "\\* item"},
                                         {"1. item", "1\\. item"},
                                         {"12) item", "12\\) item"},
                                         {"1.5 V", "1.5 V"},
                                         {"1.", "1\\."},
                                         {"===", "\\==="},
                                         {"---", "\\---"},
                                         {":--", "\\:--"},
                                         {"```sh", "\\`\\`\\`sh"},
                                         {"    code", "code"},
                                         {"\tcode", "\\\\u{9}code"},
                                         {"a\nb", "a\\\\u{A}b"},
                                         {"hard  ", "hard"},
                                         {"a - b", "a - b"},
                                         {"![i](x)", "\\!\\[i\\](x)"},
                                         {"<!-- x -->", "\\<\\!-- x --\\>"},
                                         {"a|b", "a\\|b"},
                                         {"~~x~~", "\\~\\~x\\~\\~"},
                                         {"R&D &amp;", "R\\&D \\&amp;"},
                                         {"http://x.invalid", "http`://`x.invalid"},
                                         {"www.x.invalid", "www`.`x.invalid"},
                                         {"WwW.x", "WwW`.`x"},
                                         {"awww. no", "awww`.` no"},
                                         {"ww.x", "ww.x"},
                                         {"a@b.invalid", "a`@`b.invalid"},
                                         {"a@@b", "a`@@`b"},
                                         {"see #12", "see `#`12"},
                                         {"no # 12", "no \\# 12"},
                                         {"\u202ea", "\\\\u{202E}a"},
                                         {"", ""},
                                         {"  ", ""}}) {
    CAPTURE(std::string(row.text));
    CHECK(markdown_line(row.text) == row.line);
  }
}

TEST_CASE("names in fixed-width type") {
  struct Row {
    std::string_view text, code;
  };
  for (const Row& row : std::vector<Row>{{"fuse/dc", "`fuse/dc`"},
                                         {"a`b", "``a`b``"},
                                         {"`", "`` ` ``"},
                                         {"``a", "``` ``a ```"},
                                         {" a ", "`  a  `"},
                                         {" a", "` a`"},
                                         {"", ""}}) {
    CAPTURE(std::string(row.text));
    CHECK(markdown_code(row.text) == row.code);
  }
}

TEST_CASE("nothing in a block ends it") {
  CHECK(markdown_block("a\nb\n", 3) == "   ```\n   a\n   b\n   ```\n");
  CHECK(markdown_block("```\n# a\n", 2) == "  ````\n  ```\n  # a\n  ````\n");
  CHECK(markdown_block("a ````` b", 0) == "``````\na ````` b\n``````\n");
}
