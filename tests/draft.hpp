// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/defaults.hpp"
#include "tests/planned.hpp"

#include "gatherwright/validate.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <variant>
#include <vector>

/// Jobs as values, as short as what is said of them: a draft names lengths in its formulas ("wrist + 2 cm"), and
/// `job_of` makes a Job of it, with what the solver takes where nothing is said.
namespace gatherwright::tests {

constexpr Length mm(double length) {
  return {length};
}
constexpr Length cm(double length) {
  return {10 * length};
}

/// A cloth of so many grams per square metre, and so wide.
inline Fabric weighing(double grams, std::optional<Length> width = std::nullopt) {
  Fabric fabric;
  fabric.weight = Weight{grams};
  fabric.width = width;
  return fabric;
}

/// A gathering with this stitch, hole to hole.
inline Gathering stitched(Length stitch) {
  Gathering gathering;
  gathering.stitch = stitch;
  gathering.stitch_given = true;
  return gathering;
}

inline OwnLimits at_most(double most) {
  return {std::nullopt, std::nullopt, most};
}

/// A formula, or a drawn edge.
struct EdgeDraft {
  std::variant<std::string, DrawnEdge> is;
  std::optional<std::array<std::string, 2>> ends = std::nullopt; ///< formulas

  EdgeDraft(const char *formula) : is(formula) {}
  EdgeDraft(std::string formula) : is(std::move(formula)) {}
  EdgeDraft(DrawnEdge drawn) : is(std::move(drawn)) {}
};

struct SegmentDraft {
  std::string name = {};
  Kind kind = Kind::gather;
  std::string long_edge = {}; ///< empty: to be found
  std::string band = {};      ///< likewise
  std::string to = {};
  double share = 1;
  OwnLimits limits = {};
  SpreadWish spread = {};
  std::optional<std::array<std::string, 2>> fade = std::nullopt; ///< by its formulas
};

struct JoinDraft {
  std::string name;
  EdgeDraft long_edge;
  EdgeDraft band;
  std::vector<SegmentDraft> segments = std::vector<SegmentDraft>(1);
  bool closed = false;
  int make = 1;
  std::optional<bool> mirrored = std::nullopt;
  std::optional<PinMarks> marks = std::nullopt;
  std::optional<Use> use = std::nullopt;
  std::string allowance = {};
  std::string apart = {}; ///< of pins, by its formula
};

/// What is left empty is left out; one that is not `is` anything is free.
struct LengthDraft {
  std::string name;
  std::string is = {};
  std::string from = {};
  std::string to = {};
  std::string aim = {}; ///< "least", "most" or a formula
  bool keep = false;
};

/// A part of a join's edge on a side of a piece.
struct PartDraft {
  Side side = Side::top;
  int join = 0;
  WhichEdge edge = WhichEdge::long_edge;
  int from = 0;
  std::optional<int> to = std::nullopt; ///< left out: the edge's end
  std::string at = "0 cm";
};

struct PieceDraft {
  std::string name;
  std::string across;
  std::string along;
  int cut = 1;
  std::vector<PartDraft> sides = {};
  std::vector<std::pair<Side, std::string>> allowance = {};
  std::optional<bool> mirrored = std::nullopt;
  bool turn = false;
  std::optional<Fabric> fabric = std::nullopt; ///< left out: the job's
};

struct Draft {
  Unit unit = Unit::cm;
  std::optional<Length> tape_step = std::nullopt;
  Fabric fabric = {};
  Gathering gathering = {};
  Tolerance tolerance = {};
  std::vector<Measure> measures = {};
  std::vector<LengthDraft> lengths = {};
  std::vector<std::string> rules = {};
  std::vector<JoinDraft> joins = {};
  std::string allowance = {};
  std::vector<PieceDraft> pieces = {};
};

/// Makes a job of a draft.
class Drafting {
public:
  explicit Drafting(const Draft &draft) : draft_(draft) {
    for (const Measure &measure : draft.measures)
      name(measure.name);
    for (const LengthDraft &length : draft.lengths)
      name(length.name);
    name("cloth_width");
  }

  Job job() const {
    Job job;
    job.unit = draft_.unit;
    job.tape_step = draft_.tape_step.value_or(default_tape_step(draft_.unit));
    job.fabric = draft_.fabric;
    job.gathering = draft_.gathering;
    job.tolerance = draft_.tolerance;
    job.measures = draft_.measures;
    for (const LengthDraft &length : draft_.lengths)
      job.lengths.push_back(made(length));
    for (const std::string &rule : draft_.rules)
      job.rules.push_back({rule, read(parse_comparison(rule, draft_.unit, find(), known_), rule)});
    for (const JoinDraft &join : draft_.joins)
      job.joins.push_back(made(join));
    job.allowance = maybe(draft_.allowance);
    for (const PieceDraft &piece : draft_.pieces)
      job.pieces.push_back(made(piece, job));
    return job;
  }

private:
  void name(const std::string &word) {
    symbols_.emplace(word, static_cast<int>(known_.size()));
    known_.push_back(word);
  }

