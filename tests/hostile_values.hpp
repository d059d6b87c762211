// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <array>
#include <cstdint>
#include <iterator>
#include <limits>
#include <span>
#include <string>
#include <vector>

namespace gatherwright::tests {

/// A job as a program might make it, of bytes: most of it such as a maker means, and here and there a value that none
/// means. The first byte says how often; with the bytes at an end, the rest is ordinary.
class HostileValues {
public:
  explicit HostileValues(std::span<const std::uint8_t> bytes) : bytes_(bytes) {
    constexpr std::array<int, 6> rates{0, 0, 1, 3, 10, 60};
    rate_ = rates[below(rates.size())];
  }

  Job job() {
    Job job;
    if (chance(4)) job.title = text("a title");
    job.unit = enumerator<Unit>(6);
    job.tape_step = length(1);
    job.measures.resize(below(3));
    job.lengths.resize(below(4));
    symbols_ = job.symbols();
    first_length_ = static_cast<int>(job.measures.size());
    job.fabric = fabric();
    width_known_ = job.fabric.width.has_value();
    job.gathering = gathering();
    job.tolerance = {chance(4) ? length(5) : Length{}, chance(4) ? length(5) : Length{}};
    if (chance(4)) job.wearer_age = number(34);
    for (std::size_t m = 0; m < job.measures.size(); ++m)
      job.measures[m] = {text("m" + std::to_string(m)), length(1000)};
    for (std::size_t i = 0; i < job.lengths.size(); ++i)
      job.lengths[i] = named_length(static_cast<int>(i));
    job.rules.resize(below(3));
    for (Rule &rule : job.rules)
      rule = {text("a rule"), {formula(), enumerator<Relation>(3), formula()}};
    const std::size_t joins = hostile() ? 0 : 1 + below(3);
    for (std::size_t j = 0; j < joins; ++j)
      job.joins.push_back(join(static_cast<int>(j)));
    const std::size_t pieces = below(3);
    for (std::size_t p = 0; p < pieces; ++p)
      job.pieces.push_back(piece(job, static_cast<int>(p)));
    return job;
  }

private:
  std::uint8_t byte() { return at_ < bytes_.size() ? bytes_[at_++] : 0; }
  bool hostile() { return byte() > 255 - rate_; }
  bool chance(int in) { return byte() % in == in - 1; }
  std::size_t below(std::size_t end) { return byte() % end; }
  template <class List> auto one_of(const List &list) { return *(std::begin(list) + below(std::size(list))); }

