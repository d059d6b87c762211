// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/room.hpp"

#include "gatherwright/bounds.hpp"
#include "gatherwright/order.hpp"
#include "solver/advice/join_reach.hpp"
#include "solver/advice/line.hpp"
#include "solver/advice/nearest.hpp"
#include "solver/advice/piece_reach.hpp"
#include "solver/allot/place.hpp"
#include "solver/job/settled.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::advice {

namespace {

/// A formula over the job's symbols as they are planned: its terms where it is affine in the named lengths, all of them
/// at once.
struct Slopes {
  double at = 0;
  std::optional<Affine> direct; ///< nothing: only affine in some of them, if in any
  const Formula *formula = nullptr;
  std::vector<int> symbols; ///< that it names, ascending
};

/// Rooms of a job's lengths, one length after another.
class Rooms {
public:
  Rooms(const Job &job, const Plan &plan, std::span<const std::vector<Limits>> limits, const Dependents &dependents,
        optimum::Work &work)
      : job_(job), plan_(plan), limits_(limits), dependents_(dependents), work_(work) {
    read_symbols();
    read_formulas();
    find_what_is_wrong();
  }

  std::optional<Interval> room(int length);
  const KeptEnds &kept() const { return kept_; } ///< of the last that was found

private:
  std::optional<Interval> reckoned(int length);
  void read_symbols();
  void read_formulas();
  Slopes read(const Formula *formula) const;
  void find_what_is_wrong();
  bool others_are_well() const;
  bool follow(int length);
  void stay();
  bool line_of(const Slopes &formula, Line &line) const;
  bool moves(const Slopes &formula) const;
  bool is_longer(std::size_t count) const;
  void add_slopes(std::span<const std::pair<int, double>> terms, Line &line) const;
  bool keep_lengths(int length, Reach &reach);
  bool keep_range(int other, int length, Reach &reach);
  bool keep_rules(Reach &reach) const;
  bool keep_join(std::size_t j, Reach &reach);
  bool keep_fixed(std::size_t j, Reach &reach);
  bool moves_ease(std::size_t j) const;
  bool lines_of(int p, PieceLines &lines) const;
  bool line_of_part(const SidePart &part, Line &line) const;
  bool aims_hold(const Interval &room, double planned);

  /// A fade, an allowance or a distance of pins; `fades`: of which segment, if it is a fade.
  struct FixedSlopes {
    Slopes is;
    MayBe0 may_be_0 = MayBe0::yes;
    bool moves_line = false; ///< the allowance of a drawn edge, whose length is in no proportion to it
    std::optional<int> fades = std::nullopt;
  };

  struct JoinFormulas {
    Slopes long_edge, band;
    std::vector<Slopes> segment_long, segment_band;
    std::vector<FixedSlopes> fixed;
  };

  struct PieceFormulas {
    Slopes across, along;
    BySide<std::optional<Slopes>> allowance; ///< a side's own
    BySide<std::vector<Slopes>> at;
  };

