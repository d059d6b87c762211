// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/room.hpp"

#include "gatherwright/bounds.hpp"
#include "gatherwright/order.hpp"
#include "solver/advice/join_reach.hpp"
#include "solver/advice/line.hpp"
#include "solver/advice/nearest.hpp"
#include "solver/advice/piece_reach.hpp"
#include "solver/advice/slopes.hpp"
#include "solver/allot/place.hpp"
#include "solver/job/settled.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::advice {

namespace {

/// Rooms of a job's lengths, one length after another.
class Rooms {
public:
  Rooms(const Job &job, const Plan &plan, const Dependents &dependents, optimum::Work &work)
      : job_(job), plan_(plan), dependents_(dependents), work_(work), slopes_(job, plan, work) {
    find_what_is_found();
    read_formulas();
    find_what_is_wrong();
  }

  std::optional<Interval> room(int length);
  const KeptEnds &kept() const { return kept_; } ///< of the last that was found

private:
  /// A fade, an allowance or a distance of pins; `fades`: of which segment, if it is a fade.
  struct FixedFormula {
    ReadFormula is;
    MayBe0 may_be_0 = MayBe0::yes;
    bool moves_line = false; ///< the allowance of a drawn edge, whose length is in no proportion to it
    std::optional<int> fades = std::nullopt;
  };

  struct JoinFormulas {
    ReadFormula long_edge, band;
    std::vector<ReadFormula> segment_long, segment_band;
    std::vector<FixedFormula> fixed;
  };

  struct PieceFormulas {
    ReadFormula across, along;
    BySide<std::optional<ReadFormula>> allowance; ///< a side's own
    BySide<std::vector<ReadFormula>> at;
  };

  std::optional<Interval> reckoned(int length);
  void find_what_is_found();
  void read_formulas();
  JoinFormulas read(JoinId at);
  PieceFormulas read(const Piece &piece);
  void find_what_is_wrong();
  bool others_are_well() const;
  bool keep_lengths(int length, Reach &reach);
  bool keep_range(int other, int length, Reach &reach);
  bool keep_rules(Reach &reach) const;
  bool keep_join(std::size_t j, Reach &reach);
  bool keep_fixed(std::size_t j, Reach &reach);
  bool moves_ease(std::size_t j) const;
  bool lines_of(int p, PieceLines &lines) const;
  bool line_of_part(const SidePart &part, Line &line) const;
  bool aims_hold(const Interval &room) const;

