#include "tests/support/judge.hpp"

#include <fmt/format.h>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

namespace boxproof::test {

Json sound_design() {
  static const Json sound = Json::parse(R"({
    "format": "boxproof-design/1",
    "site": {"name": "Test site", "use": "building", "low_c": -10, "high_c": 36, "temperature_source": "test"},
    "code": {"edition": "2017"},
    "modules": {"M": {"voc_v": 30, "isc_a": 9.6, "vmp_v": 25, "imp_a": 9, "pmax_w": 225,
      "voc_coeff_pct_per_c": -0.3, "vmp_coeff_pct_per_c": -0.4, "cell": "mono-si", "max_fuse_a": 20,
      "max_system_v": 1000, "listed": true}},
    "inverters": {"I": {"max_dc_v": 1000, "max_dc_isc_a": 500, "mppt_min_v": 200, "mppt_max_v": 900,
      "grounding": "solid", "ground_fault_protection": true, "arc_fault_protection": true, "rapid_shutdown": true,
      "backfeed_a": 0}},
    "conductors": {
      "string": {"size": "10 AWG", "material": "copper", "insulation": "PV wire", "insulation_c": 90, "rated_v": 1000,
        "stranding": "coarse"},
      "feeder": {"size": "4/0 AWG", "material": "copper", "insulation": "XHHW-2", "insulation_c": 90, "rated_v": 1000,
        "stranding": "coarse"}},
    "combiners": [{"id": "A-01", "inverter": "I", "sheet": "E-1", "location": "row 1",
      "mounting": {"place": "roof", "cover": "side", "air_gap_mm": 10, "wet": true},
      "enclosure": {"type": "4X", "rated_v": 1000, "rated_a": 200, "inputs": 12, "listed": true, "metal": true,
        "inside_c": 40},
      "circuits": [{"id": "1", "module": "M", "series": 18, "strings": 9,
        "run": {"conductor": "string", "method": "free-air", "current_carrying": 2, "terminal_c": 75, "length_m": 20}}],
      "fuse": {"a": 15, "v": 1000, "dc": true, "pv_listed": true, "poles": "one", "interrupt_ka": 20},
      "output": {"run": {"conductor": "feeder", "method": "raceway", "current_carrying": 2, "terminal_c": 75,
        "length_m": 20}, "ocpd_a": 175},
      "disconnect": {"rated_v": 1000, "rated_a": 200, "load_break": true, "distance_m": 0, "external_handle": true,
        "lockable": true},
      "egc": {"size": "6 AWG", "material": "copper"},
      "bond": {"size": "10 AWG", "material": "copper"},
      "labels": [{"kind": "box-identification"}, {"kind": "max-voltage", "values": {"max_v": 597, "max_a": 108}},
        {"kind": "dc-power-source",
         "values": {"imp_a": 81, "vmp_v": 450, "max_v": 597, "max_a": 108, "isc_a": 86.4}},
        {"kind": "shock-both-sides"}, {"kind": "raceway-power-source"}, {"kind": "ground-fault"},
        {"kind": "rapid-shutdown"}, {"kind": "disconnect"}]}]
  })");
  return sound;
}

Json with(const Json& patch) {
  Json design = sound_design();
  design.merge_patch(patch);
  return design;
}

Json with_box(const Json& patch) {
  Json design = sound_design();
  design["combiners"][0].merge_patch(patch);
  return design;
}

Json with_circuit(const Json& patch) {
  Json design = sound_design();
  design["combiners"][0]["circuits"][0].merge_patch(patch);
  return design;
}

const Finding* Judged::find(std::string_view rule, std::string_view part) const {
  const Finding* found = nullptr;
  for (const Finding& f : judgement.findings) {
    if (f.rule->id != rule || (!part.empty() && f.part != part)) continue;
    CAPTURE(std::string(rule), std::string(part), summary());
    REQUIRE(found == nullptr);
    found = &f;
  }
  return found;
}

std::vector<std::string> Judged::summary() const {
  std::vector<std::string> out;
  for (const Finding& f : judgement.findings)
    out.push_back(
        fmt::format("{} {} {}", f.rule->id, severity_names[static_cast<std::size_t>(f.severity)], f.part));
  return out;
}

std::unique_ptr<Judged> judge(const Json& design, std::string_view edition, const Json& record,
                              const CheckOptions& options) {
  auto out = std::make_unique<Judged>();
  out->document = {"design.json", design.dump(2)};
  out->design = read_design(out->document);
  if (!record.is_null()) {
    out->record_document = {"record.json", record.dump(2)};
    out->record = read_field_record(out->record_document);
  }
  Design& d = out->design.design;
  const Amendments amendments{&out->document, d.amendments_offset};
  const std::string_view name = edition.empty() ? std::string_view(d.edition) : edition;
  out->edition = d.amendments_offset ? load_edition(name, &amendments) : edition_of(name);
  out->judgement = check(out->design, out->edition, out->record ? &*out->record : nullptr, options);
  return out;
}

std::string severity_of(const Json& design, std::string_view rule, std::string_view edition,
                        std::string_view part) {
  const auto judged = judge(design, edition);
  const Finding* f = judged->find(rule, part);
  return f == nullptr ? "none" : std::string(severity_names[static_cast<std::size_t>(f->severity)]);
}

}  // namespace boxproof::test
