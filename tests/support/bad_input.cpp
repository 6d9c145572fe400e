#include "tests/support/bad_input.hpp"

#include <algorithm>

#include "boxproof/baseline.hpp"
#include "boxproof/exceptions.hpp"
#include "tests/support/catch.hpp"

namespace boxproof::test {
namespace {

template <class Read>
std::vector<std::string> problems(const Document& document, Read&& read) {
  std::vector<std::string> out;
  try {
    read(document);
  } catch (const InputError& e) {
    for (const Problem& p : e.problems()) out.push_back(to_text(p));
  }
  return out;
}

template <class Problems>
void check_all(std::string_view sound, std::string_view file, const std::vector<BadInput>& table,
               Problems&& problems_of) {
  CHECK(problems_of(as_json(sound)) == std::vector<std::string>{});
  for (const BadInput& bad : table) {
    CAPTURE(std::string(bad.what));
    std::vector<std::string> expected;
    for (std::string_view line : bad.lines) expected.push_back(std::string(file) + ":" + as_json(line));
    CHECK(problems_of(as_json(changed(sound, bad.from, bad.to))) == expected);
  }
}

}  // namespace

std::string as_json(std::string_view text) {
  std::string out(text);
  std::replace(out.begin(), out.end(), '\'', '"');
  return out;
}

std::string changed(std::string_view text, std::string_view from, std::string_view to) {
  const auto at = text.find(from);
  CAPTURE(std::string(from));
  REQUIRE(at != std::string_view::npos);
  REQUIRE(text.find(from, at + 1) == std::string_view::npos);
  return std::string(text.substr(0, at)) + std::string(to) + std::string(text.substr(at + from.size()));
}

std::vector<std::string> design_problems(std::string_view text) {
  return problems({"design.json", std::string(text)}, [](const Document& d) { read_design(d); });
}
std::vector<std::string> record_problems(std::string_view text) {
  return problems({"record.json", std::string(text)}, [](const Document& d) { read_field_record(d); });
}
std::vector<std::string> baseline_problems(std::string_view text) {
  return problems({"b.json", std::string(text)}, read_baseline);
}
std::vector<std::string> exceptions_problems(std::string_view text) {
  return problems({"e.json", std::string(text)}, read_exceptions);
}

std::vector<std::string> without_reasons(std::vector<std::string> problems) {
  for (std::string& line : problems) {
    const auto open = line.find(" ("), close = line.rfind("); expected one complete JSON document");
    if (open < close && close != std::string::npos) line.erase(open, close + 1 - open);
  }
  return problems;
}

void check_designs(std::string_view sound, const std::vector<BadInput>& table) {
  check_all(sound, "design.json", table, design_problems);
}
void check_records(std::string_view sound, const std::vector<BadInput>& table) {
  check_all(sound, "record.json", table, record_problems);
}
void check_baselines(std::string_view sound, const std::vector<BadInput>& table) {
  check_all(sound, "b.json", table, baseline_problems);
}
void check_exceptions(std::string_view sound, const std::vector<BadInput>& table) {
  check_all(sound, "e.json", table, exceptions_problems);
}

const std::string_view small_design = R"({
  'format': 'boxproof-design/1',
  'site': { 'name': 'Trial Field', 'use': 'ground', 'permit': { 'strings': 10 } },
  'code': { 'edition': '2017' },
  'modules': {
    'M-1': { 'voc_v': 40, 'isc_a': 10, 'vmp_v': 32, 'imp_a': 9, 'pmax_w': 288, 'cell': 'mono-si' }
  },
  'inverters': { 'I-1': { 'max_dc_v': 1000, 'grounding': 'solid' } },
  'conductors': { 'pv-10': { 'size': '10 AWG', 'insulation_c': 90 } },
  'box_types': {
    'T-1': { 'inverter': 'I-1', 'mounting': { 'wet': true } }
  },
  'combiners': [
    { 'id': 'A-1', 'type': 'T-1', 'circuits': [ { 'module': 'M-1', 'series': 20, 'strings': 6 } ] },
    { 'id': 'A-2', 'inverter': 'I-1',
      'mounting': { 'place': 'roof' },
      'enclosure': { 'inputs': 12 },
      'circuits': [
        { 'module': 'M-1', 'series': 18, 'strings': 4, 'run': { 'conductor': 'pv-10' } }
      ],
      'fuse': { 'a': 20 },
      'output': { 'ocpd_a': 175 },
      'disconnect': { 'rated_v': 1000 },
      'egc': { 'size': '6 AWG' },
      'bond': { 'material': 'copper' },
      'labels': [ { 'kind': 'disconnect' } ] }
  ]
}
)";

const std::string_view small_record = R"({
  'format': 'boxproof-asbuilt/1',
  'visit': { 'date': '2027-03-18', 'kind': 'first' },
  'boxes': [
    { 'id': 'A-1' },
    { 'id': 'A-2',
      'posted': { 'id': 'A-2', 'strings': 4 },
      'count': { 'positive': 4, 'series': [ 18, 18 ] },
      'fuse': { 'a': 20, 'dc': true },
      'mixed_fuses': [ { 'position': 2, 'a': 15 } ],
      'enclosure': { 'type': '4X', 'cover': 'side' },
      'disconnect': { 'present': true, 'rated_v': 1000 },
      'output': { 'size': '4/0 AWG', 'stranding': 'coarse' },
      'source': { 'material': 'copper' },
      'egc': { 'size': '6 AWG' },
      'labels': [ { 'kind': 'disconnect', 'legible': true } ],
      'seen': [ { 'what': 'burned-bus', 'origin': 'unknown' } ],
      'measured': { 'cell_c': 30, 'strings': [ { 'position': 1, 'voc_v': 700 } ] } }
  ]
}
)";

}  // namespace boxproof::test
