// A query as whoever submitted the plan, or the record, is asked it.
#pragma once

#include <string>

#include "src/report/groups.hpp"
#include "src/report/key_words.hpp"

namespace boxproof::report {

struct Question {
  std::string ask;      // one sentence, ending in a question mark
  std::string because;  // a sentence; empty where the question says it
  bool tells = false;   // the question is the finding's own message
};

// Whether the value that a query asks for is one of the field record; else it is one of the design.
bool asks_record(const Finding& query);

// Both sentences are Markdown; the words for a key come from the schema of the file that lacks it.
Question question_of(const Group& queries, const KeyWords& words);

// A message without the sentence about amendments that may stand behind it.
std::string_view own_words(const Finding& finding);

}  // namespace boxproof::report
