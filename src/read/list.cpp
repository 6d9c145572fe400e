#include "src/read/list.hpp"

#include <algorithm>
#include <atomic>
#include <optional>

#include "src/text/in_order.hpp"

namespace boxproof::read {
namespace {

class ElementSink : public Sink {
 public:
  ElementSink(Problems& problems, const ReadElement* read) : problems_(problems), read_(read) {}
  void element(std::uint32_t index, const Tree& tree) override {
    if (read_ != nullptr) (*read_)(index, tree, problems_);
  }
  void problem(std::uint32_t offset, std::string pointer, std::string message) override {
    problems_.add(offset, std::move(pointer), std::move(message));
  }

 private:
  Problems& problems_;
  const ReadElement* read_;  // null: only to find out what is wrong
};

}  // namespace

bool read_list(std::string_view source, std::string_view key, const ListSpan& span, Problems& problems,
               const ReadElement& read, const ProgressHook& progress) {
  const auto count = static_cast<std::uint32_t>(span.elements.size());
  if (count == 0) return true;
  constexpr std::uint32_t stretch = 512;  // elements: some hundred kilobytes
  const std::uint32_t stretches = (count + stretch - 1) / stretch;
  Problems all = problems.like();
  std::atomic<bool> broken{false};
  const auto make = [&](std::size_t i, std::optional<Problems>& found) {
    found.emplace(problems.like());
    if (broken) return;
    const auto s = static_cast<std::uint32_t>(i);
    ElementSink sink(*found, &read);
    if (!parse_elements(source, key, span, s * stretch, std::min(count, (s + 1) * stretch), sink))
      broken = true;
  };
  std::uint32_t done = 0;
  text::in_order<std::optional<Problems>>(stretches, make, [&](std::optional<Problems>& found) {
    all.take(std::move(*found));
    done = std::min(done + stretch, count);
    if (progress) progress(done, count);
  });

  if (broken) {  // once more in one piece, so that what is wrong is told as it stands in the file
    Problems whole = problems.like();
    ElementSink sink(whole, nullptr);
    if (parse_elements(source, key, span, 0, count, sink))
      whole.add(span.open, "",
                "found a list that cannot be divided into its elements, expected JSON (RFC 8259)");
    problems.take(std::move(whole));
    return false;
  }
  problems.take(std::move(all));
  return true;
}

}  // namespace boxproof::read