  const Job &job_;
  const Plan &plan_;
  const Dependents &dependents_;
  optimum::Work &work_;
  Slopes slopes_;
  std::vector<int> broken_rules_, bad_joins_, bad_pieces_; ///< as planned; ascending
  Dependence on_it_;                                       ///< what depends on the length at hand
  std::vector<char> found_;                                ///< per symbol: it is a free length or made of one
  std::vector<ReadFormula> length_from_, length_to_, length_aim_;
  std::vector<const Formula *> other_aims_; ///< that move with the length at hand, but not in proportion
  std::vector<ReadFormula> rule_sides_;
  ReadFormula allowance_; ///< the job's
  std::vector<JoinFormulas> joins_;
  std::vector<PieceFormulas> pieces_;
  std::vector<Limits> limits_; ///< of the join at hand
  JoinLines lines_;
  KeptEnds kept_;
};

const Formula *given(const std::optional<Formula> &formula) {
  return formula ? &*formula : nullptr;
}

bool names_any(const Formula &formula, const std::vector<char> &symbols) {
  return std::any_of(formula.steps().begin(), formula.steps().end(), [&](const Formula::Step &step) {
    return step.code == Formula::Code::symbol && symbols[step.symbol] != 0;
  });
}

/// Asked about where an edge is drawn.
void Rooms::find_what_is_found() {
  if (std::none_of(job_.joins.begin(), job_.joins.end(), [](const Join &join) { return join.long_edge.drawn(); }))
    return;
  found_.assign(job_.symbols(), 0);
  for (const int i : order_of_lengths(job_)) {
    const Formula *is = job_.lengths[i].fixed();
    found_[job_.symbol_of(LengthId(i))] = !is || names_any(*is, found_);
  }
}

void Rooms::read_formulas() {
  for (std::vector<ReadFormula> *of_lengths : {&length_from_, &length_to_, &length_aim_})
    of_lengths->resize(job_.lengths.size());
  for (std::size_t i = 0; i < job_.lengths.size(); ++i) {
    const FreeLength *free = job_.lengths[i].free();
    if (!free) continue;
    length_from_[i] = slopes_.read(given(free->from));
    length_to_[i] = slopes_.read(given(free->to));
    length_aim_[i] = slopes_.read(free->figure());
  }
  rule_sides_.reserve(2 * job_.rules.size());
  for (const Rule &rule : job_.rules) {
    rule_sides_.push_back(slopes_.read(&rule.holds.left));
    rule_sides_.push_back(slopes_.read(&rule.holds.right));
  }
  allowance_ = slopes_.read(given(job_.allowance));
  joins_.reserve(job_.joins.size());
  for (int j = 0; j < static_cast<int>(job_.joins.size()); ++j)
    joins_.push_back(read(JoinId(j)));
  pieces_.reserve(job_.pieces.size());
  for (const Piece &piece : job_.pieces)
    pieces_.push_back(read(piece));
}

Rooms::JoinFormulas Rooms::read(JoinId at) {
  const Join &join = job_[at];
  JoinFormulas formulas;
  constexpr std::size_t of_ends_and_marks = 6;
  formulas.fixed.reserve(of_ends_and_marks);
  visit_fixed(join, at, [&](const Formula &formula, const Place &place, MayBe0 may_be_0, std::string_view) {
    FixedFormula &fixed = formulas.fixed.emplace_back(FixedFormula{slopes_.read(&formula), may_be_0});
    if (const auto *segment = std::get_if<place::InSegment>(&place)) fixed.fades = segment->at.segment;
    const auto *edge = std::get_if<place::InEdge>(&place);
    fixed.moves_line =
        edge && (edge->part == place::InEdge::Part::allowance || edge->part == place::InEdge::Part::part);
  });
  formulas.long_edge = slopes_.read(join.long_edge.formula());
  formulas.band = slopes_.read(join.band.formula());
  formulas.segment_long.reserve(join.segments.size());
  formulas.segment_band.reserve(join.segments.size());
  for (const Segment &segment : join.segments) {
    formulas.segment_long.push_back(slopes_.read(given(segment.long_edge)));
    formulas.segment_band.push_back(slopes_.read(given(segment.band)));
  }
  return formulas;
}

Rooms::PieceFormulas Rooms::read(const Piece &piece) {
  PieceFormulas formulas;
  formulas.across = slopes_.read(&piece.across);
  formulas.along = slopes_.read(&piece.along);
  for (const Side side : all_sides) {
    if (const auto &own = piece.allowance[side]) formulas.allowance[side] = slopes_.read(&*own);
    for (const SidePart &part : piece.sides[side])
      formulas.at[side].push_back(slopes_.read(&part.at));
  }
  return formulas;
}

void Rooms::find_what_is_wrong() {
  for (int r = 0; r < static_cast<int>(plan_.rules.size()); ++r)
    if (!plan_.rules[r].holds) broken_rules_.push_back(r);
  for (int j = 0; j < static_cast<int>(plan_.joins.size()); ++j)
    if (plan_.joins[j].verdict != Verdict::within_limits) bad_joins_.push_back(j);
  for (int p = 0; p < static_cast<int>(plan_.pieces.size()); ++p)
    if (!plan_.pieces[p].within_limits) bad_pieces_.push_back(p);
}

/// What does not depend on the length at hand is within limits.
bool Rooms::others_are_well() const {
  return std::includes(on_it_.rules.begin(), on_it_.rules.end(), broken_rules_.begin(), broken_rules_.end()) &&
         std::includes(on_it_.joins.begin(), on_it_.joins.end(), bad_joins_.begin(), bad_joins_.end()) &&
         std::includes(on_it_.pieces.begin(), on_it_.pieces.end(), bad_pieces_.begin(), bad_pieces_.end());
}

/// No length below 0, each free one within its range, and no end of a range or aim that moves with the length below 0.
bool Rooms::keep_lengths(int length, Reach &reach) {
  other_aims_.clear();
  for (const int moved : on_it_.lengths)
    if (const Line is = slopes_[LengthId(moved)]; is.slope != 0) reach.must_not_be_negative(is, is.at);
  return keep_range(length, length, reach) && std::all_of(on_it_.ranged.begin(), on_it_.ranged.end(), [&](int other) {
           return other == length || keep_range(other, length, reach);
         });
}

/// A free length stays within its range, which may move with the length at hand.
bool Rooms::keep_range(int other, int length, Reach &reach) {
  if (!job_.lengths[other].free()) return true;
  const Line is = slopes_[LengthId(other)];
  const auto keep = [&](const ReadFormula &bound, double sign) {
    if (!bound.formula || !(other == length || slopes_.moves(bound))) return true;
    Line line;
    if (!slopes_.line_of(bound, line)) return false;
    reach.must_not_be_negative(sign * (is - line), is.at);
    if (line.slope != 0) reach.must_not_be_negative(line, is.at);
    return true;
  };
  if (!keep(length_from_[other], 1) || !keep(length_to_[other], -1)) return false;
  if (!slopes_.moves(length_aim_[other])) return true;
  Line aim;
  if (slopes_.line_of(length_aim_[other], aim))
    reach.must_be_above_0(aim, is.at);
  else
    other_aims_.push_back(length_aim_[other].formula);
  return true;
}

bool Rooms::keep_rules(Reach &reach) const {
  for (const int r : on_it_.rules) {
    const ReadFormula &left = rule_sides_[2 * r];
    const ReadFormula &right = rule_sides_[2 * r + 1];
    if (!slopes_.moves(left) && !slopes_.moves(right)) {
      if (!plan_.rules[r].holds) return false;
      continue;
    }
    Line left_line, right_line;
    if (!slopes_.line_of(left, left_line) || !slopes_.line_of(right, right_line)) return false;
    const double size = std::abs(left_line.at) + std::abs(right_line.at);
    reach.keep({Kept::What::rule, r});
    switch (job_.rules[r].holds.relation) {
    case Relation::at_most:
      reach.must_not_be_negative(right_line - left_line, size);
      break;
    case Relation::at_least:
      reach.must_not_be_negative(left_line - right_line, size);
      break;
    case Relation::equal:
      reach.must_be_zero(left_line - right_line, size);
      break;
    }
  }
  return true;
}

/// An eased stretch is moved along a drawn edge, to where its limit is another.
bool Rooms::moves_ease(std::size_t j) const {
  const Join &join = job_.joins[j];
  if (!join.long_edge.drawn()) return false;
  const auto gives = [&](int s) {
    const std::optional<Formula> &cloth = allot::given_cloth(join.segments[s]);
    return cloth && !names_any(*cloth, found_);
  };
  const auto moved = [&](int s) {
    return slopes_.moves(joins_[j].segment_long[s]) ||
           (!takes_fullness(join.segments[s].kind) && slopes_.moves(joins_[j].segment_band[s]));
  };
  for (int s = 0; s < static_cast<int>(join.segments.size()); ++s) {
    if (join.segments[s].kind != Kind::ease || join.segments[s].limits.most) continue;
    const auto by = allot::placed_by(join, s, gives);
    if (!by) continue;
    for (int beside = by->first; beside < by->end; ++beside)
      if (moved(beside)) return true;
  }
  return false;
}

/// Fades, allowances and distances of pins stay lengths; what the fades come to goes into the lines.
bool Rooms::keep_fixed(std::size_t j, Reach &reach) {
  lines_.fades.assign(job_.joins[j].segments.size(), {});
  for (const FixedFormula &fixed : joins_[j].fixed) {
    Line line{fixed.is.at, 0};
    if (slopes_.moves(fixed.is)) {
      if (fixed.moves_line || !slopes_.line_of(fixed.is, line)) return false;
      if (fixed.may_be_0 == MayBe0::yes)
        reach.must_not_be_negative(line, std::abs(line.at));
      else
        reach.must_be_above_0(line, std::abs(line.at));
    }
    if (fixed.fades) lines_.fades[*fixed.fades] += line;
  }
  return true;
}

bool Rooms::keep_join(std::size_t j, Reach &reach) {
  const JoinFormulas &formulas = joins_[j];
  if (!keep_fixed(j, reach)) return false;
  bool touched = slopes_.moves(formulas.long_edge) || slopes_.moves(formulas.band);
  for (std::size_t s = 0; s < formulas.segment_long.size() && !touched; ++s)
    touched = slopes_.moves(formulas.segment_long[s]) || slopes_.moves(formulas.segment_band[s]) ||
              lines_.fades[s].slope != 0;
  if (!touched) return plan_.joins[j].verdict == Verdict::within_limits;
  if (moves_ease(j)) return false;
  const auto given = [&](const ReadFormula &formula, std::optional<Line> &line) {
    line.reset();
    return !formula.formula || slopes_.line_of(formula, line.emplace());
  };
  lines_.long_edge = {plan_.joins[j].long_length, 0};
  lines_.band = {plan_.joins[j].band, 0};
  if (formulas.long_edge.formula && !slopes_.line_of(formulas.long_edge, lines_.long_edge)) return false;
  if (formulas.band.formula && !slopes_.line_of(formulas.band, lines_.band)) return false;
  lines_.segment_long.resize(formulas.segment_long.size());
  lines_.segment_band.resize(formulas.segment_band.size());
  for (std::size_t s = 0; s < formulas.segment_long.size(); ++s)
    if (!given(formulas.segment_long[s], lines_.segment_long[s]) ||
        !given(formulas.segment_band[s], lines_.segment_band[s]))
      return false;
  reach.keep({Kept::What::join, static_cast<int>(j)});
  limits_.clear();
  for (const SegmentPlan &segment : plan_.joins[j].segments)
    limits_.push_back(segment.limits);
  keep_within_limits(reach, job_.joins[j], lines_, limits_);
  reach.keep({});
  return true;
}

/// What the part's segments are given, and its share of what is left of the edge where it has one.
bool Rooms::line_of_part(const SidePart &part, Line &line) const {
  const JoinFormulas &formulas = joins_[part.join.at];
  const Join &join = job_[part.join];
  const PartShare share = share_of(join, part);
  const bool of_band = part.edge == WhichEdge::band;
  const ReadFormula &edge = of_band ? formulas.band : formulas.long_edge;
  Line given;
  Line left;
  if (share.of_rest > 0 && !slopes_.line_of(edge, left)) return false;
  for (int s = 0; s < static_cast<int>(join.segments.size()); ++s) {
    const bool within = part.from <= s && s < part.to;
    if (!given_on(join.segments[s], part.edge) || (!within && share.of_rest == 0)) continue;
    const ReadFormula &own = of_band ? formulas.segment_band[s] : formulas.segment_long[s];
    const ReadFormula &other = of_band ? formulas.segment_long[s] : formulas.segment_band[s];
    Line is;
    if (!slopes_.line_of(own.formula ? own : other, is)) return false;
    if (within) given += is;
    left = left - is;
  }
  line = given + share.of_rest * left;
  return true;
}

/// False where something is in no proportion.
bool Rooms::lines_of(int p, PieceLines &lines) const {
  const PieceFormulas &formulas = pieces_[p];
  if (!slopes_.line_of(formulas.across, lines.across) || !slopes_.line_of(formulas.along, lines.along)) return false;
  for (const Side side : all_sides) {
    const auto &own = formulas.allowance[side];
    if (!slopes_.line_of(own ? *own : allowance_, lines.allowance[side])) return false;
    const std::vector<SidePart> &parts = job_.pieces[p].sides[side];
    for (std::size_t n = 0; n < parts.size(); ++n)
      if (!slopes_.line_of(formulas.at[side][n], lines.at[side].emplace_back()) ||
          !line_of_part(parts[n], lines.parts[side].emplace_back()))
        return false;
  }
  return true;
}

std::optional<Interval> Rooms::room(int length) {
  dependents_.find(length, on_it_);
  work_.add(steps_through(job_, on_it_));
  if (work_.spent() || !others_are_well()) return std::nullopt;
  const std::optional<Interval> found = reckoned(length);
  slopes_.stay(on_it_);
  return found;
}

std::optional<Interval> Rooms::reckoned(int length) {
  // Where the job would be refused a room ends, just far enough inside not to be told as that step of the tape.
  Reach reach(2 * on_step * job_.tape_step.mm);
  if (!slopes_.follow(on_it_) || !keep_lengths(length, reach) || !keep_rules(reach)) return std::nullopt;
  reach.keep({});
  if (slopes_.moves(allowance_)) {
    Line line;
    if (!slopes_.line_of(allowance_, line)) return std::nullopt;
    reach.must_not_be_negative(line, std::abs(line.at));
  }
  for (std::size_t k = 0; k < on_it_.joins.size() && !reach.empty(); ++k)
    if (!keep_join(on_it_.joins[k], reach)) return std::nullopt;
  for (std::size_t k = 0; k < on_it_.pieces.size() && !reach.empty(); ++k) {
    PieceLines lines;
    if (!lines_of(on_it_.pieces[k], lines)) return std::nullopt;
    keep_piece(reach, job_, PieceId(on_it_.pieces[k]), lines);
  }
  const double planned = slopes_.planned(LengthId(length));
  reach.settle(planned);
  if (reach.empty()) return std::nullopt;
  Interval room;
  // Ends at the length's own 0 or at a figure of the job come out as written but for rounding of the difference.
  if (reach.low()) room.low = planned + *reach.low();
  if (reach.high()) room.high = planned + *reach.high();
  kept_ = {};
  if (room.low) kept_[0] = {reach.low_by(), *room.low};
  if (room.high) kept_[1] = {reach.high_by(), *room.high};
  return aims_hold(room) ? std::optional(room) : std::nullopt;
}

/// Aims that are no sums of the length at hand are above 0 at both ends of its room.
bool Rooms::aims_hold(const Interval &room) const {
  for (const double end : {room.low.value_or(0), room.high.value_or(bounds::longest_length.mm)})
    for (const Formula *aim : other_aims_) {
      const std::optional<double> value = slopes_.value_at(end, *aim, on_it_);
      if (!value || !(*value > 0)) return false;
    }
  return true;
}

} // namespace

bool give_rooms(const Job &job, Plan &plan, const Dependents &dependents, optimum::Work &work,
                std::vector<KeptEnds> &kept) {
  Rooms rooms(job, plan, dependents, work);
  kept.assign(plan.lengths.size(), {});
  for (std::size_t i = 0; i < plan.lengths.size() && !work.spent(); ++i) {
    plan.lengths[i].room = rooms.room(static_cast<int>(i));
    if (plan.lengths[i].room) kept[i] = rooms.kept();
  }
  return !work.spent();
}

} // namespace gatherwright::advice
