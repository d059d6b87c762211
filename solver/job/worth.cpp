// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/worth.hpp"

#include "gatherwright/bounds.hpp"
#include "gatherwright/order.hpp"
#include "solver/formula/in_numbers.hpp"
#include "solver/job/parts.hpp"
#include "solver/job/settled.hpp"
#include "solver/text/script.hpp"

#include <algorithm>
#include <string>

namespace gatherwright {

namespace {

using LengthPart = place::InLength::Part;

/// Works out formulas one after another and keeps the faults.
class Worth {
public:
  explicit Worth(const Job &job);

  std::vector<PlacedFault> faults();

private:
  /// Whether every symbol has a value; tells where one stands for nothing.
  bool has_values(const Formula &formula, Place place);
  /// What it comes to where it names only what is known and fixed; nothing where anything is amiss.
  std::optional<double> number(const Formula &formula) const;
  std::optional<Affine> value(const Formula &formula, Place place);
  /// The value, if it has one and is a length where it is fixed.
  std::optional<Affine> judge(const Formula &formula, bool above_0, Place place);
  bool is_fixed_length(const Formula &formula, bool above_0) const;
  void judge_given(const Formula &formula, bool above_0, Place place);
  void judge_range_end(const Formula &formula, bool above_0, Place place);
  void judge_fixed(const Formula &formula, MayBe0 may_be_0, std::string_view what, Place place);
  void judge_side(EdgeAt at);
  std::string found_in(const Affine &worth) const;
  void judge_ring(const std::vector<int> &ring);
  void judge_length(int length);
  void judge_join(int join);
  void judge_piece(PieceId at);
  void judge_edge(EdgeAt at);
  void refuse(Place place, Fault fault) { faults_.push_back({place, std::move(fault)}); }

