// SPDX-License-Identifier: GPL-3.0-or-later
// Rectangles of any bytes: whatever is laid passes the checker, which shares no code with the search, and is no shorter
// than its bound; and it fits its own length.

#include "solver/layout/checker.hpp"
#include "solver/layout/lay.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <cstring>

using namespace gatherwright::layout;

namespace {

/// Bytes one after another; 0 once there are none.
struct Bytes {
  const std::uint8_t *data;
  std::size_t size;
  std::size_t at = 0;

  int next() { return at < size ? data[at++] : 0; }
  bool any() const { return at < size; }
};

/// Small numbers by themselves, in parts that sum to what they should only where rounding is taken for none, or any
/// number of double precision.
double length_of(Bytes &bytes, int how) {
  if (how == 3) {
    std::uint64_t bits = 0;
    for (int i = 0; i < 8; ++i)
      bits = bits << 8 | static_cast<std::uint64_t>(bytes.next());
    double length = 0;
    std::memcpy(&length, &bits, sizeof length);
    return length;
  }
  const double number = bytes.next() + 1;
  return how == 0 ? number : how == 1 ? number * 25.4 / 16 : number / 3 + (bytes.next() % 2) * 1e-7;
}

Problem problem_of(Bytes bytes) {
  const int how = bytes.next();
  Problem problem;
  problem.width = length_of(bytes, how % 4) * (how % 4 == 3 ? 1 : 1 + how / 16);
  while (bytes.any() && problem.rectangles.size() < 40) {
    const int kind = bytes.next();
    Rectangle rectangle;
    rectangle.across = length_of(bytes, how % 4);
    rectangle.along = length_of(bytes, how % 4);
    rectangle.count = kind % 16 == 15 ? bytes.next() : 1 + kind % 4;
    rectangle.may_turn = kind / 16 % 4 == 0;
    problem.rectangles.push_back(rectangle);
  }
  return problem;
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size);

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
  const Problem problem = problem_of({data, size});
  if (misfit(problem)) return 0;
  const Budget little{100'000, 50'000};
  const Layout layout = lay(problem, little);
  if (check(problem, layout)) std::abort();
  if (!(layout.bound <= layout.length)) std::abort();
  const Fitting fitting = fits(problem, layout.length, little);
  if (fitting.answer == Fitting::Answer::does_not) std::abort();
  if (fitting.layout && check(problem, *fitting.layout)) std::abort();
  if (layout.shortest && layout.length > 0 &&
      fits(problem, layout.length * 0.999, little).answer == Fitting::Answer::fits)
    std::abort();
  return 0;
}
