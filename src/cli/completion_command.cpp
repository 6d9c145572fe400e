// completion and man: what the shell and man(1) want of the program.
#include "src/cli/commands.hpp"
#include "src/cli/completion.hpp"
#include "src/cli/files.hpp"
#include "src/cli/man_page.hpp"

namespace boxproof::cli {
namespace {

int print(const std::string& text, Console& console) {
  Target target("", console.out);
  target.write(text);
  target.finish();
  return done;
}

}  // namespace

int completion_command(const Options& o, Console& console) {
  return print(o.shell == "zsh" ? zsh_completion() : bash_completion(), console);
}

int man_command(const Options& o, Console& console) {
  return print(man_page(o.page), console);
}

}  // namespace boxproof::cli
