// Pieces of a long text made side by side and handed over in order.
#pragma once

#include <algorithm>
#include <condition_variable>
#include <cstddef>
#include <mutex>
#include <thread>
#include <vector>

namespace boxproof::text {

// Calls make(i, buffer) for i in [0, count) from several threads, and take(buffer) from this one, in order of
// i. Buffers are used again: make() finds one as take() left it. At most a few pieces are in memory at a
// time. If take() throws, the pieces that are not needed any more are not made, and the exception goes on.
template <class Buffer, class Make, class Take>
void in_order(std::size_t count, Make&& make, Take&& take) {
  const std::size_t workers =
      std::clamp<std::size_t>(std::thread::hardware_concurrency(), 1, std::max<std::size_t>(count, 1));
  if (count <= 1 || workers == 1) {
    Buffer buffer;
    for (std::size_t i = 0; i < count; ++i) {
      make(i, buffer);
      take(buffer);
    }
    return;
  }
  struct Slot {
    Buffer buffer;
    bool ready = false;
  };
  std::vector<Slot> slots(2 * workers);  // piece i goes to slot i modulo their number
  std::mutex mutex;
  std::condition_variable changed;
  std::size_t next = 0, taken = 0;
  bool stop = false;

  const auto work = [&] {
    std::unique_lock lock(mutex);
    while (true) {
      changed.wait(lock, [&] { return stop || next >= count || next < taken + slots.size(); });
      if (stop || next >= count) return;
      const std::size_t i = next++;
      Slot& slot = slots[i % slots.size()];
      lock.unlock();
      make(i, slot.buffer);
      lock.lock();
      slot.ready = true;
      changed.notify_all();
    }
  };
  std::vector<std::thread> threads;
  for (std::size_t w = 0; w < workers; ++w) threads.emplace_back(work);
  const auto finish = [&] {
    {
      const std::lock_guard lock(mutex);
      stop = true;
    }
    changed.notify_all();
    for (std::thread& t : threads) t.join();
  };
  try {
    for (std::size_t i = 0; i < count; ++i) {
      Slot& slot = slots[i % slots.size()];
      {
        std::unique_lock lock(mutex);
        changed.wait(lock, [&] { return slot.ready; });
      }
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
