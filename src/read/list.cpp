#include "src/read/list.hpp"

#include <algorithm>
#include <atomic>
#include <thread>

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
  std::vector<Problems> found(stretches, problems.like());
  std::atomic<std::uint32_t> next{0}, done{0};
  std::atomic<bool> broken{false};
  const auto work = [&](bool tells) {
    for (std::uint32_t s = next++; s < stretches && !broken; s = next++) {
      ElementSink sink(found[s], &read);
      if (!parse_elements(source, key, span, s * stretch, std::min(count, (s + 1) * stretch), sink))
        broken = true;
      const std::uint32_t so_far = ++done;
      if (tells && progress) progress(std::min(count, so_far * stretch), count);
    }
  };
  const std::uint32_t workers = std::clamp(std::thread::hardware_concurrency(), 1U, stretches);
  std::vector<std::thread> threads;
  for (std::uint32_t w = 1; w < workers; ++w) threads.emplace_back(work, false);
  work(true);
  for (std::thread& t : threads) t.join();

  if (broken) {  // once more in one piece, so that what is wrong is told as it stands in the file
    Problems whole = problems.like();
    ElementSink sink(whole, nullptr);
    if (parse_elements(source, key, span, 0, count, sink))
      whole.add(span.open, "",
                "found a list that cannot be divided into its elements, expected JSON (RFC 8259)");
    problems.take(std::move(whole));
    return false;
  }
  for (Problems& p : found) problems.take(std::move(p));
  return true;
}

}  // namespace boxproof::read
