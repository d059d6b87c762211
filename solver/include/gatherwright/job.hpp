// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cloth.hpp"
#include "gatherwright/formula.hpp"
#include "gatherwright/garment.hpp"
#include "gatherwright/id.hpp"
#include "gatherwright/piece.hpp"
#include "gatherwright/quantity.hpp"

#include <array>
#include <optional>
#include <string>
#include <variant>
#include <vector>

/// A job as plain values: what the maker wrote, with names as indices. All lengths are between seam lines. Fades,
/// allowances and the distances of pins are formulas of what is fixed: they name no free length, nor one made of it.
namespace gatherwright {

/// Pin marks at equal parts of a segment's band, no further apart than `most`.
struct PinsApart {
  Formula most = Length{60.0};
  bool halves = true; ///< the count of parts is raised to a power of two
};

/// Pin marks at so many equal parts.
struct PinsAtParts {
  int parts = 4;
};

/// A pin mark every so far, from the segment's start.
struct PinsEvery {
  Formula distance;
};

using PinMarks = std::variant<PinsApart, PinsAtParts, PinsEvery>;

/// An edge drawn as path data along the cut edge.
struct DrawnEdge {
  /// Only so much of it: from one place along its stitching line to a later one.
  using Part = std::array<Formula, 2>;

  std::string path;
  Unit path_unit = Unit::mm;
  Formula allowance = {}; ///< from the cut edge to the stitching line
  std::optional<Garment> garment = std::nullopt;
  double grain = 90; ///< direction of the warp in degrees anticlockwise as seen on the page, from +x
  std::optional<Part> part = std::nullopt; ///< left out: all of it
  /// Of one drawn through points that were measured: how much longer or shorter the whole line may be where each of
  /// them is up to 1 mm off.
  std::optional<Length> misread = std::nullopt;
};

/// One edge of a join.
struct Edge {
  std::variant<Formula, DrawnEdge> is;
  std::optional<std::array<Formula, 2>> ends = std::nullopt; ///< allowances before the first and after the last stitch

  const Formula *formula() const { return std::get_if<Formula>(&is); }   ///< nothing where it is drawn
  const DrawnEdge *drawn() const { return std::get_if<DrawnEdge>(&is); } ///< nothing where it is a length
};

/// The extra lies evenly.
struct Even {};

/// The extra rises from nothing over the first of these lengths of the band and falls to it over the last.
struct Fade {
  std::array<Formula, 2> over;
};

/// The extra follows a curve through points: fraction of the band, which rises from 0 to 1, and relative extra there.
struct Shape {
  std::vector<std::array<double, 2>> points;
};

/// The extra lies where the grain of a drawn long edge takes it.
struct AlongGrain {};

using SpreadWish = std::variant<Even, Fade, Shape, AlongGrain>;

struct Segment {
  std::string name; ///< may be empty
  Kind kind = Kind::gather;
  std::optional<Formula> long_edge = std::nullopt; ///< left out: to be found
  std::optional<Formula> band = std::nullopt;      ///< likewise
  std::string to;                                  ///< the reference mark at its end; may be empty
  double share = 1;
  OwnLimits limits;
  SpreadWish spread;
};

struct Join {
  std::string name;
  Edge long_edge;
  Edge band;
  bool closed = false;
  int make = 1;
  bool mirrored = false;
  PinMarks marks;
  std::optional<Formula> allowance = std::nullopt; ///< along the seam, of straight edges; left out: the job's
  std::optional<Use> use = std::nullopt;           ///< left out: as a sleeve, a neck or a frill
  Fabric fabric;                                   ///< of the long edge: the job's with the join's own over it
  bool own_weight = false;                         ///< the join names a weight of its own
  Gathering gathering;                             ///< likewise
  bool own_stitch = false;
  std::vector<Segment> segments; ///< at least one
};

struct Measure {
  std::string name;
  Length is;
};

/// What a free length is aimed at where that is no figure: as short or as long as may be.
enum class Extreme { least, most };

/// A length for the solver to choose.
struct FreeLength {
  std::optional<Formula> from = std::nullopt; ///< left out: no bound but 0
  std::optional<Formula> to = std::nullopt;   ///< left out: no bound
  std::optional<std::variant<Formula, Extreme>> aim = std::nullopt;

  /// What is aimed at where it is a figure; nothing where it is an extreme, or nothing is.
  const Formula *figure() const { return aim ? std::get_if<Formula>(&*aim) : nullptr; }
};

/// A named length of cloth: fixed, or free within a range.
struct NamedLength {
  std::string name;
  bool keep = false; ///< never proposed as a remedy; see `kept_by_default`
  std::variant<Formula, FreeLength> is;

