// The inputs of a judgement: files read, and changed by the command line.
#pragma once

#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/baseline.hpp"
#include "boxproof/exceptions.hpp"
#include "boxproof/read.hpp"
#include "src/cli/options.hpp"
#include "src/cli/run.hpp"

namespace boxproof::cli {

// The command line asks for what cannot be done.
struct WrongUse : std::runtime_error {
  using std::runtime_error::runtime_error;
};

// The inputs beside a design: all designs of a run share them.
struct Others {
  Document record_text, exceptions_text, baseline_text, amendments_text;
  std::optional<RecordFile> record;
  std::optional<ExceptionsFile> exceptions;
  std::optional<ExceptionDay> exceptions_day;  // on which they must be in force, if there are any
  std::optional<Baseline> baseline;
};

// Everything that a judgement needs, read from files and changed by the command line.
struct Case {
  Document design_text, amendments_text;
  DesignFile design;
  std::shared_ptr<Others> others = std::make_shared<Others>();
  Edition edition;
  std::vector<std::string> overrides;
};

// Throws WrongUse where the output would take the place of an input: a field record is often the only copy.
void keep_inputs(const Options& o);

// Reads everything that the options name. Throws InputError, or WrongUse.
void load(const Options& o, Console& console, Case& c, const ProgressHook& progress = {});

// Its three steps, for a run of many designs: what stands beside the designs, one design out of its text, and
// the edition that it is judged by with what the command line changes. The last two may run side by side.
void load_others(const Options& o, Console& console, Others& others, const ProgressHook& progress = {});
void load_design(Document text, Case& c, const ProgressHook& progress = {});
void choose_edition(const Options& o, std::istream& in, Case& c);

std::vector<std::string_view> box_ids(const Design& design);

// "the nearest ids are …"
std::string nearest_boxes(std::string_view id, const Design& design);

// Throws WrongUse unless every pattern of --box names a box.
void expect_boxes(const Options& o, const Design& design);

}  // namespace boxproof::cli
