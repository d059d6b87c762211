// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/bounds.hpp"
#include "gatherwright/job.hpp"

#include <string_view>
#include <vector>

/// The parts of a job one by one: whether each is what it may be.
namespace gatherwright::job {

/// An enumerator between two, which one cast from a number need not be.
template <class Word> constexpr bool is_among(Word word, Word first, Word last) {
  return first <= word && word <= last;
}

/// A length that a job may have; of any other fault_of_length() tells what is wrong.
inline bool is_length_of_cloth(Length length, bool above_0) {
  return length.mm >= (above_0 ? bounds::shortest_length.mm : 0) && length.mm <= bounds::longest_length.mm;
}

/// Tells what is wrong with a part, at the place where it stands. `what` names the part in the fault: "the age".
class Judge {
public:
  /// Lengths are told in `unit`. The faults must outlive it.
  Judge(Unit unit, std::vector<PlacedFault> &faults) : unit_(unit), faults_(faults) {}

  Unit unit() const { return unit_; }

  void refuse(Place place, Fault fault) { faults_.push_back({place, std::move(fault)}); }

  /// False where it told a fault.
  bool utf8(std::string_view text, std::string_view what, Place place);
  bool text(std::string_view text, std::string_view what, Place place); ///< on one line, without control characters
  bool number(double number, double least, double most, std::string_view what, Place place);
  bool length(Length length, bool above_0, std::string_view what, Place place);

  /// From 1. `what` are counted: "rows".
  bool whole(int count, int most, std::string_view what, Place place);

  /// What is to be told of a formula; not what it comes to.
  void written(const Formula &formula, Place place);

  bool fabric(const Fabric &fabric, Place place);

  /// That something is left of a cloth's width, of a fabric that is sound.
  bool leaves_a_width(const Fabric &fabric, Place place);

  void gathering(const Gathering &gathering, Place place);
  void marks(const PinMarks &marks, Place place);
  void edge(const Edge &edge, bool closed, Place place);
  void segments(const Join &join, JoinId at);

private:
  void shrinkage(const Shrinkage &shrinkage, Place place);
  void swatch(const Swatch &swatch, Place place);
  void threads(const CountedThreads &threads, Length stitch, Place place);
  void stitch(Length stitch, std::string_view what, Place place);
  void drawn(const DrawnEdge &drawn, bool closed, Place place);
  void segment(const Join &join, SegmentAt at);
  void own_limits(const Segment &segment, Place place);
  void spread(const Join &join, const Segment &segment, Place place);
  void shape(const Shape &shape, Place place);

  Unit unit_;
  std::vector<PlacedFault> &faults_;
  SharedText sound_name_, sound_stock_; ///< looked at last: most fabrics share theirs
};

} // namespace gatherwright::job
