#include "tests/support/drafted.hpp"

#include <memory>

#include "src/draft/read_schedule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"

namespace boxproof::test {

Halves take_apart_design(const Folder& folder, const std::string& design) {
  const Called c = call({"schedule", folder.put("design.json", design), "--site", folder.path("site.json"),
                         "--output", folder.path("schedule.csv")});
  CAPTURE(c.err);
  REQUIRE(c.status == 0);
  REQUIRE(c.out.empty());
  return {folder.get("schedule.csv"), folder.get("site.json"), c.err};
}

std::string drafted(const Folder& folder, const std::string& schedule, const std::string& site) {
  const Called c =
      call({"draft", folder.put("schedule.csv", schedule), "--site", folder.put("site.json", site)});
  CAPTURE(c.err);
  REQUIRE(c.status == 0);
  REQUIRE(c.err.empty());
  return c.out;
}

std::string small_site() {
  Json site = sound_design();
  site["format"] = "boxproof-site/1";
  site["inverters"]["J"] = site["inverters"]["I"];
  site.erase("combiners");
  return site.dump(2);
}

std::vector<std::string> schedule_problems(const std::string& csv) {
  const std::string name = "boxes.csv";
  const Document site{"site.json", small_site()}, schedule{name, csv};
  std::vector<std::string> out;
  try {
    draft::read_schedule(schedule, read_site(site));
  } catch (const InputError& e) {
    for (const Problem& p : e.problems()) {
      REQUIRE(p.file == name);
      out.push_back(to_text(p).substr(name.size() + 1));
    }
  }
  return out;
}

std::unique_ptr<Made> made_design(const std::string& csv) {
  const Folder folder;
  auto out = std::make_unique<Made>();
  out->document = {"made.json", drafted(folder, csv, small_site())};
  out->file = read_design(out->document);
  return out;
}

}  // namespace boxproof::test
