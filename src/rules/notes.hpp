// Where rules write down what they found.
#pragma once

#include <fmt/format.h>

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "boxproof/rule.hpp"

namespace boxproof {

// One finding being written.
class Note {
 public:
  explicit Note(Finding& finding, bool wants_working) : finding_(&finding), wants_working_(wants_working) {}

  Note& found(Amount amount) { return set(finding_->found, std::move(amount)); }
  Note& required(Amount amount) { return set(finding_->required, std::move(amount)); }
  Note& unit(std::string_view unit) { return set(finding_->unit, std::string(unit)); }
  Note& section(std::string_view section) {
    return section.empty() ? *this : set(finding_->section, std::string(section));
  }
  Note& disposition(Disposition disposition) {
    return set(finding_->disposition, std::optional(disposition));
  }
  // What to do about it, where that is not the rule's remedy.
  Note& ask(std::string what) { return set(finding_->ask, std::move(what)); }
  // Place as a pointer: below the box ("/fuse/a"), or from the top of the design or of the field record.
  Note& at(std::string_view in_box);
  Note& at_plan(std::string_view in_box);  // of what the plan says of a box as found too
  Note& at_design(std::string pointer);
  Note& at_record(std::string pointer);
  // Where the account stands that this one is held against, from the top of the design or of the field
  // record.
  Note& beside(std::string pointer);
  template <class... Args>
  Note& say(fmt::format_string<Args...> format, Args&&... args) {
    finding_->message = fmt::format(format, std::forward<Args>(args)...);
    return *this;
  }
  // Makes the working, if the report shows it.
  template <class Fill>
  Note& work(Fill&& fill) {
    if (wants_working_) fill(finding_->working);
    return *this;
  }

 private:
  template <class T>
  Note& set(T& where, T value) {
    where = std::move(value);
    return *this;
  }
  Finding* finding_;
  bool wants_working_;
};

// Collects the findings of one box (or of the site). The caller sets which rule is speaking.
class Notes {
 public:
  Notes(const Edition& edition, bool wants_working) : edition_(edition), wants_working_(wants_working) {}

  // Starts on a box; `box_id` empty: the site.
  void about(std::optional<std::uint32_t> box, std::string_view box_id, Basis basis);
  void speak(const Rule& rule, const Edition::RuleSection& section);
  const Rule& speaking() const { return *rule_; }

  // A finding of the speaking rule about a part of the box. The returned note is valid until the next one.
  Note find(Severity severity, std::string part);
  Note find(std::string part);  // with the rule's own severity

  // The speaking rule needs a value that is not stated: `pointer` from the top of the design
  // ("/modules/M/vmp_v"), or below the box ("/fuse/dc"). All rules that need the same value make one query,
  // told by the first of them, or by the one that says it speaks for all.
  // Where something is stated that does not do, `because` says so and `found` is what is stated.
  void lacks(std::string pointer, bool speaks_for_all = false, std::string_view because = {},
             std::string_view found = {});
  void lacks_in_box(std::string_view pointer, bool speaks_for_all = false);
  // The same, for a box's circuit: its part is named by the circuit's id, its place by its position.
  void lacks_in_circuit(const BoxCase& c, std::size_t circuit, std::string_view pointer,
                        bool speaks_for_all = false);

  // The same, for a value of the visited box in the field record ("/measured/cell_c"). `because` as above;
  // `whom` goes behind "cannot be judged" where the rule judges the rest (" of string 9").
  void lacks_in_record(std::uint32_t record_index, std::string_view pointer, std::string_view because = {},
                       std::string_view found = {}, std::string_view whom = {});

  // Turns what is lacking into queries. To be called when the last rule on this box has spoken.
  void close();

  std::vector<Finding>& findings() { return findings_; }

 private:
  struct Lacking {
    std::string part, pointer, because, found;
    std::vector<const Rule*> rules;
    std::size_t speaker = 0;
    bool speaks_for_all = false;
    std::string section;
    bool in_record = false;
    std::string whom;
  };
  Lacking& add_lacking(std::string part, std::string pointer, bool speaks_for_all,
                       std::string_view because = {}, std::string_view found = {});
  Finding& add(const Rule& rule, Severity severity, std::string part);

  const Edition& edition_;
  bool wants_working_;
  const Rule* rule_ = nullptr;
  const Edition::RuleSection* section_ = nullptr;
  std::optional<std::uint32_t> box_;
  std::string box_id_;
  Basis basis_ = Basis::design;
  std::vector<Finding> findings_;
  std::vector<Lacking> lacking_;
};

// A value as messages print it: two decimals below 100, one from there on, no trailing zeros ("13.64",
// "1012.4", "15").
std::string shown(double value);
// The same beside a value that it is compared with: with as many decimals as it takes to tell the two apart,
// so that nothing reads "600 V is above 600 V".
std::string shown(double value, double beside);
template <class Tag>
std::string shown(Quantity<Tag> value) {
  return shown(value.value());
}
template <class Tag>
std::string shown(Quantity<Tag> value, Quantity<Tag> beside) {
  return shown(value.value(), beside.value());
}
inline std::string shown(Celsius value) {
  return shown(value.value());
}
inline std::string shown(Celsius value, Celsius beside) {
  return shown(value.value(), beside.value());
}

// The word behind a number: "strings" and "modules in series", but "string" and "module in series" behind
// one.
std::string word_for(double n, std::string_view words);

// "1 box", "2 boxes"
std::string counted(std::size_t n, std::string_view one, std::string_view many);

}  // namespace boxproof
