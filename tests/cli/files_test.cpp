// Files in and out: what cannot be read is bad input (3), what cannot be written is 2; a report is there
// whole or not at all.
#include <sstream>

#include "src/cli/run.hpp"
#include "tests/support/bad_input.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

const std::string clean = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh.json";
constexpr const char* nothing_judged = "boxproof: 1 problem with the input; nothing was judged\n";

// A stream that takes so many bytes and then fails, as a full disk or a closed pipe does.
class Narrow : public std::streambuf {
 public:
  explicit Narrow(std::size_t room) : room_(room) {}

 protected:
  int_type overflow(int_type c) override { return room_ == 0 ? traits_type::eof() : (--room_, c); }
  std::streamsize xsputn(const char*, std::streamsize n) override {
    const auto taken = std::min<std::size_t>(room_, static_cast<std::size_t>(n));
    room_ -= taken;
    return static_cast<std::streamsize>(taken);
  }

 private:
  std::size_t room_;
};

}  // namespace

TEST_CASE("inputs that cannot be read") {
  const Folder folder;
  const std::string missing = folder.path("none.json");
  const Called none = call({"check", missing});
  CHECK(none.status == 3);
  CHECK(none.out.empty());
  CHECK(none.err ==
        missing + ": cannot be read (No such file or directory); expected a file that can; check the path\n" +
            nothing_judged);
  const Called directory = call({"box", folder.path(""), "A-01"});  // check looks for designs in it
  CHECK(directory.status == 3);
  CHECK(directory.err == folder.path("") +
                             ": found a directory, expected a file; name the JSON file in it\n" +
                             nothing_judged);
  CHECK(call({"check", clean, "--asbuilt", missing}).status == 3);
  CHECK(call({"box", missing, "A-01"}).status == 3);
  const std::string empty = folder.put("empty.json", "");
  CHECK(call({"check", empty}).status == 3);
  CHECK(call({"check", empty}).complains(empty + ":1:1: the file ends in the middle of a value"));
}

TEST_CASE("bad input outranks what would be found, and counts its problems") {
  const std::string two =
      changed(changed(as_json(small_design), "\"isc_a\": 10", "\"isc_a\": 0"), "\"a\": 20", "\"a\": 0");
  const Called c = call({"check", "-"}, {two, false, {}});
  CHECK(c.status == 3);
  CHECK(c.out.empty());
  CHECK(c.complains("<stdin>:6:36: /modules/M-1/isc_a: found 0, "));
  CHECK(c.complains("\nboxproof: 2 problems with the input; nothing was judged\n"));
  Json many = sound_design();
  for (int i = 0; i < 60; ++i) many["inverters"]["I" + std::to_string(i)] = 5;
  const Called fifty = call({"check", "-"}, {many.dump(), false, {}});
  CHECK(fifty.status == 3);
  CHECK(fifty.complains("\n… and 10 more\nboxproof: 60 problems with the input; nothing was judged\n"));
}

TEST_CASE("standard input, for the design or for the record") {
  const std::string design = example_text("saltmarsh.json");
  std::string expected = call({"check", clean}).out;  // but for the name of the file
  while (expected.find(clean) != std::string::npos)
    expected.replace(expected.find(clean), clean.size(), "<stdin>");
  CHECK(call({"check", "-"}, {design, false, {}}).out == expected);
  const std::string visit = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh-visit.json";
  CHECK(call({"check", clean, "--asbuilt", "-"}, {example_text("saltmarsh-visit.json"), false, {}}).status ==
        call({"check", clean, "--asbuilt", visit}).status);
  CHECK(call({"check", "-"}).status == 3);  // nothing comes
}

TEST_CASE("amendments in a file stand beside the design") {
  const Folder folder;
  Json design = sound_design();
  design["code"]["amendments"] = "local.json";
  const std::string path = folder.put("design.json", design.dump());
  CHECK(call({"check", path}).status == 3);
  CHECK(call({"check", path}).complains(folder.path("local.json") + ": cannot be read"));
  folder.put("local.json", R"({"voltage": {"limits": {"building": {"max_v": 500}}}})");
  const Called amended = call({"check", path});
  CHECK(amended.status == 1);
  CHECK(amended.says("Amended locally: voltage.limits.building.max_v"));
  folder.put("local.json", R"({"voltage": {"limits": {"building": {"max_v": "500"}}}})");
  CHECK(call({"check", path}).status == 3);
  CHECK(
      call({"check", path}).complains(folder.path("local.json") + ":1:47: /voltage/limits/building/max_v: "));
}

TEST_CASE("amendments of a design file are a file, even if it is called -") {
  // Only the command line means standard input by a dash; no file of that name is here.
  Json design = sound_design();
  design["code"]["amendments"] = "-";
  const Folder folder;
  CHECK(call({"check", folder.put("design.json", design.dump())}, {"{}", false, {}}).status == 3);
  const Called c = call({"check", "-"}, {design.dump(), false, {}});
  CHECK(c.status == 3);
  CHECK(c.complains("-: cannot be read"));
}