  const Job &job_;
  const Plan &plan_;
  std::span<const std::vector<Limits>> limits_;
  const Dependents &dependents_;
  optimum::Work &work_;
  std::vector<int> broken_rules_, bad_joins_, bad_pieces_; ///< as planned; ascending
  Dependence on_it_;                                       ///< what depends on the length at hand
  std::vector<double> planned_;                            ///< per symbol
  std::vector<char> found_;                                ///< per symbol: it is a free length or made of one
  std::vector<double> slope_;                              ///< per symbol, by the length at hand
  std::vector<int> moved_;        ///< symbols whose slope is not 0, ascending; none while they are being found
  std::vector<Affine> named_;     ///< per symbol: itself where it is a length, else its value
  std::vector<Affine> by_length_; ///< per symbol: as a function of the length at hand
  std::vector<Slopes> length_is_, length_from_, length_to_, length_aim_;
  std::vector<const Formula *> other_aims_; ///< that move with the length at hand, but not in proportion
  std::vector<Slopes> rule_sides_;
  Slopes allowance_; ///< the job's
  std::vector<JoinFormulas> joins_;
  std::vector<PieceFormulas> pieces_;
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

void Rooms::read_symbols() {
  planned_.assign(job_.symbols(), 0);
  slope_.assign(job_.symbols(), 0);
  named_.resize(job_.symbols());
  by_length_.resize(job_.symbols());
  for (std::size_t m = 0; m < job_.measures.size(); ++m)
    planned_[m] = job_.measures[m].is.mm;
  if (job_.fabric.width) planned_[job_.symbol_of_cloth_width()] = job_.fabric.width->mm;
  for (std::size_t i = 0; i < job_.lengths.size(); ++i)
    planned_[job_.symbol_of(LengthId(static_cast<int>(i)))] = *plan_.lengths[i].is;
  for (int s = 0; s < job_.symbols(); ++s)
    by_length_[s].constant = planned_[s];
  found_.assign(job_.symbols(), 0);
  for (const int i : order_of_lengths(job_)) {
    const Formula *is = job_.lengths[i].fixed();
    found_[job_.symbol_of(LengthId(i))] = !is || names_any(*is, found_);
  }
  for (int s = 0; s < job_.symbols(); ++s) {
    if (job_.length_of(s))
      named_[s].terms = {{s, 1.0}};
    else
      named_[s].constant = planned_[s];
  }
}

Slopes Rooms::read(const Formula *formula) const {
  Slopes read;
  if (!formula) return read;
  read.formula = formula;
  read.symbols = symbols_of(*formula);
  Outcome<Affine> direct = evaluate(*formula, named_);
  if (!direct) return read;
  read.at = direct->constant;
  for (const auto &[symbol, coefficient] : direct->terms)
    read.at += coefficient * planned_[symbol];
  read.direct = *std::move(direct);
  return read;
}

void Rooms::read_formulas() {
  for (const NamedLength &length : job_.lengths) {
    const FreeLength *free = length.free();
    length_is_.push_back(read(length.fixed()));
    length_from_.push_back(read(free ? given(free->from) : nullptr));
    length_to_.push_back(read(free ? given(free->to) : nullptr));
    length_aim_.push_back(read(free ? free->figure() : nullptr));
  }
  for (const Rule &rule : job_.rules) {
    rule_sides_.push_back(read(&rule.holds.left));
    rule_sides_.push_back(read(&rule.holds.right));
  }
  allowance_ = read(given(job_.allowance));
  for (int j = 0; j < static_cast<int>(job_.joins.size()); ++j) {
    const Join &join = job_.joins[j];
    JoinFormulas &formulas = joins_.emplace_back();
    visit_fixed(join, JoinId(j), [&](const Formula &formula, const Place &place, MayBe0 may_be_0, std::string_view) {
      FixedSlopes &fixed = formulas.fixed.emplace_back(FixedSlopes{read(&formula), may_be_0});
      if (const auto *segment = std::get_if<place::InSegment>(&place)) fixed.fades = segment->at.segment;
      const auto *edge = std::get_if<place::InEdge>(&place);
      fixed.moves_line =
          edge && (edge->part == place::InEdge::Part::allowance || edge->part == place::InEdge::Part::part);
    });
    formulas.long_edge = read(join.long_edge.formula());
    formulas.band = read(join.band.formula());
    for (const Segment &segment : join.segments) {
      formulas.segment_long.push_back(read(given(segment.long_edge)));
      formulas.segment_band.push_back(read(given(segment.band)));
    }
  }
  for (const Piece &piece : job_.pieces) {
    PieceFormulas &formulas = pieces_.emplace_back();
    formulas.across = read(&piece.across);
    formulas.along = read(&piece.along);
    for (const Side side : all_sides) {
      if (const auto &own = piece.allowance[side]) formulas.allowance[side] = read(&*own);
      for (const SidePart &part : piece.sides[side])
        formulas.at[side].push_back(read(&part.at));
    }
  }
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

bool Rooms::moves(const Slopes &formula) const {
  if (is_longer(formula.symbols.size()))
    return std::any_of(moved_.begin(), moved_.end(), [&](int symbol) {
      return std::binary_search(formula.symbols.begin(), formula.symbols.end(), symbol);
    });
  return std::any_of(formula.symbols.begin(), formula.symbols.end(), [&](int symbol) { return slope_[symbol] != 0; });
}

/// Whether so many symbols or terms are better looked up for those that move than gone through. The lesser work is
/// counted.
bool Rooms::is_longer(std::size_t count) const {
  constexpr std::size_t each_look = 16;
  const bool look_up = !moved_.empty() && each_look * moved_.size() < count;
  work_.add(static_cast<std::int64_t>(look_up ? each_look * moved_.size() : count) + 5);
  return look_up;
}

void Rooms::add_slopes(std::span<const std::pair<int, double>> terms, Line &line) const {
  if (!is_longer(terms.size())) {
    for (const auto &[symbol, coefficient] : terms)
      line.slope += coefficient * slope_[symbol];
    return;
  }
  for (const int symbol : moved_) {
    const auto at = std::lower_bound(terms.begin(), terms.end(), symbol,
                                     [](const auto &term, int sought) { return term.first < sought; });
    if (at != terms.end() && at->first == symbol) line.slope += at->second * slope_[symbol];
  }
}

/// The formula as a function of the length at hand; false where it is not in proportion.
bool Rooms::line_of(const Slopes &formula, Line &line) const {
  line = {formula.at, 0};
  if (!formula.formula) return true;
  if (formula.direct) {
    add_slopes(formula.direct->terms, line);
    return true;
  }
  constexpr int each_step = 20;
  work_.add(each_step * static_cast<std::int64_t>(formula.formula->steps().size()));
  const Outcome<Affine> value = evaluate(*formula.formula, by_length_);
  if (!value) return false;
  line.at = value->constant;
  if (!value->terms.empty()) line.slope = value->terms.front().second;
  return true;
}

/// The slope of every symbol by the length at hand, what derives from it included; false where one is not in
/// proportion.
bool Rooms::follow(int length) {
  const auto move = [this](int other, double slope) {
    const int symbol = job_.symbol_of(LengthId(other));
    slope_[symbol] = slope;
    by_length_[symbol].terms.clear();
    if (slope != 0) by_length_[symbol].terms.push_back({0, slope});
  };
  moved_.clear();
  move(length, 1);
  for (const int other : std::span(on_it_.lengths).subspan(1)) {
    Line line;
    if (moves(length_is_[other]) && !line_of(length_is_[other], line)) return false;
    move(other, line.slope);
  }
  for (const int other : on_it_.lengths)
    if (const int symbol = job_.symbol_of(LengthId(other)); slope_[symbol] != 0) moved_.push_back(symbol);
  std::sort(moved_.begin(), moved_.end());
  return true;
}

/// Nothing moves any more.
void Rooms::stay() {
  for (const int length : on_it_.lengths) {
    const int symbol = job_.symbol_of(LengthId(length));
    slope_[symbol] = 0;
    by_length_[symbol] = {planned_[symbol], {}};
  }
}

/// No length below 0, each free one within its range, and no end of a range or aim that moves with the length below 0.
bool Rooms::keep_lengths(int length, Reach &reach) {
  other_aims_.clear();
  for (const int moved : on_it_.lengths) {
    const int symbol = job_.symbol_of(LengthId(moved));
    if (slope_[symbol] != 0) reach.must_not_be_negative({planned_[symbol], slope_[symbol]}, planned_[symbol]);
  }
  return keep_range(length, length, reach) && std::all_of(on_it_.ranged.begin(), on_it_.ranged.end(), [&](int other) {
           return other == length || keep_range(other, length, reach);
         });
}

/// A free length stays within its range, which may move with the length at hand.
bool Rooms::keep_range(int other, int length, Reach &reach) {
  if (!job_.lengths[other].free()) return true;
  const int symbol = job_.symbol_of(LengthId(other));
  const Line is{planned_[symbol], slope_[symbol]};
  const auto keep = [&](const Slopes &bound, double sign) {
    if (!bound.formula || !(other == length || moves(bound))) return true;
    Line line;
    if (!line_of(bound, line)) return false;
    reach.must_not_be_negative(sign * (is - line), planned_[symbol]);
    if (line.slope != 0) reach.must_not_be_negative(line, planned_[symbol]);
    return true;
  };
  if (!keep(length_from_[other], 1) || !keep(length_to_[other], -1)) return false;
  if (!moves(length_aim_[other])) return true;
  Line aim;
  if (line_of(length_aim_[other], aim))
    reach.must_be_above_0(aim, planned_[symbol]);
  else
    other_aims_.push_back(length_aim_[other].formula);
  return true;
}

bool Rooms::keep_rules(Reach &reach) const {
  for (const int r : on_it_.rules) {
    const Slopes &left = rule_sides_[2 * r];
    const Slopes &right = rule_sides_[2 * r + 1];
    if (!moves(left) && !moves(right)) {
      if (!plan_.rules[r].holds) return false;
      continue;
    }
    Line left_line, right_line;
    if (!line_of(left, left_line) || !line_of(right, right_line)) return false;
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
    return moves(joins_[j].segment_long[s]) ||
           (!takes_fullness(join.segments[s].kind) && moves(joins_[j].segment_band[s]));
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
  for (const FixedSlopes &fixed : joins_[j].fixed) {
    Line line{fixed.is.at, 0};
    if (moves(fixed.is)) {
      if (fixed.moves_line || !line_of(fixed.is, line)) return false;
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
  bool touched = moves(formulas.long_edge) || moves(formulas.band);
  for (std::size_t s = 0; s < formulas.segment_long.size() && !touched; ++s)
    touched = moves(formulas.segment_long[s]) || moves(formulas.segment_band[s]) || lines_.fades[s].slope != 0;
  if (!touched) return plan_.joins[j].verdict == Verdict::within_limits;
  if (moves_ease(j)) return false;
  const auto given = [&](const Slopes &formula, std::optional<Line> &line) {
    line.reset();
    return !formula.formula || line_of(formula, line.emplace());
  };
  lines_.long_edge = {plan_.joins[j].long_length, 0};
  lines_.band = {plan_.joins[j].band, 0};
  if (formulas.long_edge.formula && !line_of(formulas.long_edge, lines_.long_edge)) return false;
  if (formulas.band.formula && !line_of(formulas.band, lines_.band)) return false;
  lines_.segment_long.resize(formulas.segment_long.size());
  lines_.segment_band.resize(formulas.segment_band.size());
  for (std::size_t s = 0; s < formulas.segment_long.size(); ++s)
    if (!given(formulas.segment_long[s], lines_.segment_long[s]) ||
        !given(formulas.segment_band[s], lines_.segment_band[s]))
      return false;
  reach.keep({Kept::What::join, static_cast<int>(j)});
  keep_within_limits(reach, job_.joins[j], lines_, limits_[j]);
  reach.keep({});
  return true;
}

/// What the part's segments are given, and its share of what is left of the edge where it has one.
bool Rooms::line_of_part(const SidePart &part, Line &line) const {
  const JoinFormulas &formulas = joins_[part.join.at];
  const Join &join = job_[part.join];
  const PartShare share = share_of(join, part);
  const bool of_band = part.edge == WhichEdge::band;
  const Slopes &edge = of_band ? formulas.band : formulas.long_edge;
  Line given;
  Line left;
  if (share.of_rest > 0 && !line_of(edge, left)) return false;
  for (int s = 0; s < static_cast<int>(join.segments.size()); ++s) {
    const bool within = part.from <= s && s < part.to;
    if (!given_on(join.segments[s], part.edge) || (!within && share.of_rest == 0)) continue;
    const Slopes &own = of_band ? formulas.segment_band[s] : formulas.segment_long[s];
    const Slopes &other = of_band ? formulas.segment_long[s] : formulas.segment_band[s];
    Line is;
    if (!line_of(own.formula ? own : other, is)) return false;
    if (within) given += is;
    left = left - is;
  }
  line = given + share.of_rest * left;
  return true;
}

/// False where something is in no proportion.
bool Rooms::lines_of(int p, PieceLines &lines) const {
  const PieceFormulas &formulas = pieces_[p];
  if (!line_of(formulas.across, lines.across) || !line_of(formulas.along, lines.along)) return false;
  for (const Side side : all_sides) {
    const auto &own = formulas.allowance[side];
    if (!line_of(own ? *own : allowance_, lines.allowance[side])) return false;
    const std::vector<SidePart> &parts = job_.pieces[p].sides[side];
    for (std::size_t n = 0; n < parts.size(); ++n)
      if (!line_of(formulas.at[side][n], lines.at[side].emplace_back()) ||
          !line_of_part(parts[n], lines.parts[side].emplace_back()))
        return false;
  }
  return true;
}

std::optional<Interval> Rooms::room(int length) {
  on_it_ = dependents_.of(length);
  work_.add(steps_through(job_, on_it_));
  if (work_.spent() || !others_are_well()) return std::nullopt;
  const std::optional<Interval> found = reckoned(length);
  stay();
  return found;
}

std::optional<Interval> Rooms::reckoned(int length) {
  // Where the job would be refused a room ends, just far enough inside not to be told as that step of the tape.
  Reach reach(2 * on_step * job_.tape_step.mm);
  if (!follow(length) || !keep_lengths(length, reach) || !keep_rules(reach)) return std::nullopt;
  reach.keep({});
  if (moves(allowance_)) {
    Line line;
    if (!line_of(allowance_, line)) return std::nullopt;
    reach.must_not_be_negative(line, std::abs(line.at));
  }
  for (std::size_t k = 0; k < on_it_.joins.size() && !reach.empty(); ++k)
    if (!keep_join(on_it_.joins[k], reach)) return std::nullopt;
  for (std::size_t k = 0; k < on_it_.pieces.size() && !reach.empty(); ++k) {
    PieceLines lines;
    if (!lines_of(on_it_.pieces[k], lines)) return std::nullopt;
    keep_piece(reach, job_, PieceId(on_it_.pieces[k]), lines);
  }
  const double planned = planned_[job_.symbol_of(LengthId(length))];
  reach.settle(planned);
  if (reach.empty()) return std::nullopt;
  Interval room;
  // Ends at the length's own 0 or at a figure of the job come out as written but for rounding of the difference.
  if (reach.low()) room.low = planned + *reach.low();
  if (reach.high()) room.high = planned + *reach.high();
  kept_ = {};
  if (room.low) kept_[0] = {reach.low_by(), *room.low};
  if (room.high) kept_[1] = {reach.high_by(), *room.high};
  return aims_hold(room, planned) ? std::optional(room) : std::nullopt;
}

/// Aims that are no sums of the length at hand are above 0 at both ends of its room.
bool Rooms::aims_hold(const Interval &room, double planned) {
  if (other_aims_.empty()) return true;
  for (const double end : {room.low.value_or(0), room.high.value_or(bounds::longest_length.mm)}) {
    for (const int moved : on_it_.lengths) {
      const int symbol = job_.symbol_of(LengthId(moved));
      by_length_[symbol] = {planned_[symbol] + slope_[symbol] * (end - planned), {}};
    }
    for (const Formula *aim : other_aims_) {
      const Outcome<Affine> value = evaluate(*aim, by_length_);
      if (!value || !(value->constant > 0)) return false;
    }
  }
  return true;
}

} // namespace

bool give_rooms(const Job &job, Plan &plan, const Dependents &dependents, optimum::Work &work,
                std::vector<KeptEnds> &kept) {
  std::vector<std::vector<Limits>> limits;
  for (const JoinPlan &join : plan.joins) {
    auto &own = limits.emplace_back();
    for (const SegmentPlan &segment : join.segments)
      own.push_back(segment.limits);
  }
  Rooms rooms(job, plan, limits, dependents, work);
  kept.assign(plan.lengths.size(), {});
  for (std::size_t i = 0; i < plan.lengths.size() && !work.spent(); ++i) {
    plan.lengths[i].room = rooms.room(static_cast<int>(i));
    if (plan.lengths[i].room) kept[i] = rooms.kept();
  }
  return !work.spent();
}

} // namespace gatherwright::advice
