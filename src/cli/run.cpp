#include "src/cli/run.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <new>
#include <ostream>

#include "boxproof/report.hpp"
#include "src/cli/case.hpp"
#include "src/cli/commands.hpp"
#include "src/cli/files.hpp"
#include "src/cli/options.hpp"
#include "src/cli/settings.hpp"
#include "src/edition/compare.hpp"
#include "src/report/layout.hpp"
#include "src/report/rules.hpp"
#include "src/rules/notes.hpp"
#include "src/text/nearest.hpp"

namespace boxproof::cli {
namespace {

// The rules that are asked for: one, those of some topics, or all.
std::vector<const Rule*> chosen_rules(const Options& o) {
  const std::span<const Rule* const> all = all_rules();
  if (o.id.empty()) {
    std::vector<const Rule*> out;
    for (const Rule* rule : all) {
      const std::string_view topic = rule->id.substr(0, rule->id.find('/'));
      if (o.topics.empty() || std::find(o.topics.begin(), o.topics.end(), topic) != o.topics.end())
        out.push_back(rule);
    }
    return out;
  }
  if (const Rule* rule = find_rule(o.id); rule != nullptr) return {rule};
  std::vector<std::string_view> ids;
  for (const Rule* rule : all) ids.push_back(rule->id);
  throw WrongUse(
      fmt::format("found no rule \"{}\"{}; boxproof rules lists them", o.id, text::did_you_mean(o.id, ids)));
}

int rules_command(const Options& o, Console& console) {
  const std::vector<const Rule*> rules = chosen_rules(o);
  std::vector<Edition> editions;
  for (std::string_view name : edition_names)
    if (o.editions.empty() || std::find(o.editions.begin(), o.editions.end(), name) != o.editions.end())
      editions.push_back(load_edition(name));
  Target target(o.output, console.out);
  const Write write = [&target](std::string_view text) { target.write(text); };
  if (o.format == "json")
    report::write_rules_json(rules, editions, write);
  else if (o.format == "markdown")
    o.id.empty() ? report::write_checklist(rules, editions, write)
                 : report::write_rule_markdown(*rules.front(), editions, write);
  else
    o.id.empty() ? report::write_rule_list(rules, editions, write)
                 : report::write_rule(*rules.front(), editions, write);
  target.finish();
  return done;
}

int tables_command(const Options& o, Console& console) {
  if (!o.topics.empty() && !o.against.empty())
    throw WrongUse(fmt::format(
        "found the topic \"{}\" with --against, expected one of the two: --against compares whole editions",
        o.topics.front()));
  const std::string edition = o.edition.empty() ? std::string(edition_names.back()) : o.edition;
  Target target("", console.out);
  const Write write = [&target](std::string_view text) { target.write(text); };
  if (o.against.empty()) {
    report::write_tables(load_edition(edition), o.topics, write);
  } else {
    write(fmt::format("What {} states differently from {}\n", edition, o.against));
    const std::vector<Difference> all = differences(edition, o.against);
    if (all.empty()) write("nothing differs\n");
    for (const Difference& d : all) {
      write(d.path + "\n");
      write(report::wrap(d.one.empty() ? "–" : d.one, 8, fmt::format("  {}  ", edition)));
      write(report::wrap(d.two.empty() ? "–" : d.two, 8, fmt::format("  {}  ", o.against)));
    }
  }
  target.finish();
  return done;
}

struct Command {
  std::string_view name;
  int (*run)(const Options&, Console&);
};
constexpr Command all_commands[] = {
    {"check", check_command},   {"box", box_command},           {"labels", labels_command},
    {"tally", tally_command},   {"compare", compare_command},   {"baseline", baseline_command},
    {"draft", draft_command},   {"schedule", schedule_command}, {"rules", rules_command},
    {"tables", tables_command}, {"schema", schema_command},     {"completion", completion_command},
    {"man", man_command}};

}  // namespace

void say(std::string_view text, Console& console) {
  const std::string line = report::plain(text);
  // The log of a workflow takes a line that begins with two colons for a command: a path may begin so.
  const auto start = line.find_first_not_of(' ');
  const bool command = start != std::string::npos && line.compare(start, 2, "::") == 0;
  console.err << (command ? "boxproof: " : "") << line << "\n";
}

void tell(const InputError& e, Console& console) {
  for (const Problem& p : e.problems()) say(to_text(p), console);
  if (e.total() > e.problems().size())
    console.err << fmt::format("… and {} more\n", e.total() - e.problems().size());
}

int run(const std::vector<std::string>& arguments, Console& console) {
  try {
    const Parsed parsed = parse(arguments);
    if (!parsed.options) {
      (parsed.status == done ? console.out : console.err) << parsed.text;
      return parsed.status == done && !console.out.flush() ? wrong_use : parsed.status;
    }
    Options options = *parsed.options;
    if (options.output == "-") options.output.clear();
    if (!options.no_settings) apply_settings(options, console);
    if (!options.on.empty() && options.exceptions.empty() && options.command != "baseline")
      throw WrongUse("found --on without agreed exceptions, expected --exceptions FILE with it");
    keep_inputs(options);
    for (const Command& command : all_commands)
      if (command.name == options.command) return command.run(options, console);
    return wrong_use;
  } catch (const InputError& e) {
    tell(e, console);
    console.err << fmt::format("boxproof: {}; nothing was judged\n",
                               counted(e.total(), "problem with the input", "problems with the input"));
    return bad_input;
  } catch (const WrongUse& e) {
    console.err << "boxproof: " << report::plain(e.what()) << "\n";
    return wrong_use;
  } catch (const CannotWrite& e) {
    console.err << "boxproof: " << report::plain(e.what()) << "\n";
    return wrong_use;
  } catch (const std::bad_alloc&) {
    console.err << "boxproof: there is not enough memory for this; nothing was kept\n";
    return wrong_use;
  }
}

}  // namespace boxproof::cli
