// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cloth.hpp"
#include "gatherwright/formula.hpp"
#include "gatherwright/quantity.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

/// A job as plain values: what the maker wrote, with names as indices. All lengths are between seam lines.
namespace gatherwright {

/// Where pin marks go within a segment.
struct PinMarks {
  enum class Rule { apart, parts, every };
  Rule rule = Rule::apart;
  Length distance{60.0}; ///< of apart and every
  bool halves = true;    ///< apart: the count is raised to a power of two
  int parts = 0;
};

/// The sides of a drawn cut edge on which the garment may lie.
enum class Garment { left, right, inside, outside };

/// An edge drawn as path data along the cut edge.
struct DrawnEdge {
  std::string path;
  Unit path_unit = Unit::mm;
  Length allowance{0.0};
  std::optional<Garment> garment;
  double grain = 90; ///< direction of the warp in degrees anticlockwise as seen on the page, from +x
};

/// One edge of a join: a length, or a drawn edge.
struct Edge {
  Formula length; ///< empty where drawn
  std::optional<DrawnEdge> drawn;
  std::optional<std::array<Length, 2>> ends; ///< allowances before the first and after the last stitch
};

/// How a segment's extra is shared along it.
struct SpreadWish {
  enum class Form { even, fade, shape, grain };
  Form form = Form::even;
  std::array<Length, 2> fade{};              ///< lengths of the band over which it rises and falls
  std::vector<std::array<double, 2>> points; ///< of shape: fraction of the band, relative extra
};

struct Segment {
  std::string name; ///< may be empty
  Kind kind = Kind::gather;
  Formula long_edge; ///< empty: to be found
  Formula band;      ///< empty: to be found
  std::string to;    ///< the reference mark at its end; may be empty
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
  std::optional<Use> use;  ///< left out: as a sleeve, a neck or a frill
  Fabric fabric;           ///< of the long edge: the job's with the join's own over it
  bool own_weight = false; ///< the join names a weight of its own
  Gathering gathering;     ///< likewise
  bool own_stitch = false;
  std::vector<Segment> segments; ///< at least one
};

struct Measure {
  std::string name;
  Length is;
};

/// A named length of cloth: fixed by `is`, or free within a range for the solver to choose.
struct NamedLength {
  enum class Aim { none, figure, least, most };
  std::string name;
  bool free = false;
  bool keep = false; ///< never proposed as a remedy
  Formula is;        ///< where it is not free
  Formula from;      ///< empty: no bound but 0
  Formula to;        ///< empty: no bound
  Aim aim_form = Aim::none;
  Formula aim; ///< of Aim::figure
};

struct Rule {
  std::string name; ///< as given, or the rule as written
  Comparison holds;
};

struct Tolerance {
  Length cut{0.0};
  Length mark{0.0};
};

/// Symbols of every formula of a job, in this order: the measures, the lengths, the cloth's width.
struct Job {
  std::optional<std::string> title;
  Unit unit = Unit::cm;
  Length tape_step{1.0};
  Fabric fabric;
  Gathering gathering;
  Tolerance tolerance;
  std::optional<double> wearer_age; ///< years
  bool bare_lengths = false;        ///< some length was a number without a unit
  std::vector<Measure> measures;
  std::vector<NamedLength> lengths;
  std::vector<int> length_order; ///< each after those its formulas name
  std::vector<Rule> rules;
  std::vector<Join> joins;

  int symbol_of_length(int length) const { return static_cast<int>(measures.size()) + length; }
  int symbol_of_cloth_width() const { return static_cast<int>(measures.size() + lengths.size()); }
  int symbols() const { return symbol_of_cloth_width() + 1; }
  Tape tape() const { return {unit, tape_step}; }
};

/// A condition of an irreducible conflict, in the job's terms.
struct Condition {
  enum class Kind { rule, from, to, long_adds_up, band_adds_up, flat, long_given, band_given };
  Kind kind = Kind::rule;
  int rule = -1;
  int length = -1;
  int join = -1;
  int segment = -1;
};

/// Where in a job a fault lies that only planning can see. Indices are -1 and `part` is empty where they do not apply.
struct Place {
  int join = -1;
  int segment = -1;
  int length = -1;
  int rule = -1;
  std::string_view part = {}; ///< "long", "band", "spread", "from", "to", "aim", "is"
};

struct PlacedFault {
  Place place;
  Fault fault;
};

} // namespace gatherwright
