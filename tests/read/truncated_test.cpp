// A design cut at any byte, or with any byte changed, gives an InputError or a design: never another
// exception, never a crash.
#include "tests/support/bad_input.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

enum class Outcome { read, refused, other };

template <class Read>
Outcome outcome(const Document& document, Read&& read) {
  try {
    read(document, {});
    return Outcome::read;
  } catch (const InputError& e) {
    return e.total() > 0 && e.problems().size() == std::min<std::size_t>(e.total(), 50) ? Outcome::refused
                                                                                        : Outcome::other;
  } catch (...) {
    return Outcome::other;
  }
}

// How many of the changed texts come out other than read or refused; `read` counts those that are read.
template <class Read>
std::size_t changed_bytes(const std::string& text, Read&& reader, std::size_t& read) {
  std::size_t other = 0;
  for (std::size_t i = 0; i < text.size(); ++i)
    for (const char c : {'{', '}', '[', ']', '"', ',', ':', '\\', '\0', '\xFF'}) {
      Document document{"text.json", text};
      document.text[i] = c;
      const Outcome o = outcome(document, reader);
      if (o == Outcome::other) ++other;
      if (o == Outcome::read) ++read;
    }
  return other;
}

}  // namespace

TEST_CASE("a text cut short is refused at every byte") {
  for (const bool design : {true, false}) {
    std::string text = as_json(design ? small_design : small_record);
    while (text.back() == '\n') text.pop_back();  // all but white space is needed
    for (std::size_t size = 0; size < text.size(); ++size) {
      const Document document{"cut.json", text.substr(0, size)};
      const Outcome o = design ? outcome(document, read_design) : outcome(document, read_field_record);
      CAPTURE(size);
      CHECK(o == Outcome::refused);
    }
  }
}

TEST_CASE("a text with one byte changed is read or refused") {
  std::size_t read = 0;
  CHECK(changed_bytes(as_json(small_design), read_design, read) == 0);
  CHECK(changed_bytes(as_json(small_record), read_field_record, read) == 0);
  CHECK(read > 0);  // such as a letter of a name changed into a comma
}
