// How far long work has come, for whoever waits for it.
#pragma once

#include <cstddef>
#include <functional>

namespace boxproof {

// Called now and then with the boxes that are done and those that there are, always on the thread that asked
// for the work. Empty: nobody wants to know. Must not throw.
using ProgressHook = std::function<void(std::size_t done, std::size_t total)>;

}  // namespace boxproof
