// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <limits>

namespace gatherwright::optimum {

/// Work done, and how much of it may be done at most. It is counted in steps, each about a multiplication and an
/// addition with what it takes to fetch the numbers, by what is done and never by the time that takes: so what is left
/// undone for being too much is the same on every machine.
class Work {
public:
  /// What may be too much: steps, or one of the kinds of room below.
  enum class Bound { none, steps, maps, shared, active };

  static constexpr std::int64_t unbounded = std::numeric_limits<std::int64_t>::max();

  explicit Work(std::int64_t most = unbounded) : most_(most) {}

  void add(std::int64_t steps) { done_ += steps; }
  std::int64_t done() const { return done_; }
  std::int64_t left() const { return done_ < most_ ? most_ - done_ : 0; }
  std::int64_t most() const { return most_; }
  bool spent() const { return done_ > most_; }

  /// Notes that there was not room enough.
  void lack(Bound room) { lacked_ = room; }
  Bound passed() const { return spent() ? Bound::steps : lacked_; }

private:
  std::int64_t done_ = 0;
  std::int64_t most_;
  Bound lacked_ = Bound::none;
};

/// Room is bounded too, in numbers: those of the blocks' maps and of their equalities, those of the shared unknowns'
/// triangle, and the constraints that are active at once, whose triangle has half the square of that many.
inline constexpr std::int64_t most_in_maps = 8'000'000;
inline constexpr int most_shared = 1000;
inline constexpr int most_active = 4000;

/// Counts for whoever has asked for it.
class WorkCounter {
public:
  void into(Work *work) { work_ = work; }
  Work *work() const { return work_; }
  void add(std::int64_t steps) const {
    if (work_) work_->add(steps);
  }
  bool spent() const { return work_ && work_->spent(); }
  void lack(Work::Bound room) const {
    if (work_) work_->lack(room);
  }

private:
  Work *work_ = nullptr;
};

} // namespace gatherwright::optimum