TEST_CASE("--output writes the whole report and leaves nothing else behind") {
  const Folder folder;
  const std::string path = folder.path("report.txt");
  for (int twice = 0; twice < 2; ++twice) {
    const Called c = call({"check", clean, "--output", path});
    CHECK(c.status == 0);
    CHECK(c.out.empty());
    CHECK(c.err.empty());
    CHECK(folder.names() == std::vector<std::string>{"report.txt"});
    CHECK(folder.get("report.txt") == call({"check", clean}).out);
  }
  CHECK(call({"box", clean, "A-01", "--output", path}).status == 0);
  CHECK(folder.get("report.txt") == call({"box", clean, "A-01"}).out);
  const std::string faults = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh-faults.json";
  CHECK(call({"check", faults, "--output", path}).status == 1);  // written all the same
  CHECK(folder.get("report.txt") == call({"check", faults}).out);
}

TEST_CASE("bad input leaves an older report as it is") {
  const Folder folder;
  const std::string path = folder.put("report.txt", "older");
  CHECK(call({"check", "-", "--output", path}, {"{", false, {}}).status == 3);
  CHECK(call({"check", clean, "--box", "Z*", "--output", path}).status == 2);
  CHECK(folder.get("report.txt") == "older");
  CHECK(folder.names() == std::vector<std::string>{"report.txt"});
}

TEST_CASE("an output never takes the place of an input, by whatever path it is named") {
  const Folder folder;
  const std::string plan = folder.put("plan.json", sound_design().dump());
  const std::string record =
      folder.put("record.json", R"({"format":"boxproof-asbuilt/1","boxes":[{"id":"A-01"}]})");
  const std::string report = folder.path("report.json"), roundabout = folder.path("./plan.json");
  REQUIRE(call({"check", plan, "--format", "json", "--output", report}).status == 0);
  const auto all = [&] {
    return folder.get("plan.json") + folder.get("record.json") + folder.get("report.json");
  };
  const std::string before = all();
  for (const std::vector<std::string>& command :
       std::vector<std::vector<std::string>>{{"check", plan, "--output", plan},
                                             {"check", plan, "--output", roundabout},
                                             {"check", plan, "--asbuilt", record, "--output", record},
                                             {"box", plan, "A-01", "--output", plan},
                                             {"labels", plan, "--output", plan},
                                             {"tally", plan, "--output", plan},
                                             {"tally", plan, "--again", report, "--output", report},
                                             {"compare", report, report, "--output", report}}) {
    CAPTURE(command);
    const Called c = call(command);
    CHECK(c.status == 2);
    CHECK(c.complains("which is the input"));
    CHECK(c.complains("expected another file"));
    CHECK(all() == before);
  }
  Json amended = sound_design();
  amended["code"]["amendments"] = "local.json";
  const std::string local = folder.put("local.json", R"({"conductor":{"voltage_drop":{"max_pct":1.5}}})");
  folder.put("plan.json", amended.dump());
  CHECK(call({"check", plan, "--output", local}).status == 2);
  CHECK(call({"check", plan, "--output", folder.path("other.txt")}).status == 0);
}

TEST_CASE("an output that cannot be written") {
  const Folder folder;
  const Called directory = call({"check", clean, "--output", folder.root()});
  CHECK(directory.status == 2);
  CHECK(directory.err == "boxproof: cannot write " + folder.root() + ": it is a directory; name a file\n");
  const std::string nowhere = folder.path("no/report.txt");
  const Called gone = call({"check", clean, "--output", nowhere});
  CHECK(gone.status == 2);
  CHECK(gone.err == "boxproof: cannot write " + nowhere + ": No such file or directory; nothing was kept\n");
  CHECK(gone.out.empty());
  CHECK(folder.names().empty());
  CHECK(call({"check", std::string(BOXPROOF_EXAMPLES) + "/saltmarsh-faults.json", "--output", nowhere})
            .status == 2);
  CHECK(call({"check", clean, "--output", "/dev/full"}).status == 2);
}

TEST_CASE("a standard output that fails is told, with 2") {
  for (const std::vector<std::string>& arguments :
       std::vector<std::vector<std::string>>{{"check", clean},
                                             {"check", clean, "--format", "json"},
                                             {"box", clean, "A-01"},
                                             {"rules"},
                                             {"rules", "voltage/site-limit"},
                                             {"tables"},
                                             {"tables", "--against", "2014"},
                                             {"schema", "design"},
                                             {"completion", "zsh"},
                                             {"man", "check"},
                                             {"--help"},
                                             {"--version"}})
    for (const std::size_t room : {0, 10}) {
      CAPTURE(arguments, room);
      Narrow narrow(room);
      std::istringstream in;
      std::ostream out(&narrow);
      std::ostringstream err;
      cli::Console console{in, out, err, false, [](const char*) { return std::nullopt; }};
      CHECK(cli::run(arguments, console) == 2);
      if (arguments.front()[0] != '-')
        CHECK(err.str().find("cannot write standard output") != std::string::npos);
    }
}
