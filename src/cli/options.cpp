// The one file that knows CLI11.
#include "src/cli/options.hpp"

#include "boxproof/design.hpp"
#include "boxproof/edition.hpp"
#include "boxproof/report.hpp"
#include "src/cli/describe_app.hpp"
#include "src/cli/help.hpp"
#include "src/cli/option_values.hpp"
#include "src/cli/outputs.hpp"
#include "src/cli/run.hpp"
#include "src/report/layout.hpp"
#include "src/report/rules.hpp"
#include "src/text/nearest.hpp"

namespace boxproof::cli {
namespace {

constexpr const char* output_group = "Output";  // heading in the help

// The topics of the rules, as they stand in the ids.
std::vector<std::string> rule_topics() {
  std::vector<std::string> out;
  for (const Rule* rule : all_rules()) {
    const std::string topic(rule->id.substr(0, rule->id.find('/')));
    if (out.empty() || out.back() != topic) out.push_back(topic);
  }
  return out;
}

void add_output_option(CLI::App& command, Options& o) {
  command.add_option("--output", o.output, "write to this file, in place of standard output")
      ->type_name("FILE")
      ->group(output_group);
}

void add_format_option(CLI::App& command, Options& o, std::vector<std::string> formats,
                       const std::string& what) {
  command.add_option("--format", o.format, what)
      ->type_name("FORMAT")
      ->check(one_of(std::move(formats)))
      ->group(output_group);
}

void add_fail_on_option(CLI::App& command, Options& o, const std::string& what) {
  command.add_option("--fail-on", o.fail_on, what)
      ->type_name("SEVERITY")
      ->check(one_of(words(severity_names)));
}

void add_color_option(CLI::App& command, Options& o) {
  command.add_option("--color", o.color, "when to colour text: auto, always or never")
      ->type_name("WHEN")
      ->check(one_of({"auto", "always", "never"}))
      ->group(output_group);
}

// What changes how designs are judged: of all commands that judge, and of the settings.
void add_code_options(CLI::App& command, Options& o) {
  command.add_option("--edition", o.edition, "judge by this edition of the code, not the file's")
      ->type_name("YEAR")
      ->check(one_of(words(edition_names)));
  command.add_option("--low-c", o.low, "lowest expected ambient, in place of site.low_c")
      ->type_name("CELSIUS")
      ->check(celsius(low_range));
  command
      .add_option("--amendments", o.amendments,
                  "local amendments (JSON) in place of those that the design names")
      ->type_name("FILE");
  command.add_flag("--no-settings", o.no_settings, "as if there were no .boxproof.json");
  add_output_option(command, o);
}

void add_design_options(CLI::App& command, Options& o) {
  command.add_option("DESIGN", o.design, "design file (boxproof-design/1); - reads standard input")
      ->required();
  add_code_options(command, o);
}

void add_designs_options(CLI::App& command, Options& o) {
  command.add_option(
      "DESIGN", o.designs,
      "design files, folders (every design in them) and patterns (* ? [a-z]); - reads standard "
      "input; those of the settings where none is named");
  add_code_options(command, o);
  command.add_flag("--verbose", o.verbose, "name the settings, and the files that were skipped and why")
      ->group(output_group);
}

void add_record_option(CLI::App& command, Options& o, const std::string& what) {
  command.add_option("--asbuilt", o.record, "field record (boxproof-asbuilt/1, JSON or CSV) " + what)
      ->type_name("RECORD");
}

void add_high_option(CLI::App& command, Options& o) {
  command.add_option("--high-c", o.high, "hot design ambient, in place of site.high_c")
      ->type_name("CELSIUS")
      ->check(celsius(high_range));
}

// Of the commands that judge.
void add_judging_options(CLI::App& command, Options& o) {
  add_record_option(command, o, "to hold the design against");
  add_high_option(command, o);
  command
      .add_option("--exceptions", o.exceptions,
                  "agreed exceptions (boxproof-exceptions/1), which set findings aside")
      ->type_name("FILE");
  const bool writes_baseline = command.get_name() == "baseline";
  command
      .add_option("--on", o.on,
                  writes_baseline
                      ? "day of the baseline, and on which exceptions must be in force; else today"
                      : "day on which exceptions must be in force; else that of the visit, or today")
      ->type_name("YYYY-MM-DD")
      ->check(a_day());
  if (writes_baseline) return;
  add_color_option(command, o);
}

void add_box_option(CLI::App& command, Options& o) {
  command
      .add_option("--box", o.boxes, "only boxes whose id matches; may be repeated; * ? [a-z] as in a shell")
      ->type_name("ID")
      ->expected(1)
      ->allow_extra_args(false)  // a design may follow
      ->take_all();
}

// The formats of which the program holds a schema.
constexpr std::string_view schema_names[] = {"design",     "site",     "asbuilt", "exceptions",
                                             "baseline",   "settings", "report",  "reports",
                                             "comparison", "labels",   "rules"};

// FORMAT=FILE, as --report takes it.
CLI::Validator one_report() {
  return {[](std::string& value) { return about_report(value); },
          fmt::format("{{{}}}", fmt::join(check_formats, ","))};
}

// The version, then the data that judges.
std::string version_text() {
  return fmt::format("boxproof {}\ndata {} (editions {})", version(), data_revision(),
                     fmt::join(edition_names, " "));
}

struct Commands {
  CLI::App app{"Checks the DC combiner boxes of photovoltaic arrays against the adopted code."};
  Options options;

