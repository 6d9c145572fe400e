// Conditions that came so from the maker: which boxes are to be looked at besides.
#include <chrono>

#include "src/rules/like_boxes.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

// The sound box as a type, and boxes of it by name.
Json typed(const std::vector<std::string>& ids, const std::string& type = "T8") {
  Json design = sound_design();
  Json parts = design["combiners"][0];
  parts.erase("id");
  design["box_types"] = {{type, parts}};
  design["combiners"] = Json::array();
  for (const std::string& id : ids) design["combiners"].push_back({{"id", id}, {"type", type}});
  return design;
}

std::vector<std::string> numbered(int count, int step) {
  std::vector<std::string> ids;
  for (int i = 0; i < count; ++i) ids.push_back("A-" + std::to_string(1 + i * step));
  return ids;
}

Json seen_in(std::string_view id, const char* origin) {
  Json seen = {{"what", "cracked-bushing"}, {"photo", "p-1"}};
  if (origin != nullptr) seen["origin"] = origin;
  return {{"format", "boxproof-asbuilt/1"}, {"boxes", {{{"id", id}, {"seen", {seen}}}}}};
}

// What the message says behind the photo.
std::string rest(const Json& design, std::string_view id = "A-1", const char* origin = "manufacture") {
  const auto judged = judge(design, {}, seen_in(id, origin));
  const Finding* f = judged->find("condition/cracked-bushing");
  REQUIRE(f != nullptr);
  CHECK(f->ask.empty() == (f->message.find("maker") == std::string::npos));
  return f->message.substr(f->message.find("(photo p-1)") + 11);
}

const std::string concerned = "; its maker and like parts on this site are concerned";
const std::string others = ", so look also at the other boxes of type T8 ";

}  // namespace

TEST_CASE("the other boxes of the type are named, sequences run together") {
  CHECK(rest(typed({"A-1", "A-2"})) == concerned + others + "(A-2).");
  CHECK(rest(typed({"A-1", "A-2", "A-3", "A-4", "B-7"})) == concerned + others + "(A-2…A-4, B-7).");
  CHECK(rest(typed({"A-1", "A-2", "A-3", "A-4", "A-5", "A-6"}), "A-3") ==  // the sequence without its middle
        concerned + others + "(A-1, A-2, A-4…A-6).");
  CHECK(rest(typed({"A-1", "A-2", "A-3", "A-4"}), "A-4") == concerned + others + "(A-1…A-3).");
}

TEST_CASE("boxes of another type are not like boxes") {
  Json design = typed({"A-1", "A-2", "A-3"});
  design["box_types"]["T9"] = design["box_types"]["T8"];
  design["combiners"][1]["type"] = "T9";
  CHECK(rest(design) == concerned + others + "(A-3).");
  CHECK(rest(design, "A-2") == concerned + "; the plan has no other box of type T9.");
}

TEST_CASE("twelve ids are named at most, the others counted") {
  // Every second number, so that no two run together; A-1 itself is not named.
  CHECK(rest(typed(numbered(13, 2))) ==
        concerned + others + "(A-3, A-5, A-7, A-9, A-11, A-13, A-15, A-17, A-19, A-21, A-23, A-25).");
  CHECK(rest(typed(numbered(14, 2))) ==
        concerned + others +
            "(A-3, A-5, A-7, A-9, A-11, A-13, A-15, A-17, A-19, A-21, A-23, A-25 and 1 more).");
  CHECK(rest(typed(numbered(400, 1))) == concerned + others + "(A-2…A-400).");
}

TEST_CASE("where the plan names no type, like boxes are not known") {
  CHECK(rest(sound_design(), "A-01") ==
        concerned +
            ", but the plan names no type for this box, so which boxes are like it is not known here.");
  CHECK(rest(sound_design(), "X-1") ==
        concerned + ", but the plan does not have this box, so which boxes are like it is not known here.");
}

TEST_CASE("nothing is said of the maker where the origin is another or is not said") {
  for (const char* origin : {"installation", "unknown", static_cast<const char*>(nullptr)})
    CHECK(rest(typed({"A-1", "A-2"}), "A-1", origin) == ".");
  const auto found = [](const char* origin) {
    const auto judged = judge(sound_design(), {}, seen_in("A-01", origin));
    return std::get<std::string>(judged->find("condition/cracked-bushing")->found);
  };
  CHECK(found("manufacture") == "cracked bushing (origin: manufacture)");
  CHECK(found("installation") == "cracked bushing (origin: installation)");
  CHECK(found("unknown") == "cracked bushing");
}

TEST_CASE("the others of 60 000 boxes of a type are named for each in no time to speak of") {
  // Ids that never run together: the worst case for the list. Looking at all boxes for each would take
  // 3.6 thousand million steps, minutes in a build without optimisation.
  constexpr std::uint32_t boxes = 60'000;
  Design design;
  BoxType type{"T8", {}};
  for (std::uint32_t i = 0; i < boxes; ++i) {
    Combiner& box = design.combiners.emplace_back();
    box.id = "A-" + std::to_string(2 * i);
    box.type = &type;
  }
  const auto start = std::chrono::steady_clock::now();
  const LikeBoxes like(design);
  std::size_t unnamed = 0;
  for (std::uint32_t i = 0; i < boxes; ++i) unnamed += like.others(type, i).unnamed;
  CHECK(unnamed == std::size_t{boxes} * (boxes - 1 - 12));
  CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(20));
}
