// Pieces made side by side: the order in which they are taken, what goes wrong on the way, work within work.
#include "src/text/in_order.hpp"

#include <atomic>
#include <chrono>
#include <random>
#include <set>
#include <stdexcept>
#include <string>

#include "tests/support/catch.hpp"

using namespace boxproof;

namespace {

// More workers than this machine may have cores.
constexpr text::Crew eight{8, 2};

void wait_at_random(std::mt19937& engine) {
  std::this_thread::sleep_for(std::chrono::microseconds(engine() % 500));
}

}  // namespace

TEST_CASE("pieces are taken in order, whatever the threads do") {
  for (std::uint32_t seed = 0; seed < 5; ++seed) {
    std::string taken, expected;
    const std::size_t count = 200;
    const auto make = [&](std::size_t i, std::string& piece) {
      std::mt19937 engine(seed * 1000 + static_cast<std::uint32_t>(i));
      wait_at_random(engine);
      piece = std::to_string(i) + ",";
    };
    text::in_order<std::string>(
        count, make, [&](std::string& piece) { taken += piece; }, eight);
    for (std::size_t i = 0; i < count; ++i) expected += std::to_string(i) + ",";
    CHECK(taken == expected);
  }
}

TEST_CASE("no more pieces wait in memory than the crew may be ahead") {
  std::atomic<std::size_t> made{0}, most{0};
  std::size_t taken = 0;
  text::in_order<int>(
      300, [&](std::size_t, int&) { ++made; },
      [&](int&) {
        std::this_thread::sleep_for(std::chrono::microseconds(50));
        most = std::max(most.load(), made - taken);
        ++taken;
      },
      eight);
  CHECK(taken == 300);
  CHECK(most <= 8 * 2);
}

TEST_CASE("what a piece throws comes out where it would be taken, the first piece's of several") {
  for (std::uint32_t seed = 0; seed < 20; ++seed) {
    std::atomic<int> running{0};
    std::vector<std::size_t> taken;
    std::string said;
    const auto make = [&](std::size_t i, std::size_t& piece) {
      ++running;
      std::mt19937 engine(seed * 1000 + static_cast<std::uint32_t>(i));
      wait_at_random(engine);
      --running;
      if (i % 10 == 7) throw std::runtime_error(std::to_string(i));  // 7, 17, 27 …
      piece = i;
    };
    try {
      text::in_order<std::size_t>(
          100, make, [&](std::size_t piece) { taken.push_back(piece); }, eight);
    } catch (const std::runtime_error& e) {
      said = e.what();
    }
    CHECK(running == 0);  // every thread has ended
    CHECK(said == "7");
    CHECK(taken == std::vector<std::size_t>{0, 1, 2, 3, 4, 5, 6});
  }
}

TEST_CASE("any exception comes out, of make and of take, with threads and without") {
  for (const text::Crew crew : {eight, text::Crew{1, 2}}) {
    const auto nothing = [](std::size_t, int&) {};
    CHECK_THROWS_AS(
        text::in_order<int>(
            50, [](std::size_t i, int&) { i == 20 ? throw std::bad_alloc() : void(); }, [](int) {}, crew),
        std::bad_alloc);
    CHECK_THROWS_AS(text::in_order<int>(
                        50, [](std::size_t i, int&) { i == 49 ? throw 5 : void(); }, [](int) {}, crew),
                    int);
    std::size_t taken = 0;
    CHECK_THROWS_AS(text::in_order<int>(
                        50, nothing, [&](int) { ++taken == 10 ? throw std::bad_alloc() : void(); }, crew),
                    std::bad_alloc);
    CHECK(taken == 10);
  }
}

TEST_CASE("work within a piece is not divided again, and is afterwards") {
  std::atomic<int> elsewhere{0};
  std::atomic<std::size_t> sum{0};
  const auto make = [&](std::size_t, int&) {
    const auto here = std::this_thread::get_id();
    text::in_order<int>(
        20,
        [&](std::size_t i, int& piece) {
          piece = static_cast<int>(i);
          elsewhere += std::this_thread::get_id() != here ? 1 : 0;
        },
        [&](int piece) { sum += static_cast<std::size_t>(piece); }, eight);
  };
  text::in_order<int>(
      30, make, [](int) {}, eight);
  CHECK(elsewhere == 0);
  CHECK(sum == 30 * 190);
  CHECK(text::workers_for(20, eight) == 8);
  // One piece is made on the thread that asks: its own work may be divided.
  std::size_t workers = 0;
  text::in_order<int>(
      1, [&](std::size_t, int&) { workers = text::workers_for(20, eight); }, [](int) {}, eight);
  CHECK(workers == 8);
}

TEST_CASE("no pieces, no work") {
  int calls = 0;
  text::in_order<int>(
      0, [&](std::size_t, int&) { ++calls; }, [&](int) { ++calls; }, eight);
  CHECK(calls == 0);
  CHECK(text::workers_for(0) == 1);
  CHECK(text::workers_for(3, eight) == 3);
}