  NameIndex find() const {
    return [this](std::string_view word) {
      const auto found = symbols_.find(std::string(word));
      return found == symbols_.end() ? -1 : found->second;
    };
  }

  template <class Value> static Value read(Outcome<Value> outcome, const std::string &text) {
    if (!outcome) FAIL(text << ": " << outcome.fault().what << "; " << outcome.fault().instead);
    return *std::move(outcome);
  }

  Formula formula(const std::string &text) const {
    return read(parse_formula(text, draft_.unit, find(), known_), text);
  }

  std::optional<Formula> maybe(const std::string &text) const {
    return text.empty() ? std::nullopt : std::optional(formula(text));
  }

  NamedLength made(const LengthDraft &draft) const {
    NamedLength length{.name = draft.name, .keep = draft.keep, .is = FreeLength{}};
    if (!draft.is.empty()) {
      length.is = formula(draft.is);
      return length;
    }
    FreeLength free{.from = maybe(draft.from), .to = maybe(draft.to)};
    if (draft.aim == "least" || draft.aim == "most")
      free.aim = draft.aim == "least" ? Extreme::least : Extreme::most;
    else if (!draft.aim.empty())
      free.aim = formula(draft.aim);
    length.is = std::move(free);
    return length;
  }

  std::array<Formula, 2> made(const std::array<std::string, 2> &two) const {
    return {formula(two[0]), formula(two[1])};
  }

  Edge made(const EdgeDraft &draft) const {
    Edge edge{.is = Formula()};
    if (draft.ends) edge.ends = made(*draft.ends);
    if (const auto *text = std::get_if<std::string>(&draft.is))
      edge.is = formula(*text);
    else
      edge.is = std::get<DrawnEdge>(draft.is);
    return edge;
  }

  Segment made(const SegmentDraft &draft) const {
    Segment segment;
    segment.name = draft.name;
    segment.kind = draft.kind;
    segment.long_edge = maybe(draft.long_edge);
    segment.band = maybe(draft.band);
    segment.to = draft.to;
    segment.share = draft.share;
    segment.limits = draft.limits;
    segment.spread = draft.spread;
    if (draft.fade) segment.spread = Fade{made(*draft.fade)};
    return segment;
  }

  Join made(const JoinDraft &draft) const {
    Join join;
    join.name = draft.name;
    join.long_edge = made(draft.long_edge);
    join.band = made(draft.band);
    join.closed = draft.closed;
    join.make = draft.make;
    join.mirrored = draft.mirrored.value_or(mirrored_by_default(draft.make));
    join.marks = draft.marks.value_or(default_pin_marks(draft_.unit));
    if (!draft.apart.empty()) join.marks = PinsApart{formula(draft.apart), false};
    join.allowance = maybe(draft.allowance);
    join.use = draft.use;
    join.fabric = draft_.fabric;
    join.gathering = draft_.gathering;
    for (const SegmentDraft &segment : draft.segments)
      join.segments.push_back(made(segment));
    return join;
  }

  Piece made(const PieceDraft &draft, const Job &job) const {
    Piece piece;
    piece.name = draft.name;
    piece.cut = draft.cut;
    piece.across = formula(draft.across);
    piece.along = formula(draft.along);
    for (const auto &[side, allowance] : draft.allowance)
      piece.allowance[side] = formula(allowance);
    piece.mirrored = draft.mirrored.value_or(mirrored_by_default(draft.cut));
    piece.turn = draft.turn;
    piece.fabric = draft.fabric.value_or(draft_.fabric);
    for (const PartDraft &part : draft.sides) {
      const int segments = static_cast<int>(job.joins.at(static_cast<std::size_t>(part.join)).segments.size());
      piece.sides[part.side].push_back(
          {JoinId(part.join), part.edge, part.from, part.to.value_or(segments), formula(part.at)});
    }
    return piece;
  }

  const Draft &draft_;
  std::unordered_map<std::string, int> symbols_;
  std::vector<std::string> known_;
};

/// The job that is drafted; the test fails where it is none.
inline Job job_of(const Draft &draft) {
  Job job = Drafting(draft).job();
  for (const PlacedFault &fault : validate(job))
    FAIL("the job is at fault: " << fault.fault.what << "; " << fault.fault.instead);
  return job;
}

inline Plan plan_of(const Draft &draft, const PlanSettings &settings = {}) {
  return plan_of(job_of(draft), settings);
}

} // namespace gatherwright::tests
