// Pieces of a long text made side by side and handed over in order.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

#include "src/text/crew.hpp"

namespace boxproof::text {

// Calls make(i, buffer) for i in [0, count) from several threads, and take(buffer) from this one, in order of
// i. Buffers are used again: make() finds one as take() left it. At most a few pieces are in memory at a
// time. If take() throws, the pieces that are not needed any more are not made, and the exception goes on; so
// does what make() throws, when its piece is the next to be taken: of several, that of the first piece.
//
// Within make() this divides nothing again: all is then done on that thread.
template <class Buffer, class Make, class Take>
void in_order(std::size_t count, Make&& make, Take&& take, Crew crew = {}) {
  const auto one_by_one = [&] {
    Buffer buffer;
    for (std::size_t i = 0; i < count; ++i) {
      make(i, buffer);
      take(buffer);
    }
  };
  const std::size_t workers = workers_for(count, crew);
  if (count <= 1 || workers == 1) return one_by_one();

  struct Slot {
    Buffer buffer;
    std::exception_ptr thrown;
    bool ready = false;
  };
  std::vector<Slot> slots(crew.ahead * workers);  // piece i goes to slot i modulo their number
  std::mutex mutex;
  std::condition_variable changed;
  std::size_t next = 0, taken = 0, end = count;  // pieces behind one that failed are not needed

  const auto work = [&] {
    divides_no_more() = true;
    std::unique_lock lock(mutex);
    while (true) {
      changed.wait(lock, [&] { return next >= end || next < taken + slots.size(); });
      if (next >= end) return;
      const std::size_t i = next++;
      Slot& slot = slots[i % slots.size()];
      lock.unlock();
      std::exception_ptr thrown;
      try {
        make(i, slot.buffer);
      } catch (...) {
        thrown = std::current_exception();
      }
      lock.lock();
      if (thrown) end = std::min(end, i + 1);
      slot.thrown = std::move(thrown);
      slot.ready = true;
      changed.notify_all();
    }
  };
  std::vector<std::thread> threads;
  threads.reserve(workers);
  const auto finish = [&] {
    {
      const std::lock_guard lock(mutex);
      end = 0;
    }
    changed.notify_all();
    for (std::thread& t : threads) t.join();
  };
  try {
    for (std::size_t w = 0; w < workers; ++w) threads.emplace_back(work);
  } catch (const std::exception&) {  // the system gives no more threads: fewer do it, or this one alone
    if (threads.empty()) return one_by_one();
  }
  try {
    for (std::size_t i = 0; i < count; ++i) {
      Slot& slot = slots[i % slots.size()];
      {
        std::unique_lock lock(mutex);
        changed.wait(lock, [&] { return slot.ready; });
      }
      if (slot.thrown) std::rethrow_exception(slot.thrown);
      take(slot.buffer);
      {
        const std::lock_guard lock(mutex);
        slot.ready = false;
        ++taken;
      }
      changed.notify_all();
    }
  } catch (...) {
    finish();
    throw;
  }
  finish();
}

}  // namespace boxproof::text
