// A user whom rights on files hold back: the superuser, as whom tests often run, may do everything.
#pragma once

#include <unistd.h>

#include "tests/support/catch.hpp"

namespace boxproof::test {

// For as long as it lives, the process is not the superuser. False: it still is, nothing can be tested.
class AsNobody {
 public:
  AsNobody() {
    constexpr uid_t nobody = 65534;
    if (was_root_) held_back_ = seteuid(nobody) == 0;
    if (!held_back_) WARN("rights on files cannot be tested as this user");
  }
  ~AsNobody() {
    if (was_root_ && seteuid(0) != 0) FAIL_CHECK("the tests go on as nobody");
  }
  AsNobody(const AsNobody&) = delete;
  AsNobody& operator=(const AsNobody&) = delete;
  explicit operator bool() const { return held_back_; }

 private:
  bool was_root_ = geteuid() == 0, held_back_ = true;
};

}  // namespace boxproof::test
