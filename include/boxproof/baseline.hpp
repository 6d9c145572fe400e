// The baseline (boxproof-baseline/1): the findings of one day, by fingerprint, so that a build fails only on
// others. It hides nothing and approves nothing: what is on it is still told, and counts in every verdict. It
// never holds a hazard; only an agreed exception sets one aside.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/date.hpp"
#include "boxproof/finding.hpp"
#include "boxproof/read.hpp"
#include "boxproof/write.hpp"

namespace boxproof {

struct Design;
struct Judgement;

struct BaselineEntry {
  // The design file's path from the folder of the baseline, normalised, with forward slashes.
  std::string design;
  std::string fingerprint;               // 16 hexadecimal digits
  std::string rule, box, part;           // for people; box and part may be empty
  Severity severity = Severity::advice;  // never hazard
  FilePlace place;                       // of the entry
};

struct Baseline {
  std::string name;  // of its file
  Date date{};       // the day on which it was made
  std::string reason;
  std::vector<BaselineEntry> entries;  // those of a design together, by its path
};

// The order of a baseline's entries.
bool comes_before(const BaselineEntry& a, const BaselineEntry& b);

// Reads a baseline (boxproof-baseline/1). Throws InputError with every problem of the file.
Baseline read_baseline(const Document& document);

// Marks the findings of this design that are on the baseline (Finding::known): an entry covers one finding of
// its fingerprint that is no hazard and no graver than it was. What came of the other entries of this design
// goes into Judgement::baseline; those of findings that an agreed exception sets aside are no news. Where
// only some boxes were judged, only their entries are looked at. Counts and verdicts stay.
void mark_known(Judgement& judgement, const Design& design, const Baseline& baseline, std::string_view path);

// The entries that a design's findings give: hazards are left out. In the order of the findings.
std::vector<BaselineEntry> entries_of(const Judgement& judgement, std::string_view path);

// Writes a baseline: an entry a line, in the order of comes_before(), so that differences and merges read
// well.
void write_baseline(const Baseline& baseline, const Write& write);

}  // namespace boxproof
