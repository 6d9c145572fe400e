#include "src/cli/command_notes.hpp"

#include <algorithm>
#include <stdexcept>
#include <string>

#include "src/cli/run.hpp"

namespace boxproof::cli {
namespace {

constexpr std::string_view judging = "Judging", field = "On the roof", files = "Design files",
                           looking_up = "Looking up", shell = "For the shell";

const std::vector<CommandNotes>& all_notes() {
  static const std::vector<CommandNotes> notes{
      {"",
       "",
       {"boxproof reads a design file with the combiner boxes of a site, does the arithmetic of every box "
        "(string voltage in the cold, currents, fuses, conductors under heat, disconnects, labels) and holds it "
        "against the edition of the code that the jurisdiction adopted. Given what an inspector counted and read "
        "on the roof, it holds plan, label and reality against each other and judges the boxes as they were "
        "built.",
        "Each finding is a hazard, a correction, a query or a piece of advice, with its arithmetic and its code "
        "section. A fact that is missing is a query that names the key, never a silent pass. What is wrong with "
        "an input goes to standard error, with its place, and then nothing is judged."},
       {{"boxproof check saltmarsh.json", "judge a plan"},
        {"boxproof tally saltmarsh.json --format html --output tally.html",
         "a page to count on, on the roof"},
        {"boxproof check saltmarsh.json --asbuilt saltmarsh-visit.json",
         "judge the boxes as they were found"}}},
      {"check",
       judging,
       {"Judges every box of a design, and the site as a whole. With a field record the boxes that were visited "
        "are judged as planned and as found, and what differs is told.",
        "Several designs, folders and patterns make one run with one exit status: the worst of all."},
       {{"boxproof check saltmarsh.json", "judge a plan"},
        {"boxproof check saltmarsh.json --show-work --format html --output plan.html",
         "the same as a page with every working"},
        {"boxproof check saltmarsh.json --asbuilt saltmarsh-visit.json", "hold the plan against a visit"},
        {"boxproof check plans/ --report sarif=plans.sarif --fail-on hazard",
         "every design of a folder, for a build that only hazards stop"}}},
      {"box",
       judging,
       {"What the plan has in one box, what to count and to read there, every margin, and the findings of it."},
       {{"boxproof box saltmarsh.json A-14", "the box in front of you"},
        {"boxproof box saltmarsh.json A-04 --asbuilt saltmarsh-visit.json", "the same with what was found"}}},
      {"baseline",
       judging,
       {"Writes down the findings of designs as they are now. A check with that file as --baseline fails only "
        "on other findings, and on hazards."},
       {{"boxproof baseline plan.json --reason \"under review\" --output known.json",
         "take the findings of today as known"},
        {"boxproof check plan.json --baseline known.json", "fail on others"}}},
      {"compare",
       judging,
       {"Holds two reports of one site against each other: two visits, two revisions of a plan, or a check of "
        "the plan and one of the boxes. A finding that the later report does not have is corrected only if that "
        "report could have found it; else it was not looked at again, and counts as open."},
       {{"boxproof compare visit-1.json visit-2.json", "what became of each finding"},
        {"boxproof compare visit-1.json visit-2.json --format markdown --output open.md",
         "the same for a letter"}}},
      {"labels",
       field,
       {"Lists the labels that the edition asks for: the section, where each goes, what it says with the values "
        "computed, and how it must look. Nothing is judged."},
       {{"boxproof labels saltmarsh.json --format csv --output labels.csv", "a row a label and box"}}},
      {"tally",
       field,
       {"What to count at each box and room to write it down: as text for paper, as CSV for a spreadsheet, or as "
        "a page for a tablet that needs no network. The last two become a field record for check --asbuilt.",
        "A sample says which boxes were chosen why. It shows nothing about boxes that were not opened."},
       {{"boxproof tally saltmarsh.json --format html --output tally.html", "a page to count on"},
        {"boxproof tally saltmarsh.json --sample 12", "twelve boxes, half of them the worst of the plan"},
        {"boxproof tally saltmarsh.json --again visit-1.json", "only what is still open after a visit"}}},
      {"draft",
       files,
       {"Makes a design file out of a combiner schedule (CSV) and a site file, which has everything but the "
        "boxes."},
       {{"boxproof draft schedule.csv --site site.json --output plant.json", "a design of both"},
        {"boxproof draft --blank --output plant.json", "a design to fill in"}}},
      {"schedule",
       files,
       {"Prints the boxes of a design as a combiner schedule (CSV), as draft reads it."},
       {{"boxproof schedule saltmarsh.json --output schedule.csv", "the boxes for a spreadsheet"}}},
      {"rules",
       looking_up,
       {"Lists the rules with their sections in each edition, or prints the page of one: what it finds, why it "
        "matters, how it is computed."},
       {{"boxproof rules fuse/over-module-limit", "one rule's page"},
        {"boxproof rules --edition 2017 --format markdown", "a checklist for plan review and inspection"}}},
      {"tables",
       looking_up,
       {"Prints what the program holds of an edition, so that it can be held against the book."},
       {{"boxproof tables ampacity correction --edition 2017", "two tables"},
        {"boxproof tables --edition 2020 --against 2017", "what an edition changed"}}},
      {"schema",
       looking_up,
       {"Prints the JSON Schema (draft 2020-12) of a format, with every key, its unit and its meaning. An editor "
        "that knows it completes and underlines."},
       {{"boxproof schema design", "every key of a design file"}}},
      {"completion",
       shell,
       {"Prints a script that completes commands, options, their values and file names in bash or zsh. A package "
        "brings both."},
       {{"source <(boxproof completion bash)", "for this shell"},
        {"boxproof completion zsh > ~/.zfunc/_boxproof", "for a folder that is in fpath"}}},
      {"man",
       shell,
       {"Prints the manual page of the program or of a command, for man(1) to show. A package brings all of them."},
       {{"boxproof man check | man -l -", "the page of check, where nothing was installed"}}}};
  return notes;
}

bool is_one_of(std::string_view command, std::initializer_list<std::string_view> names) {
  return std::find(names.begin(), names.end(), command) != names.end();
}

}  // namespace

const CommandNotes& notes_of(std::string_view command) {
  for (const CommandNotes& notes : all_notes())
    if (notes.name == command) return notes;
  throw std::out_of_range("no notes on the command " + std::string(command));
}

std::vector<StatusNote> statuses_of(std::string_view command) {
  std::vector<StatusNote> out;
  if (command == "check") {
    out.push_back({done, "nothing at or above --fail-on"});
    out.push_back({found_something, "something is"});
  } else if (command == "compare") {
    out.push_back({done, "nothing open or new at or above --fail-on"});
    out.push_back({found_something, "something is"});
  } else {
    out.push_back({done, "done"});
    if (command.empty())
      out.push_back({found_something, "check or compare found something at or above --fail-on"});
  }
  out.push_back({wrong_use, "wrong use, or the output cannot be written"});
  if (!is_one_of(command, {"rules", "tables", "schema", "completion", "man"}))
    out.push_back({bad_input, "an input cannot be read or is invalid"});
  return out;
}

}  // namespace boxproof::cli
