// What stands beside the designs of a run: a baseline, and exceptions of which some are for some designs.
#include <filesystem>
#include <sstream>

#include "tests/support/agreed.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Arguments = std::vector<std::string>;

const Json unlisted = with_box({{"fuse", {{"pv_listed", false}}}});

// Two designs with one correction each, in a folder of their own, and a baseline of them beside it.
struct Sites {
  Folder folder;
  std::string sites = folder.path("sites"), baseline = folder.path("baseline.json");
  Sites() {
    std::filesystem::create_directory(sites);
    put("a.json", unlisted);
    put("b.json", unlisted);
    REQUIRE(call({"baseline", sites, "--reason", "existing", "--on", "2027-03-18", "--output", baseline})
                .status == 0);
  }
  void put(const std::string& name, const Json& design) const { folder.put("sites/" + name, design.dump()); }
  Called check(Arguments more = {}) const {
    more.insert(more.begin(), {"check", sites, "--baseline", baseline});
    return call(more);
  }
  std::string exceptions(const Json& entries) const {
    return folder.put("e.json", Json{{"format", "boxproof-exceptions/1"}, {"exceptions", entries}}.dump());
  }
};

// A wrapped text as one line.
std::string flat(const std::string& text) {
  std::istringstream words(text);
  std::string out, word;
  while (words >> word) out += (out.empty() ? "" : " ") + word;
  return out;
}

}  // namespace

TEST_CASE("a run of many designs fails only on what is not on the baseline") {
  const Sites s;
  CHECK(call({"check", s.sites}).status == 1);
  const Called same = s.check();
  CHECK(same.status == 0);
  CHECK(same.err.empty());
  s.put("c.json", unlisted);  // another design with the same finding
  CHECK(s.check().status == 1);
  s.put("c.json", sound_design());
  CHECK(s.check().status == 0);
  s.put("a.json", sound_design());  // mended
  CHECK(s.check().status == 0);
  CHECK(s.check().err.empty());
}

TEST_CASE("entries of designs that are there no more are told by a run that looked through a folder") {
  const Sites s;
  std::filesystem::remove(s.sites + "/b.json");
  const Called gone = s.check();
  CHECK(gone.status == 0);
  CHECK(gone.err ==
        s.baseline +
            ": found 1 entry of sites/b.json, which is not there any more; remove it, or write the "
            "baseline anew\n");
  CHECK(flat(gone.out).find("sites/b.json, which is not there any more") != std::string::npos);
  // Not by one of designs that were named.
  s.put("c.json", sound_design());
  const Called named = call({"check", s.sites + "/a.json", s.sites + "/c.json", "--baseline", s.baseline});
  CHECK(named.status == 0);
  CHECK(named.err.empty());
  // And not where it was looked through elsewhere.
  s.put("b.json", unlisted);
  std::filesystem::create_directory(s.folder.path("other"));
  s.folder.put("other/d.json", sound_design().dump());
  CHECK(call({"check", s.folder.path("other"), "--baseline", s.baseline}).err.empty());
}

TEST_CASE("exceptions beside many designs are told once where no design has a use for them") {
  const Sites s;
  const auto with = [&](const Json& entries) {
    return call({"check", s.sites, "--exceptions", s.exceptions(entries), "--on", "2027-02-01"});
  };
  const Called all = with(Json::array({an_exception("fuse/not-pv-listed")}));
  CHECK(all.status == 0);
  CHECK(all.err.empty());
  const Called one = with(Json::array({an_exception("fuse/not-pv-listed", {{"designs", {"sites/a.json"}}})}));
  CHECK(one.status == 1);
  CHECK(one.err.empty());
  const Called none =
      with({an_exception("fuse/not-pv-listed", {{"boxes", {"*", "Z-1"}}}), an_exception("fuse/not-dc"),
            an_exception("fuse/not-dc", {{"designs", {"north/a.json"}}})});
  CHECK(none.status == 0);
  CHECK(none.complains("\"Z-1\" names no box of any design of this run\n"));
  CHECK(none.complains("the exception for fuse/not-dc matches nothing in any design of this run\n"));
  CHECK(none.complains(": 1 exception is for none of the designs of this run\n"));
  CHECK(flat(none.out).find("matches nothing in any design of this run") != std::string::npos);
}