  Commands() {
    app.name("boxproof");
    app.set_help_flag("-h,--help", "print this help");
    app.set_version_flag("-V,--version", version_text, "print the version, and which data judges");
    app.require_subcommand(0, 1);
    app.allow_extras();
    app.failure_message(CLI::FailureMessage::simple);
    Options& o = options;

    CLI::App* check = app.add_subcommand("check", "Judge designs, or one of them against a field record");
    add_designs_options(*check, o);
    add_judging_options(*check, o);
    add_box_option(*check, o);
    check->add_flag("--show-work", o.show_work, "show the arithmetic of each finding, step by step")
        ->group(output_group);
    add_format_option(
        *check, o, words(check_formats),
        "text for a terminal, html for a page with drawings, markdown for a correction list, json "
        "for programs, sarif for code hosts, junit for test reports, annotations for workflow logs");
    check
        ->add_option("--report", o.reports,
                     "one more output, such as sarif=out.sarif; may be repeated; a path that ends in / is a "
                     "folder with a file a design")
        ->type_name("FORMAT=FILE")
        ->expected(1)
        ->allow_extra_args(false)
        ->take_all()
        ->check(one_report())
        ->group(output_group);
    check
        ->add_option("--baseline", o.baseline,
                     "findings that are no news (boxproof-baseline/1): only others make the exit status 1, "
                     "and every hazard")
        ->type_name("FILE");
    add_fail_on_option(*check, o, "mildest severity that makes the exit status 1 (correction)");

    CLI::App* box =
        app.add_subcommand("box", "Everything about one box, for somebody who stands in front of it");
    add_design_options(*box, o);
    add_judging_options(*box, o);
    box->add_option("ID", o.id, "id of the box on the plan")->required();

    CLI::App* labels =
        app.add_subcommand("labels", "The label schedule: what to have made, and where it goes");
    add_design_options(*labels, o);
    add_record_option(*labels, o, "whose boxes are listed as they were found");
    add_box_option(*labels, o);
    add_format_option(*labels, o, {"text", "csv", "json"},
                      "text for people, csv for whoever makes them, json for programs");

    add_tally(o);
    add_compare(o);
    add_baseline(o);
    add_schedules(o);
    add_rules(o);

    CLI::App* tables = app.add_subcommand("tables", "Print what an edition of the code holds");
    tables->add_option("TOPIC", o.topics, "which tables; all where none is named")
        ->check(one_of(words(report::table_topics())));
    tables->add_option("--edition", o.edition, "which edition (2023)")
        ->type_name("YEAR")
        ->check(one_of(words(edition_names)));
    tables->add_option("--against", o.against, "print only what differs from this edition")
        ->type_name("YEAR")
        ->check(one_of(words(edition_names)));

    CLI::App* schema = app.add_subcommand("schema", "Print the JSON Schema of a format");
    schema->add_option("NAME", o.schema, fmt::format("{}", fmt::join(schema_names, ", ")))
        ->required()
        ->check(one_of(words(schema_names)));

    CLI::App* completion =
        app.add_subcommand("completion", "Print what completes boxproof's command line in a shell");
    completion->add_option("SHELL", o.shell, "bash or zsh")->required()->check(one_of({"bash", "zsh"}));

    CLI::App* man = app.add_subcommand("man", "Print a manual page, as man(1) reads it");
    std::vector<std::string> names;
    for (const CLI::App* command : app.get_subcommands({})) names.push_back(command->get_name());
    man->add_option("COMMAND", o.page, "whose page; the program's own where none is named")
        ->check(one_of(names));

    for (CLI::App* command : app.get_subcommands({})) command->allow_extras();
  }

