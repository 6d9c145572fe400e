#include "src/check/exceptions_run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "boxproof/rule.hpp"

namespace boxproof {

std::vector<EntryUse> take_out_idle(Judgement& j) {
  std::vector<EntryUse> uses;
  std::vector<ExceptionResult> left;
  std::vector<std::size_t> now(j.exceptions.size());  // where an entry stands among those left
  for (ExceptionResult& r : j.exceptions) {
    const bool matched = r.matched;
    uses.push_back({r.index, matched, r.state, std::exchange(r.unknown, {})});
    now[static_cast<std::size_t>(&r - j.exceptions.data())] = left.size();
    if (matched) left.push_back(std::move(r));
  }
  j.exceptions = std::move(left);
  j.exceptions_idle_left_out = true;
  for (AgreedFinding& a : j.agreed) a.exception = now[a.exception];
  return uses;
}

void ExceptionsOverRun::add(const std::vector<EntryUse>& design) {
  for (const EntryUse& use : design) {
    Entry& e = entries_[use.index];
    if (e.designs++ == 0)
      e.unknown = use.unknown;
    else
      std::erase_if(e.unknown, [&](const std::string& box) {
        return std::find(use.unknown.begin(), use.unknown.end(), box) == use.unknown.end();
      });
    e.matched = e.matched || use.matched;
    e.state = use.state;
  }
}

std::vector<std::string> ExceptionsOverRun::remarks() const {
  std::vector<std::string> out;
  std::size_t elsewhere = 0;
  for (std::size_t i = 0; i < entries_.size(); ++i) {
    const Entry& e = entries_[i];
    const Exception& of = file_.entries[i];
    const std::string place = fmt::format("{}:{}:{}: ", of.place.file, of.place.line, of.place.column);
    if (e.designs == 0) {
      ++elsewhere;
      continue;
    }
    if (!e.matched)
      out.push_back(fmt::format("{}the exception for {}{} matches nothing in any design of this run", place,
                                of.rule->id,
                                e.state == ExceptionState::expired   ? " has expired and"
                                : e.state == ExceptionState::not_yet ? " is not yet in force and"
                                                                     : ""));
    for (const std::string& box : e.unknown)
      out.push_back(fmt::format("{}\"{}\" names no box of any design of this run", place, box));
  }
  if (elsewhere > 0)
    out.push_back(
        fmt::format("{}: {} for none of the designs of this run", file_.name,
                    elsewhere == 1 ? "1 exception is" : fmt::format("{} exceptions are", elsewhere)));
  return out;
}

}  // namespace boxproof
