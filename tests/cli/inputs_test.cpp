// Files, folders and patterns looked up.
#include "src/cli/inputs.hpp"

#include <sys/stat.h>

#include <filesystem>

#include "src/cli/case.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/nobody.hpp"

using namespace boxproof;
using namespace boxproof::test;
namespace fs = std::filesystem;

namespace {

using Strings = std::vector<std::string>;

// The paths below the folder; those that nobody named in brackets.
Strings found(const Folder& folder, const Strings& arguments) {
  Strings out;
  for (const cli::DesignInput& input : cli::find_designs(arguments)) {
    std::string path = input.path;
    if (path.starts_with(folder.root() + "/")) path.erase(0, folder.root().size() + 1);
    out.push_back(input.named ? path : "[" + path + "]");
  }
  return out;
}

// Goes there, and back at the end.
struct Within {
  fs::path before = fs::current_path();
  explicit Within(const std::string& folder) { fs::current_path(folder); }
  ~Within() { fs::current_path(before); }
};

}  // namespace

TEST_CASE("a folder: every .json under it in the order of paths, nothing hidden, no other ending") {
  const Folder folder;
  for (const char* name :
       {"s/b.json", "s/a.json", "s/a/z.json", "s/a-b/c.json", "s/a/deep/er/d.JSON", "s/.x.json",
        "s/.git/e.json", "s/c.jsonl", "s/json", "s/d.json.bak", "s/folder.json/f.json"})
    folder.put(name, "{}");
  const Strings all{"[s/a-b/c.json]", "[s/a.json]", "[s/a/deep/er/d.JSON]",
                    "[s/a/z.json]",   "[s/b.json]", "[s/folder.json/f.json]"};
  CHECK(found(folder, {folder.path("s")}) == all);
  CHECK(found(folder, {folder.path("s/")}) == all);
  CHECK(found(folder, {folder.path("s/.git")}) == Strings{"[s/.git/e.json]"});  // it was named
  const Within here(folder.path("s/a"));
  CHECK(found(folder, {"."}) == Strings{"[deep/er/d.JSON]", "[z.json]"});
  CHECK(found(folder, {"./"}) == Strings{"[deep/er/d.JSON]", "[z.json]"});
  CHECK(found(folder, {"../a-b"}) == Strings{"[../a-b/c.json]"});
}

TEST_CASE("each file once, where it comes first; to name it counts more than to find it") {
  const Folder folder;
  folder.put("s/a.json", "{}");
  folder.put("s/b.json", "{}");
  fs::create_symlink("b.json", folder.path("s/c.json"));
  const std::string a = folder.path("s/a.json"), b = folder.path("s/b.json"), s = folder.path("s");
  CHECK(found(folder, {s}) == Strings{"[s/a.json]", "[s/b.json]"});  // c is b
  CHECK(found(folder, {b, s}) == Strings{"s/b.json", "[s/a.json]"});
  CHECK(found(folder, {s, b}) == Strings{"[s/a.json]", "s/b.json"});
  CHECK(found(folder, {s, s, a, a}) == Strings{"s/a.json", "[s/b.json]"});
  CHECK(found(folder, {a, folder.path("s/../s/./a.json")}) == Strings{"s/a.json"});
  CHECK(found(folder, {"-", a, "-"}) == Strings{"-", "s/a.json"});
  const auto inputs = cli::find_designs({s, b});
  CHECK(inputs[0].arguments == std::vector<std::size_t>{0});
  CHECK(inputs[1].arguments == std::vector<std::size_t>{0, 1});
}

TEST_CASE("links: to folders they are not followed, to files they are; a loop ends") {
  const Folder folder;
  folder.put("s/a.json", "{}");
  folder.put("elsewhere/e.json", "{}");
  fs::create_symlink("..", folder.path("s/up"));
  fs::create_symlink(".", folder.path("s/loop.json"));  // a folder, whatever its name
  fs::create_symlink("../elsewhere", folder.path("s/other"));
  fs::create_symlink("../elsewhere/e.json", folder.path("s/file.json"));
  fs::create_symlink("nowhere.json", folder.path("s/gone.json"));
  fs::create_symlink("self.json", folder.path("s/self.json"));
  // A link that leads nowhere may have been a design: the run tells that it cannot be read.
  CHECK(found(folder, {folder.path("s")}) ==
        Strings{"[s/a.json]", "[s/file.json]", "[s/gone.json]", "[s/self.json]"});
  CHECK(found(folder, {folder.path("s/other")}) == Strings{"[s/other/e.json]"});  // it was named
}

TEST_CASE("a pipe in a folder is passed over, not waited for") {
  const Folder folder;
  folder.put("a.json", "{}");
  REQUIRE(mkfifo(folder.path("p.json").c_str(), 0600) == 0);
  CHECK(found(folder, {folder.root()}) == Strings{"[a.json]"});
  CHECK(found(folder, {folder.path("*.json")}) == Strings{"[a.json]"});
}

TEST_CASE("patterns, as a shell has them") {
  const Folder folder;
  for (const char* name :
       {"s/a1.json", "s/a2.json", "s/b1.json", "s/.h.json", "t/x.json", "s/n.txt", "s/[a].json"})
    folder.put(name, "{}");
  const auto match = [&](const std::string& pattern) { return found(folder, {folder.path(pattern)}); };
  CHECK(match("s/a*.json") == Strings{"[s/a1.json]", "[s/a2.json]"});
  CHECK(match("s/?1.json") == Strings{"[s/a1.json]", "[s/b1.json]"});
  CHECK(match("s/[ab]1.json") == Strings{"[s/a1.json]", "[s/b1.json]"});
  CHECK(match("s/[a].json") == Strings{"s/[a].json"});  // a file of that name is meant
  CHECK(match("?") == Strings{"[s/[a].json]", "[s/a1.json]", "[s/a2.json]", "[s/b1.json]", "[t/x.json]"});
  CHECK(match("s/*.txt") == Strings{"[s/n.txt]"});  // what a pattern names may end in anything
  for (const char* pattern : {"s/z*.json", "none/*", "s/[z-"}) {
    CAPTURE(pattern);
    CHECK_THROWS_AS(match(pattern), cli::WrongUse);
  }
}

TEST_CASE("a folder that cannot be looked through stands there with what is wrong, the others are found") {
  const Folder folder;
  folder.put("s/a.json", "{}");
  folder.put("s/locked/b.json", "{}");
  folder.put("s/z.json", "{}");
  fs::permissions(folder.root(), fs::perms::all);
  fs::permissions(folder.path("s/locked"), fs::perms::none);
  if (const AsNobody nobody; nobody) {
    const auto inputs = cli::find_designs({folder.path("s")});
    REQUIRE(inputs.size() == 3);
    CHECK(inputs[0].path == folder.path("s/a.json"));
    CHECK(inputs[1].path == folder.path("s/locked"));
    REQUIRE(inputs[1].unread);
    CHECK(std::string(inputs[1].unread->what()) ==
          folder.path("s/locked") +
              ": cannot be looked through (Permission denied); expected a folder that can; check its rights");
    CHECK(inputs[2].path == folder.path("s/z.json"));
    CHECK_FALSE(inputs[2].unread);
  }
  fs::permissions(folder.path("s/locked"), fs::perms::all);
}

TEST_CASE("what is not there is named all the same: its reader says so") {
  const Folder folder;
  CHECK(found(folder, {folder.path("none.json")}) == Strings{"none.json"});
  CHECK(found(folder, {folder.root()}).empty());
}
