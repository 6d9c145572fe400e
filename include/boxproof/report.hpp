// Reports: a judgement as text for people and JSON for programs. Reports compute nothing but layout.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/check.hpp"
#include "boxproof/progress.hpp"
#include "boxproof/write.hpp"

namespace boxproof {

struct ReportInput {
  const DesignFile& design;
  const RecordFile* record;  // null: the plan alone
  const Edition& edition;
  const Judgement& judgement;
  std::vector<std::string>
      overrides;  // what the command line put in place of the file's values, one sentence each
  bool show_work = false;
  bool colour = false;  // text only
  ProgressHook progress = {};
};

// The format boxproof-report/1.
void write_json(const ReportInput& report, const Write& write);

// For people: the verdict, a row a box, findings grouped, the caution. 80 columns.
void write_text(const ReportInput& report, const Write& write);

// For people with a browser: one page that needs no network, and no script to be read.
void write_html(const ReportInput& report, const Write& write);

// The correction list: what is wrong and what to submit, numbered, as CommonMark.
void write_markdown(const ReportInput& report, const Write& write);

// Everything about one box on one screen. The judgement must hold that box.
void write_box(const ReportInput& report, const BoxResult& box, const Write& write);

// What every report says about itself.
std::string_view caution();

// The version of the program.
std::string_view version();

// What stands for the content of the editions' data, 16 hexadecimal digits: programs with the same one judge
// by the same numbers.
std::string data_revision();

}  // namespace boxproof