  const Job &job_;
  std::vector<Affine> values_; ///< per symbol
  std::vector<char> known_;    ///< per symbol: what is at fault itself is not
  std::vector<int> named_in_;  ///< per symbol: the last formula that named it, by its number
  int formulas_ = 0;
  std::size_t terms_ = 0; ///< that all formulas so far have on lengths to be found, when all is put in
  bool too_many_terms_ = false;
  std::vector<PlacedFault> faults_;
};

/// As it is written, unless that is not said.
std::string told(const Formula &formula) {
  return formula.written().empty() ? "the formula" : quantity::excerpt(formula.written());
}

Worth::Worth(const Job &job)
    : job_(job), values_(job.symbols()), known_(job.symbols(), false), named_in_(job.symbols(), 0) {
  const auto know = [this](int symbol, Length length, bool above_0) {
    values_[symbol].constant = length.mm;
    known_[symbol] = job::is_length_of_cloth(length, above_0);
  };
  for (std::size_t m = 0; m < job.measures.size(); ++m)
    know(static_cast<int>(m), job.measures[m].is, false);
  if (job.fabric.width) know(job.symbol_of_cloth_width(), *job.fabric.width, true);
}

bool Worth::has_values(const Formula &formula, Place place) {
  ++formulas_;
  bool known = true;
  for (const Formula::Step &step : formula.steps()) {
    if (step.code != Formula::Code::symbol) continue;
    const int symbol = step.symbol;
    if (symbol < 0 || symbol >= job_.symbols()) {
      refuse(place, {told(formula) + " has a symbol that stands for nothing in the job",
                     "number the measures from 0, after them the lengths, and last the width of the cloth"});
      return false;
    }
    if (symbol == job_.symbol_of_cloth_width() && !job_.fabric.width) {
      refuse(place, {"the width of the cloth is not known", "give the job's cloth its width"});
      return false;
    }
    known = known && known_[symbol];
    if (named_in_[symbol] != formulas_) terms_ += values_[symbol].terms.size();
    named_in_[symbol] = formulas_;
  }
  return known;
}

std::optional<double> Worth::number(const Formula &formula) const {
  return formula::in_numbers(formula.steps(), [this](int symbol) {
    const bool known = symbol >= 0 && symbol < job_.symbols() && known_[symbol] && values_[symbol].fixed();
    return known ? std::optional(values_[symbol].constant) : std::nullopt;
  });
}

std::optional<Affine> Worth::value(const Formula &formula, Place place) {
  if (too_many_terms_) return std::nullopt;
  if (const auto fixed = number(formula)) return Affine{*fixed, {}};
  if (!has_values(formula, place)) return std::nullopt;
  if (terms_ > bounds::most_terms) {
    too_many_terms_ = true; // told once: what comes after it only follows
    refuse(place, {"up to here the formulas name lengths that are to be found more than " +
                       std::to_string(bounds::most_terms) + " times",
                   "a job names some hundred"});
    return std::nullopt;
  }
  Outcome<Affine> value = evaluate(formula, values_);
  if (value) return *std::move(value);
  refuse(place, value.fault());
  return std::nullopt;
}

std::optional<Affine> Worth::judge(const Formula &formula, bool above_0, Place place) {
  std::optional<Affine> worth = value(formula, place);
  if (!worth || !worth->fixed() || job::is_length_of_cloth({worth->constant}, above_0)) return worth;
  refuse(place, *fault_of_length({worth->constant}, above_0, told_in(job_)));
  return std::nullopt;
}

/// Whether it is fixed and a length of cloth, so that there is nothing to tell.
bool Worth::is_fixed_length(const Formula &formula, bool above_0) const {
  const auto fixed = number(formula);
  return fixed && job::is_length_of_cloth({*fixed}, above_0);
}

void Worth::judge_given(const Formula &formula, bool above_0, Place place) {
  if (!is_fixed_length(formula, above_0)) judge(formula, above_0, place);
}

void Worth::judge_range_end(const Formula &formula, bool above_0, Place place) {
  const std::optional<Affine> worth = judge(formula, above_0, place);
  if (worth && !worth->fixed())
    refuse(place, {"this hangs on " + found_in(*worth), "write a length or a formula of fixed ones"});
}

/// The first of the lengths to be found that a value is made of.
std::string Worth::found_in(const Affine &worth) const {
  const auto length = job_.length_of(worth.terms.front().first);
  return quantity::excerpt(job_[*length].name) + ", which is to be found";
}

void Worth::judge_fixed(const Formula &formula, MayBe0 may_be_0, std::string_view what, Place place) {
  if (is_fixed_length(formula, may_be_0 == MayBe0::no)) return;
  const auto steps = formula.steps();
  // What is no number has no value either, and is told as a length is.
  const bool lone = steps.size() == 1 && steps.front().code == Formula::Code::length;
  const std::optional<Affine> worth = lone ? Affine{steps.front().value, {}} : value(formula, place);
  if (!worth) return;
  if (!worth->fixed())
    return refuse(place,
                  {std::string(what) + " hangs on " + found_in(*worth), "write a length or a formula of fixed ones"});
  auto fault = fault_of_length({worth->constant}, may_be_0 == MayBe0::no, told_in(job_));
  if (!fault) return;
  constexpr std::string_view as_told = "this";
  fault->what.replace(0, as_told.size(), what);
  refuse(place, *std::move(fault));
}

/// Where there is an allowance, something says to which side it goes.
void Worth::judge_side(EdgeAt at) {
  const DrawnEdge *drawn = job_[at].drawn();
  if (!drawn || drawn->garment) return;
  const Outcome<Affine> worth = evaluate(drawn->allowance, values_);
  if (!worth || !worth->fixed() || !(worth->constant > 0)) return;
  refuse(place::InEdge{at}, {"nothing says to which side of the line the allowance goes",
                             job_[at.join].closed ? "take inside or outside" : "take left or right of the drawn line"});
}

/// The part of a length whose formula names another.
LengthPart part_naming(const NamedLength &length, int symbol) {
  const auto names = [symbol](const Formula &formula) {
    const auto steps = formula.steps();
    return std::any_of(steps.begin(), steps.end(), [symbol](const Formula::Step &step) {
      return step.code == Formula::Code::symbol && step.symbol == symbol;
    });
  };
  const FreeLength *free = length.free();
  if (!free) return LengthPart::is;
  if (free->from && names(*free->from)) return LengthPart::from;
  return free->to && names(*free->to) ? LengthPart::to : LengthPart::aim;
}

void Worth::judge_ring(const std::vector<int> &ring) {
  constexpr std::size_t most_named = 10;
  std::string names;
  for (std::size_t i = 0; i < std::min(ring.size(), most_named); ++i)
    names += (i > 0 ? " -> " : "") + quantity::excerpt(job_.lengths[ring[i]].name);
  if (ring.size() > most_named) names += " -> …";
  const int naming = job_.symbol_of(LengthId(ring[1]));
  refuse(place::InLength{LengthId(ring[0]), part_naming(job_.lengths[ring[0]], naming)},
         {"the lengths go round in a ring: " + names, "one of them must be given without the others"});
}

void Worth::judge_length(int index) {
  const NamedLength &length = job_.lengths[index];
  const LengthId at(index);
  const int symbol = job_.symbol_of(at);
  if (const FreeLength *free = length.free()) {
    values_[symbol].terms = {{symbol, 1.0}};
    known_[symbol] = true;
    if (free->from) judge_range_end(*free->from, false, place::InLength{at, LengthPart::from});
    if (free->to) judge_range_end(*free->to, false, place::InLength{at, LengthPart::to});
    if (const Formula *figure = free->figure()) judge_range_end(*figure, true, place::InLength{at, LengthPart::aim});
    return;
  }
  auto worth = judge(*length.fixed(), false, place::InLength{at, LengthPart::is});
  known_[symbol] = worth.has_value();
  if (worth) values_[symbol] = *std::move(worth);
}

void Worth::judge_edge(EdgeAt at) {
  if (const Formula *length = job_[at].formula()) judge_given(*length, true, place::InEdge{at});
  judge_side(at);
}

void Worth::judge_join(int index) {
  const JoinId id(index);
  judge_edge(EdgeAt(id, WhichEdge::long_edge));
  judge_edge(EdgeAt(id, WhichEdge::band));
  using Part = place::InSegment::Part;
  const auto &segments = job_.joins[index].segments;
  for (int s = 0; s < static_cast<int>(segments.size()); ++s) {
    const SegmentAt at(id, s);
    if (segments[s].long_edge) judge_given(*segments[s].long_edge, true, place::InSegment{at, Part::long_edge});
    if (segments[s].band) judge_given(*segments[s].band, true, place::InSegment{at, Part::band});
  }
  visit_fixed(job_.joins[index], id, [&](const Formula &formula, Place place, MayBe0 may_be_0, std::string_view what) {
    judge_fixed(formula, may_be_0, what, place);
  });
}

void Worth::judge_piece(PieceId at) {
  const Piece &piece = job_[at];
  judge_given(piece.across, true, place::InPiece{at, place::InPiece::Part::across});
  judge_given(piece.along, true, place::InPiece{at, place::InPiece::Part::along});
  visit_fixed(piece, at, [&](const Formula &formula, Place place, MayBe0 may_be_0, std::string_view what) {
    judge_fixed(formula, may_be_0, what, place);
  });
  for (const Side side : all_sides)
    for (int part = 0; part < static_cast<int>(piece.sides[side].size()); ++part)
      judge_given(piece.sides[side][part].at, false,
                  place::InSidePart{PartAt(SideAt(at, side), part), place::InSidePart::Part::at});
}

std::vector<PlacedFault> Worth::faults() {
  const DependencyOrder order = dependencies_of_lengths(job_);
  for (const std::vector<int> &ring : order.cycles)
    judge_ring(ring);
  for (const int length : order.order)
    judge_length(length);
  for (int r = 0; r < static_cast<int>(job_.rules.size()); ++r) {
    const Place at = place::InRule{RuleId(r)};
    if (value(job_.rules[r].holds.left, at)) value(job_.rules[r].holds.right, at);
  }
  if (job_.allowance)
    judge_fixed(*job_.allowance, MayBe0::yes, "the allowance", place::WholeJob{place::WholeJob::Part::allowance});
  for (int j = 0; j < static_cast<int>(job_.joins.size()); ++j)
    judge_join(j);
  for (int p = 0; p < static_cast<int>(job_.pieces.size()); ++p)
    judge_piece(PieceId(p));
  return std::move(faults_);
}

} // namespace

std::vector<PlacedFault> faults_of_values(const Job &job) {
  return Worth(job).faults();
}

Unit told_in(const Job &job) {
  const bool is_unit = job.unit >= all_units.front() && job.unit <= all_units.back();
  return is_unit && may_be_of_a_job(job.unit) ? job.unit : Unit::cm;
}

} // namespace gatherwright
