// What the command line says, typed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "boxproof/finding.hpp"

namespace boxproof::cli {

struct Options {
  std::string command;
  std::vector<std::string> designs;  // of `check` and `baseline`: files, folders, patterns
  std::string design, record;
  std::string exceptions, on;  // agreed exceptions, and the day on which they count
  std::string edition;         // empty: the file's
  std::optional<double> low, high;
  std::vector<std::string> boxes;
  std::string format = "text";
  std::string output;                // empty: standard output
  std::vector<std::string> reports;  // of `check`: more outputs, FORMAT=FILE
  std::string amendments;            // local amendments in place of those that the design names
  std::string baseline;              // findings that are no news
  std::string reason;                // of `baseline`
  bool no_settings = false;          // as if there were no .boxproof.json
  bool verbose = false;
  bool show_work = false;
  std::string fail_on = "correction";
  std::string color = "auto";
  std::string id;                     // of `box` and `rules`
  std::vector<std::string> topics;    // of `tables` and `rules`
  std::vector<std::string> editions;  // of `rules`; empty: all
  std::string against;                // of `tables`: the other edition
  std::string schema;                 // of `schema`
  // of `tally`: how many boxes (all where neither is given), how many of them by urgency (half), the
  // start of the random choice (1)
  std::optional<std::uint32_t> sample, thinnest, seed;
  std::string plan;                      // a published sampling plan
  std::string again;                     // the report of an earlier check
  std::string before, after;             // of `compare`
  std::string schedule, site;            // of `draft`: the combiner schedule (CSV) and the site file
  bool blank = false;                    // of `draft`: a starter to fill in
  bool list_columns = false;             // of `draft`
  std::string site_output;               // of `schedule`: where the site file goes
  std::string shell;                     // of `completion`
  std::string page;                      // of `man`: a command; empty: the program
  std::vector<std::string> given;        // long names of the options on the command line, without dashes
  std::vector<std::string> known;        // of all that the command has
  std::string settings;                  // the settings file, as messages show it; empty: none was used
  std::vector<std::string> by_settings;  // its keys that were used
  std::optional<FilePlace> formats;      // in it, where the reports are those that it asks for
};

// What came of parsing: options to go on with, or a text to print and a status to end with.
struct Parsed {
  std::optional<Options> options;
  std::string text;
  int status = 0;
};

Parsed parse(const std::vector<std::string>& arguments);

}  // namespace boxproof::cli