  double hostile_number() {
    using Of = std::numeric_limits<double>;
    return one_of(std::to_array<double>({Of::quiet_NaN(),
                                         Of::infinity(),
                                         -Of::infinity(),
                                         Of::max(),
                                         Of::lowest(),
                                         Of::denorm_min(),
                                         -0.0,
                                         0,
                                         1,
                                         -1,
                                         1e-9,
                                         1e-7,
                                         1e-6,
                                         0.1,
                                         999,
                                         1e6,
                                         1e8,
                                         2e9,
                                         1e12,
                                         1e300,
                                         1.0 / 3}));
  }
  int hostile_int() {
    using Of = std::numeric_limits<int>;
    return one_of(std::to_array<int>({Of::min(), Of::max(), -1, 0, 1, 2, 3, 5, 8, 1000, 1'000'000, 2'000'000'000}));
  }

  double number(double usual) { return hostile() ? hostile_number() : usual; }
  Length length(double most) { return {number(most * (1 + byte()) / 256)}; }
  int whole(int most) {
    return hostile() ? hostile_int() : 1 + static_cast<int>(below(static_cast<std::size_t>(most)));
  }
  template <class Word> Word enumerator(int count) {
    return static_cast<Word>(hostile() ? hostile_int() : static_cast<int>(below(static_cast<std::size_t>(count))));
  }
  std::string text(const std::string &usual) {
    if (!hostile()) return usual;
    return one_of(std::to_array<std::string>({"", "\xff", "two\nlines", "\xed\xa0\x80", "é", "pi", "a name", "m0",
                                              std::string(100'000, 'x'), std::string("\0", 1)}));
  }

  int symbol() {
    if (hostile()) return hostile_int();
    const int last = width_known_ ? symbols_ : symbols_ - 1;
    return last > 0 ? static_cast<int>(below(static_cast<std::size_t>(last))) : symbols_;
  }

  /// Of lengths, measures and figures. `before`: names no symbol from there on, unless it is hostile.
  Formula formula(int before = std::numeric_limits<int>::max()) {
    using Code = Formula::Code;
    if (hostile()) {
      std::vector<Formula::Step> steps;
      for (std::size_t i = below(8); i > 0; --i)
        steps.push_back({static_cast<Code>(hostile_int()), hostile_number(), hostile_int()});
      if (auto made = Formula::of_steps(std::move(steps), "steps")) return *std::move(made);
      return Formula::of_symbol(symbol(), text("a symbol"));
    }
    const auto named = [&]() -> Formula::Step {
      const int found = symbol();
      if (found < before && found < symbols_) return {Code::symbol, 0, found};
      return {Code::length, 10.0 * (1 + byte())};
    };
    if (chance(2)) return Formula::of(length(2000), text("a length"));
    std::vector<Formula::Step> steps{named()};
    for (std::size_t i = below(3); i > 0; --i) {
      const bool scaled = chance(2);
      steps.push_back(scaled ? Formula::Step{Code::number, 0.5 + byte() % 4} : named());
      constexpr std::array sums{Code::add, Code::add, Code::subtract, Code::least, Code::most};
      constexpr std::array scales{Code::multiply, Code::divide};
      steps.push_back({scaled ? one_of(scales) : one_of(sums)});
    }
    return Formula::of_steps(std::move(steps), text("a formula")).value_or(Formula());
  }

  NamedLength named_length(int index) {
    NamedLength length;
    length.name = text("l" + std::to_string(index));
    length.keep = chance(4);
    const int before = first_length_ + index;
    if (chance(2)) {
      length.is = formula(before);
      return length;
    }
    FreeLength free;
    if (chance(2)) free.from = formula(before);
    if (chance(2)) free.to = formula(before);
    if (chance(3)) free.aim = formula(before);
    if (chance(4)) free.aim = enumerator<Extreme>(free.to ? 2 : 1);
    length.is = std::move(free);
    return length;
  }

  Fabric fabric() {
    Fabric fabric;
    fabric.name = text("lawn");
    if (chance(2)) fabric.weight = Weight{number(10.0 + byte())};
    if (chance(2)) fabric.width = length(1500);
    if (chance(4)) fabric.thickness = length(1);
    if (chance(4)) fabric.bending_length = length(40);
    fabric.shrinks = chance(4);
    if (chance(4)) fabric.selvedge = length(20);
    if (chance(4)) fabric.shrinkage = Shrinkage{number(0.05), number(0.02)};
    if (chance(4)) fabric.sold_by = length(500);
    if (chance(4)) fabric.stock = Stock{length(5000), "as written"};
    if (!chance(4)) return fabric;
    Swatch swatch;
    swatch.cut = Length{number(300)};
    if (chance(2)) swatch.tight = Length{number(40)};
    if (chance(2) || !swatch.tight) swatch.good = {Length{number(100)}, Length{number(200)}};
    if (chance(2)) swatch.stitch = Length{number(4)};
    fabric.swatch = swatch;
    return fabric;
  }

  Gathering gathering() {
    Gathering gathering;
    gathering.stitch_given = chance(2);
    if (gathering.stitch_given) gathering.stitch = Length{number(1 + byte() % 8)};
    if (chance(8)) {
      gathering.threads = CountedThreads{number(3), number(4), number(1.8)};
      gathering.stitch = Length{number(3.5 / 1.8)};
    }
    gathering.on_face = chance(4);
    if (chance(2)) gathering.rows = whole(5);
    if (chance(4)) gathering.tail = length(200);
    if (chance(4)) gathering.longest = length(2000);
    return gathering;
  }

  Edge edge(bool closed) {
    Edge edge;
    if (chance(4)) {
      DrawnEdge drawn;
      drawn.path = hostile() ? text("") : closed ? "M 0 0 L 300 0 L 300 200 L 0 200 z" : "M 0 0 C 100 80 200 -80 300 0";
      drawn.path_unit = enumerator<Unit>(1);
      if (chance(2)) {
        drawn.allowance = length(15);
        drawn.garment = closed ? (chance(2) ? Garment::inside : Garment::outside) : enumerator<Garment>(2);
      }
      if (chance(2)) drawn.grain = number(45);
      if (!closed && chance(4)) drawn.part = {length(20), length(200)};
      if (chance(4)) drawn.misread = Length{number(8)};
      edge.is = std::move(drawn);
    } else {
      edge.is = formula();
    }
    if (chance(4)) edge.ends = {length(20), length(20)};
    return edge;
  }

  PinMarks marks() {
    switch (below(3)) {
    case 0:
      return PinsApart{.most = length(200), .halves = chance(2)};
    case 1:
      return PinsAtParts{whole(8)};
    default:
      return PinsEvery{length(200)};
    }
  }

  SpreadWish spread(bool drawn) {
    switch (below(5)) {
    case 1:
      return Fade{{length(30), length(30)}};
    case 2: {
      Shape shape;
      const std::size_t points = hostile() ? below(3) : 2 + below(4);
      for (std::size_t i = 0; i < points; ++i)
        shape.points.push_back({number(points < 2 ? 0 : static_cast<double>(i) / static_cast<double>(points - 1)),
                                number(1 + byte() % 3)});
      return shape;
    }
    case 3:
      if (drawn || hostile()) return AlongGrain{};
      return Even{};
    default:
      return Even{};
    }
  }

  Segment segment(bool drawn) {
    Segment segment;
    segment.name = text(chance(2) ? "cap" : "");
    segment.kind = enumerator<Kind>(5);
    segment.to = text(chance(2) ? "notch" : "");
    const bool flat = segment.kind == Kind::flat;
    if (flat || chance(3)) segment.long_edge = formula();
    if (!flat && (segment.long_edge || chance(3))) segment.band = formula();
    if (!flat && chance(3)) segment.share = number(1 + byte() % 4);
    if (hostile()) segment.share = hostile_number();
    if ((!flat && chance(3)) || hostile()) {
      const bool most_alone = segment.kind == Kind::ease;
      if (!most_alone || hostile()) segment.limits.least = number(1.25);
      if (!most_alone && chance(2)) segment.limits.ideal = number(2);
      segment.limits.most = number(most_alone ? 1.05 : 3);
    }
    const bool may = segment.kind == Kind::gather || segment.kind == Kind::ease;
    if (may || hostile()) segment.spread = spread(drawn);
    return segment;
  }

  Join join(int index) {
    Join join;
    join.name = text("join " + std::to_string(index));
    join.closed = chance(3);
    join.long_edge = edge(join.closed);
    join.band = edge(join.closed);
    join.make = whole(4);
    join.mirrored = chance(2);
    join.marks = marks();
    if (chance(4)) join.use = enumerator<Use>(2);
    join.fabric = fabric();
    join.own_weight = join.fabric.weight && chance(2);
    if (hostile()) join.own_weight = true;
    join.gathering = gathering();
    join.own_stitch = join.gathering.stitch_given;
    const std::size_t segments = hostile() ? 0 : 1 + below(4);
    for (std::size_t s = 0; s < segments; ++s)
      join.segments.push_back(segment(join.long_edge.drawn() != nullptr));
    return join;
  }

  SidePart side_part(const Job &job) {
    const std::size_t joins = job.joins.size();
    SidePart part{.join = JoinId(hostile() || joins == 0 ? hostile_int() : static_cast<int>(below(joins)))};
    const bool known = part.join.at >= 0 && part.join.at < static_cast<int>(joins);
    const std::size_t segments = known ? job[part.join].segments.size() : 0;
    part.edge = known && job[part.join].long_edge.drawn() ? WhichEdge::band : enumerator<WhichEdge>(2);
    const std::size_t from = segments > 0 ? below(segments) : 0;
    const std::size_t length = segments > 0 ? 1 + below(segments - from) : 1;
    part.from = hostile() ? hostile_int() : static_cast<int>(from);
    part.to = hostile() ? hostile_int() : static_cast<int>(from + length);
    if (chance(2)) part.at = formula();
    return part;
  }

  Piece piece(const Job &job, int index) {
    Piece piece;
    piece.name = text("piece " + std::to_string(index));
    piece.cut = whole(4);
    piece.across = formula();
    piece.along = formula();
    for (const Side side : all_sides) {
      if (chance(3)) piece.allowance[side] = length(20);
      for (std::size_t parts = below(8) / 4; parts > 0; --parts)
        piece.sides[side].push_back(side_part(job));
    }
    piece.mirrored = chance(2);
    piece.turn = chance(2);
    piece.fabric = job.fabric;
    if (!chance(3)) return piece;
    piece.fabric = fabric();
    if (!hostile()) piece.fabric.name = "cloth " + std::to_string(index);
    return piece;
  }

  std::span<const std::uint8_t> bytes_;
  std::size_t at_ = 0;
  int rate_ = 0; ///< of 256 values, how many are hostile
  int symbols_ = 0;
  int first_length_ = 0;
  bool width_known_ = false;
};

} // namespace gatherwright::tests
