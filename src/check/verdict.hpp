// Counts and verdicts out of the findings that stand.
#pragma once

#include "boxproof/check.hpp"

namespace boxproof {

// What one finding of this severity makes of a box.
Verdict verdict_of(Severity severity);

// Makes counts, the verdict of each box and the site's anew.
void count_and_judge(Judgement& judgement);

}  // namespace boxproof