  void add_tally(Options& o) {
    CLI::App* tally = app.add_subcommand(
        "tally", "The field sheet: what to count at each box, on paper, in a spreadsheet or on a tablet");
    add_design_options(*tally, o);
    add_high_option(*tally, o);
    add_box_option(*tally, o);
    add_format_option(*tally, o, {"text", "csv", "html"},
                      "text for paper, csv for a spreadsheet, html for a page to count on without a network");
    CLI::Option* sample =
        tally
            ->add_option("--sample", o.sample,
                         "only so many boxes: findings first, then thinnest margins; the others at random")
            ->type_name("N")
            ->check(whole_number(1));
    tally->add_option("--plan", o.plan, "as many boxes as this published sampling plan asks for")
        ->type_name("PLAN")
        ->check(one_of({"iso2859"}))
        ->excludes(sample);
    tally
        ->add_option("--thinnest", o.thinnest,
                     "of the sample, how many go by findings and thin margins (half)")
        ->type_name("N")
        ->check(whole_number(0));
    tally
        ->add_option("--seed", o.seed, "start of the random choice (1); the same seed chooses the same boxes")
        ->type_name("N")
        ->check(whole_number(0));
    tally
        ->add_option(
            "--again", o.again,
            "only the boxes on which this report of an earlier check (boxproof-report/1) has something "
            "open, with what to look at again; --box narrows them down, and there is no sample of them")
        ->type_name("REPORT");
  }

  void add_compare(Options& o) {
    CLI::App* compare = app.add_subcommand(
        "compare", "Two reports of one site: what was corrected, what is still open, what is new");
    compare->add_option("BEFORE", o.before, "the earlier report (boxproof-report/1); - reads standard input")
        ->required();
    compare->add_option("AFTER", o.after, "the later report")->required();
    add_format_option(*compare, o, {"text", "markdown", "json"},
                      "text for a terminal, markdown for a letter, json for programs");
    add_fail_on_option(*compare, o,
                       "mildest severity that, open or new, makes the exit status 1 (correction)");
    add_output_option(*compare, o);
    add_color_option(*compare, o);
  }

  void add_baseline(Options& o) {
    CLI::App* baseline =
        app.add_subcommand("baseline", "Write down today's findings, so that a build fails only on others");
    add_designs_options(*baseline, o);
    add_judging_options(*baseline, o);
    baseline->add_option("--reason", o.reason, "why these findings stay for now")
        ->type_name("TEXT")
        ->required();
  }

  void add_schedules(Options& o) {
    CLI::App* draft =
        app.add_subcommand("draft", "Make a design file from a combiner schedule and a site file");
    draft->add_option("SCHEDULE", o.schedule,
                      "combiner schedule (CSV), a row a box or circuit; - reads standard input");
    draft->add_option("--site", o.site, "site file: the design without its boxes (JSON)")->type_name("FILE");
    draft->add_flag("--columns", o.list_columns, "list the columns that a schedule can have");
    draft->add_flag("--blank", o.blank, "an invented starter to fill in, in place of what is yours");
    add_format_option(*draft, o, {"json", "csv"},
                      "of the starter: json for a design with notes, csv for a schedule with every column");
    add_output_option(*draft, o);
    CLI::App* schedule =
        app.add_subcommand("schedule", "The combiner schedule of a design, as draft reads it");
    schedule->add_option("DESIGN", o.design, "design file (boxproof-design/1); - reads standard input")
        ->required();
    schedule
        ->add_option("--site", o.site_output, "write the site file too: what a schedule has no columns for")
        ->type_name("FILE");
    add_output_option(*schedule, o);
  }

