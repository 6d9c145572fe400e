// Voltage: every string at the coldest hour against everything that it can reach.
#include "src/rules/common.hpp"
#include "src/rules/list.hpp"

namespace boxproof {
namespace {

std::string_view place_words(Use use) {
  switch (use) {
    case Use::dwelling: return "on a one- or two-family dwelling";
    case Use::building: return "on a building";
    case Use::ground: return "off buildings";
  }
  return {};
}

void work_voltage(Working& working, const BoxCase& c, std::size_t circuit) {
  const Circuit& g = c.box.circuits[circuit];
  string_voltage(*g.module, g.series, c.design.site.low, c.edition, &working);
}

// Says what the string reaches, told apart from the limit that it is held against.
std::string string_of(const BoxCase& c, std::size_t circuit, Volts limit) {
  const Circuit& g = c.box.circuits[circuit];
  return fmt::format("The string of {} modules on {} (circuit {}) reaches {} V at {} °C", g.series, c.box.id,
                     g.id, shown(*c.facts.circuits[circuit].voltage.max, limit), shown(*design_low(c)));
}

// A site off buildings whose box stands on or in one: too much hangs on which it is to go on in silence.
void query_use(const BoxCase& c, Notes& out) {
  if (c.design.site.use != Use::ground || !c.box.mounting || !c.box.mounting->place) return;
  const Place place = *c.box.mounting->place;
  if (place != Place::roof && place != Place::indoor) return;
  const std::string_view stands = place == Place::roof ? "on a roof" : "indoors";
  out.find(Severity::query, "use")
      .found(std::string(stands))
      .required(std::string("off buildings, as site.use says"))
      .at_design("/site/use")
      .ask(
          "Correct site.use, or the mounting of the box: the site limit, the exception from ground-fault "
          "protection, arc-fault protection, rapid shutdown and labels hang on it.")
      .say(
          "The plan says that the site is not on or in a building, and {} stands {}: which of the two is it?",
          c.box.id, stands);
}

// One finding where the box's highest string is above what a part of it may see.
void against(const BoxCase& c, Notes& out, std::optional<Volts> rated, std::string part, std::string_view at,
             std::string_view what) {
  if (!c.facts.max_voltage) return;
  if (!rated) return out.lacks_in_box(at);
  if (!exceeds(*c.facts.max_voltage, *rated)) return;
  const std::size_t circuit = c.facts.highest_circuit;
  out.find(std::move(part))
      .found(c.facts.max_voltage->value())
      .required(rated->value())
      .unit("V")
      .at(at)
      .say("{}; {} is rated {} V.", string_of(c, circuit, *rated), what, shown(*rated, *c.facts.max_voltage))
      .work([&](Working& w) { work_voltage(w, c, circuit); });
}

}  // namespace

const Rule voltage_site_limit{
    .id = "voltage/site-limit",
    .severity = Severity::hazard,
    .title = "String voltage above the limit for the site",
    .explain =
        {"Holds the highest string voltage of the box at the lowest expected temperature against the "
         "voltage that the edition allows where the array stands: on a dwelling, on another building, or "
         "off buildings.",
         "Above the limit, insulation, working distances and the whole set of rules that the installation "
         "was approved under no longer apply; an arc at such a voltage is longer and harder to put out.",
         "The voltage is that of voltage/no-factor's page: modules in series, times the rated open-circuit "
         "voltage, corrected for cold. A hazard where the edition forbids more; a correction where the "
         "limit is only the threshold above which the articles on higher voltages apply; a query where the "
         "site is said to be off buildings and the box stands on a roof or indoors."},
    .remedy =
        "Shorten the strings, or, where the limit is a threshold, show compliance with the higher-voltage "
        "rules.",
    .uses = {"voltage.limits", "voltage.cold_table", "voltage.design_low", "voltage.maximum"},
    .judge = [](const BoxCase& c, Notes& out) {
      query_use(c, out);
      lacks_of_voltage(c, out, false);
      if (!c.facts.max_voltage) return;
      const VoltageLimit& limit = c.edition.limit(c.design.site.use);
      if (!exceeds(*c.facts.max_voltage, limit.max)) return;
      const std::size_t circuit = c.facts.highest_circuit;
      out.find(limit.ban ? Severity::hazard : Severity::correction, circuit_part(c.box.circuits[circuit]))
          .found(c.facts.max_voltage->value())
          .required(limit.max.value())
          .unit("V")
          .section(limit.section)
          .at(fmt::format("/circuits/{}/series", circuit))
          .say("{}; {} {} V {}.", string_of(c, circuit, limit.max),
               limit.ban ? "the limit is" : "the rules for higher voltages apply above",
               shown(limit.max, *c.facts.max_voltage), place_words(c.design.site.use))
          .work([&](Working& w) { work_voltage(w, c, circuit); });
    }};

const Rule voltage_module_rating{
    .id = "voltage/module-rating",
    .severity = Severity::hazard,
    .title = "String voltage above the module's maximum system voltage",
    .explain =
        {"Holds the voltage of each string at the lowest expected temperature against the maximum system "
         "voltage that its modules are listed for.",
         "The module's insulation, junction box and connectors are tested to that voltage and no further; "
         "beyond it they break down to frame and ground.",
         "String voltage as for the site limit, per group of circuits; the rating is the module's "
         "max_system_v."},
    .remedy = "Shorten the strings, or choose a module listed for the voltage.",
    .uses = {"voltage.cold_table", "voltage.design_low", "voltage.maximum"},
    .judge = [](const BoxCase& c, Notes& out) {
      lacks_of_voltage(c, out, false);
      for (std::size_t i = 0; i < c.box.circuits.size(); ++i) {
        const CircuitFacts& f = c.facts.circuits[i];
        if (!f.voltage.max) continue;
        const Module& m = *f.circuit->module;
        if (!m.max_system) {
          out.lacks(key_of(m, "max_system_v"));
        } else if (exceeds(*f.voltage.max, *m.max_system)) {
          out.find(circuit_part(*f.circuit))
              .found(f.voltage.max->value())
              .required(m.max_system->value())
              .unit("V")
              .at(fmt::format("/circuits/{}/series", i))
              .say("{}; module {} is listed for {} V.", string_of(c, i, *m.max_system), m.id,
                   shown(*m.max_system, *f.voltage.max))
              .work([&](Working& w) { work_voltage(w, c, i); });
        }
      }
    }};

const Rule voltage_inverter_input{
    .id = "voltage/inverter-input",
    .severity = Severity::hazard,
    .title = "String voltage above the inverter's maximum input voltage",
    .explain = {"Holds the highest string voltage of the box at the lowest expected temperature against "
                "the maximum DC voltage of the inverter that it feeds.",
                "On a cold clear morning, before the inverter starts, its input sees the full open-circuit "
                "voltage; above its rating the input stage fails, often with fire.",
                "String voltage as for the site limit; the rating is the inverter's max_dc_v."},
    .remedy = "Shorten the strings, or choose an inverter with a higher input rating.",
    .uses = {"voltage.cold_table", "voltage.design_low", "voltage.maximum"},
    .judge = [](const BoxCase& c, Notes& out) {
      lacks_of_voltage(c, out, false);
      if (!c.facts.max_voltage) return;
      const Inverter& inverter = *c.box.inverter;
      if (!inverter.max_dc) return out.lacks(key_of(inverter, "max_dc_v"));
      if (!exceeds(*c.facts.max_voltage, *inverter.max_dc)) return;
      const std::size_t circuit = c.facts.highest_circuit;
      out.find("inverter " + inverter.id)
          .found(c.facts.max_voltage->value())
          .required(inverter.max_dc->value())
          .unit("V")
          .at(fmt::format("/circuits/{}/series", circuit))
          .say("{}; inverter {} takes {} V at most.", string_of(c, circuit, *inverter.max_dc), inverter.id,
               shown(*inverter.max_dc, *c.facts.max_voltage))
          .work([&](Working& w) { work_voltage(w, c, circuit); });
    }};

const Rule voltage_equipment_rating{
    .id = "voltage/equipment-rating",
    .severity = Severity::hazard,
    .title = "String voltage above the rating of a part of the box",
    .explain =
        {"Holds the highest string voltage of the box at the lowest expected temperature against the rated "
         "voltage of its fuses, disconnect, enclosure and conductors: one finding for each part.",
         "A fuse or switch above its voltage rating does not put out the arc it draws: it becomes the "
         "fire. Insulation above its rating tracks and fails.",
         "String voltage as for the site limit; a string's own conductors are held against that string's "
         "voltage, everything else against the box's highest."},
    .remedy = "Replace the part by one rated for the voltage, or shorten the strings.",
    .uses = {"voltage.cold_table", "voltage.design_low", "voltage.maximum"},
    .judge = [](const BoxCase& c, Notes& out) {
      lacks_of_voltage(c, out, false);
      if (c.box.fuse) against(c, out, c.box.fuse->voltage, "fuse", "/fuse/v", "the fuse");
      if (c.box.disconnect)
        against(c, out, c.box.disconnect->rated_voltage, "disconnect", "/disconnect/rated_v",
                "the disconnect");
      against(c, out, c.box.enclosure ? c.box.enclosure->rated_voltage : std::nullopt, "enclosure",
              "/enclosure/rated_v", "the box");
      each_run(c, [&](const LaidRun& laid) {
        const Conductor* conductor = laid.conductor();
        const std::size_t circuit = laid.circuit.value_or(c.facts.highest_circuit);
        const auto& max = c.facts.circuits[circuit].voltage.max;
        if (conductor == nullptr || !max) return;  // the missing run is told by the ampacity rule
        if (!conductor->rated) {
          out.lacks(key_of(*conductor, "rated_v"));
        } else if (exceeds(*max, *conductor->rated)) {
          out.find(laid.part())
              .found(max->value())
              .required(conductor->rated->value())
              .unit("V")
              .at(laid.pointer() + "/conductor")
              .say("{}; the {} is rated {} V.", string_of(c, circuit, *conductor->rated),
                   laid.name(c.edition.terms), shown(*conductor->rated, *max))
              .work([&](Working& w) { work_voltage(w, c, circuit); });
        }
      });
    }};

const Rule voltage_no_factor{
    .id = "voltage/no-factor",
    .severity = Severity::query,
    .title = "String voltage cannot be computed",
    .explain =
        {"Says where the voltage of a string at the lowest expected temperature cannot be computed: no "
         "lowest temperature, no coefficient, or no factor in the table for such a module or such cold.",
         "Cold raises the voltage of a module by a tenth and more; without the correction nobody knows "
         "what fuses, switches and inverter will see.",
         "With a coefficient in percent: n times Voc times (1 + coefficient times (T − 25)); in volts: n "
         "times (Voc + coefficient times (T − 25)). Without one, for crystalline silicon only, n times Voc "
         "times the factor of the edition's table, a temperature between two bands taking the colder. At "
         "25 °C and above the factor is 1. A coefficient, where there is one, always goes before the table."},
    .remedy =
        "State the lowest expected temperature, and the coefficient of the open-circuit voltage from the "
        "data sheet.",
    .uses = {"voltage.cold_table", "voltage.design_low"},
    .judge = [](const BoxCase& c, Notes& out) { lacks_of_voltage(c, out, true); }};

}  // namespace boxproof