  const Formula *fixed() const { return std::get_if<Formula>(&is); }
  const FreeLength *free() const { return std::get_if<FreeLength>(&is); }
};

struct Rule {
  std::string name; ///< as given, or the rule as written
  Comparison holds;
};

struct Tolerance {
  Length cut{0.0};
  Length mark{0.0};
};

/// A job, and the symbols of its formulas.
///   1. Symbols stand for the measures, then the lengths, then the cloth's width.
///   2. An id gives the thing that it counts to, and throws std::out_of_range where there is none.
struct Job {
  std::optional<std::string> title = std::nullopt;
  Unit unit = Unit::cm;
  Length tape_step{1.0};
  std::optional<Formula> allowance = std::nullopt; ///< of every seam and side that has none of its own; left out: 0
  Fabric fabric;
  Gathering gathering;
  Tolerance tolerance;
  std::optional<double> wearer_age = std::nullopt; ///< years
  bool bare_lengths = false;                       ///< some length was a number without a unit
  std::vector<Measure> measures;
  std::vector<NamedLength> lengths;
  std::vector<Rule> rules;
  std::vector<Join> joins;
  std::vector<Piece> pieces;

  const Measure &operator[](MeasureId id) const { return measures.at(id.at); }
  const NamedLength &operator[](LengthId id) const { return lengths.at(id.at); }
  const Rule &operator[](RuleId id) const { return rules.at(id.at); }
  const Join &operator[](JoinId id) const { return joins.at(id.at); }
  const Piece &operator[](PieceId id) const { return pieces.at(id.at); }
  const Segment &operator[](SegmentAt at) const { return joins.at(at.join.at).segments.at(at.segment); }
  const Edge &operator[](EdgeAt at) const {
    const Join &join = joins.at(at.join.at);
    return at.edge == WhichEdge::band ? join.band : join.long_edge;
  }
  const SidePart &operator[](PartAt at) const { return pieces.at(at.side.piece.at).sides[at.side.side].at(at.part); }

  int symbol_of(MeasureId measure) const { return measure.at; }
  int symbol_of(LengthId length) const { return static_cast<int>(measures.size()) + length.at; }
  int symbol_of_cloth_width() const { return static_cast<int>(measures.size() + lengths.size()); }
  int symbols() const { return symbol_of_cloth_width() + 1; }

  /// The length that a symbol stands for; nothing where it stands for a measure or the cloth's width.
  std::optional<LengthId> length_of(int symbol) const {
    const int first = static_cast<int>(measures.size());
    if (symbol < first || symbol - first >= static_cast<int>(lengths.size())) return std::nullopt;
    return LengthId(symbol - first);
  }

  Tape tape() const { return {unit, tape_step}; }
};

/// What a job asks for and a conflict may name. A drawn edge's length is given by the drawing.
namespace condition {

/// A rule.
struct Holds {
  RuleId at;
};

/// An end of a free length's range.
struct InRange {
  enum class End { from, to };
  LengthId at;
  End end;
};

/// The segments of an edge come to as much as the edge.
struct AddsUp {
  EdgeAt at;
};

/// A flat segment is as long on both edges.
struct Flat {
  SegmentAt at;
};

/// A segment's length on one edge is as given.
struct Given {
  SegmentAt at;
  WhichEdge edge;
};

/// A piece whose width hangs on what is to be found goes into the width of its cloth.
struct NoWider {
  PieceId at;
};

/// The pieces of a cloth come out of what there is of it.
struct WithinStock {
  ClothId at;
};

} // namespace condition

using Condition = std::variant<condition::Holds, condition::InRange, condition::AddsUp, condition::Flat,
                               condition::Given, condition::NoWider, condition::WithinStock>;

/// Where in a job a fault lies.
namespace place {

/// The job itself, or what it says for all its joins.
struct WholeJob {
  enum class Part { whole, title, unit, tape_step, allowance, fabric, gathering, tolerance, wearer_age, pieces };
  Part part = Part::whole;
};

/// A named length, or one of its formulas.
struct InLength {
  enum class Part { whole, is, from, to, aim };
  LengthId at;
  Part part = Part::whole;
};

struct InRule {
  RuleId at;
};

/// A join, or a part of it that is neither edge nor segment.
struct InJoin {
  enum class Part { whole, name, make, marks, allowance, use, fabric, gathering };
  JoinId at;
  Part part = Part::whole;
};

/// An edge, or an allowance of it.
struct InEdge {
  enum class Part { whole, allowance, ends, part };
  EdgeAt at;
  Part part = Part::whole;
};

/// A segment, or a part of it.
struct InSegment {
  enum class Part { whole, long_edge, band, spread, name, kind, to, share, limits };
  SegmentAt at;
  Part part = Part::whole;
};

struct InMeasure {
  MeasureId at;
};

/// A piece, or what is no side of it.
struct InPiece {
  enum class Part { whole, name, cut, across, along, fabric };
  PieceId at;
  Part part = Part::whole;
};

/// The allowance of a side.
struct InAllowance {
  SideAt at;
};

/// A part of a side, or what says where it lies.
struct InSidePart {
  enum class Part { whole, from, to, at };
  PartAt at;
  Part part = Part::whole;
};

} // namespace place

using Place = std::variant<place::WholeJob, place::InLength, place::InRule, place::InJoin, place::InEdge,
                           place::InSegment, place::InMeasure, place::InPiece, place::InAllowance, place::InSidePart>;

struct PlacedFault {
  Place place;
  Fault fault;
};

} // namespace gatherwright