  void add_rules(Options& o) {
    CLI::App* rules = app.add_subcommand(
        "rules", "The rules and their sections by edition: a list, a checklist, or one rule's page");
    CLI::Option* id = rules->add_option("ID", o.id, "id of a rule, such as voltage/site-limit");
    rules->add_option("--topic", o.topics, "only the rules of this topic; may be repeated")
        ->type_name("TOPIC")
        ->expected(1)
        ->take_all()
        ->check(one_of(rule_topics()))
        ->excludes(id);
    rules->add_option("--edition", o.editions, "only this edition of the code; may be repeated")
        ->type_name("YEAR")
        ->expected(1)
        ->take_all()
        ->check(one_of(words(edition_names)));
    add_format_option(*rules, o, {"text", "markdown", "json"},
                      "text for a terminal, markdown for a checklist on paper, json for programs");
    add_output_option(*rules, o);
  }
};

std::vector<std::string> long_options(const CLI::App& app) {
  std::vector<std::string> out;
  for (const CLI::Option* option : app.get_options())
    for (const std::string& name : option->get_lnames()) out.push_back("--" + name);
  return out;
}

// One line about what is wrong with an argument that nothing took.
std::string about_extra(const std::string& extra, const CLI::App& app, const CLI::App* command) {
  if (command == nullptr && !extra.starts_with("-")) {
    std::vector<std::string_view> names;
    for (const CLI::App* sub : app.get_subcommands({})) names.emplace_back(sub->get_name());
    const std::string meant = extra.ends_with(".json")
                                  ? fmt::format("; did you mean boxproof check {}?", extra)
                                  : text::did_you_mean(extra, names);
    return fmt::format("found the command \"{}\", expected one of {}{}", extra, fmt::join(names, ", "),
                       meant);
  }
  if (extra.starts_with("-")) {
    const std::string name = extra.substr(0, extra.find('='));
    const std::vector<std::string> known = long_options(command != nullptr ? *command : app);
    const std::vector<std::string_view> views(known.begin(), known.end());
    return fmt::format("found the option \"{}\", which is not known here{}", name,
                       text::did_you_mean(name, views));
  }
  return fmt::format("found \"{}\", which is one argument too many", extra);
}

Parsed wrong(const std::string& said, const CLI::App* command) {
  const std::string message = report::plain(said);  // an argument may hold anything
  const std::string help =
      command != nullptr ? "boxproof " + command->get_name() + " --help" : "boxproof --help";
  return {std::nullopt, fmt::format("boxproof: {}; see {}\n", message, help), wrong_use};
}

}  // namespace

std::vector<CommandHelp> describe_commands() {
  Commands commands;
  std::vector<CommandHelp> out{describe(commands.app, "")};
  for (const CLI::App* command : commands.app.get_subcommands({}))
    out.push_back(describe(*command, command->get_name()));
  for (CommandHelp& command : out) classify(command);
  return out;
}

Parsed parse(const std::vector<std::string>& arguments) {
  Commands commands;
  CLI::App& app = commands.app;
  std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
  const auto chosen = [&]() -> const CLI::App* {
    const auto subs = app.get_subcommands();
    return subs.empty() ? nullptr : subs.front();
  };
  try {
    app.parse(reversed);
  } catch (const CLI::CallForHelp&) {
    return {std::nullopt, help_text(chosen() != nullptr ? chosen()->get_name() : ""), done};
  } catch (const CLI::CallForVersion& e) {
    return {std::nullopt, std::string(e.what()) + "\n", done};
  } catch (const CLI::ParseError& e) {
    // An unknown option often shows as something missing: say the former.
    const CLI::App* command = chosen();
    for (const std::string& extra : command != nullptr ? command->remaining() : app.remaining())
      if (extra.starts_with("-") && extra != "-") return wrong(about_extra(extra, app, command), command);
    return wrong(e.what(), command);
  }
  const CLI::App* command = chosen();
  const std::vector<std::string> extras = command != nullptr ? command->remaining() : app.remaining();
  if (!extras.empty()) return wrong(about_extra(extras.front(), app, command), command);
  if (command == nullptr) return {std::nullopt, help_text(""), arguments.empty() ? wrong_use : done};
  commands.options.command = command->get_name();
  for (const CLI::Option* option : command->get_options()) {
    if (option->get_lnames().empty()) continue;
    commands.options.known.push_back(option->get_lnames().front());
    if (option->count() > 0) commands.options.given.push_back(option->get_lnames().front());
  }
  return {commands.options, "", done};
}

}  // namespace boxproof::cli
