// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/validate.hpp"

#include "gatherwright/bounds.hpp"
#include "gatherwright/order.hpp"
#include "solver/job/parts.hpp"
#include "solver/job/piece_parts.hpp"
#include "solver/job/settled.hpp"
#include "solver/job/worth.hpp"

#include <algorithm>
#include <string_view>
#include <unordered_set>
#include <utility>

namespace gatherwright {

namespace {

using JobPart = place::WholeJob::Part;
using JoinPart = place::InJoin::Part;

std::size_t things_of(const SpreadWish &spread) {
  const auto *shape = std::get_if<Shape>(&spread);
  return shape ? shape->points.size() : 0;
}

/// How much there is in a job, so that looking at it is bounded.
struct Sizes {
  std::size_t things = 0;
  std::size_t text = 0;
  std::size_t steps = 0;

  void count(const Formula &formula) { steps += formula.steps().size(); }
  void count(const std::optional<Formula> &formula) {
    if (formula) count(*formula);
  }
  void count(const Edge &edge) {
    if (const Formula *formula = edge.formula()) count(*formula);
    if (const DrawnEdge *drawn = edge.drawn()) text += drawn->path.size();
  }
  void count(const NamedLength &length) {
    text += length.name.size();
    visit_formulas(length, [this](const Formula &formula) { count(formula); });
  }
  void count(const Join &join) {
    things += 1 + join.segments.size();
    text += join.name.size();
    count(join.long_edge);
    count(join.band);
    for (const Segment &segment : join.segments) {
      things += things_of(segment.spread);
      text += segment.name.size() + segment.to.size();
      count(segment.long_edge);
      count(segment.band);
    }
  }
  void count(const Piece &piece) {
    ++things;
    text += piece.name.size();
    count(piece.across);
    count(piece.along);
    for (const auto &side : piece.sides.of_sides) {
      things += side.size();
      for (const SidePart &part : side)
        count(part.at);
    }
  }
};

Sizes sizes_of(const Job &job) {
  Sizes sizes{.things = job.measures.size() + job.lengths.size() + job.rules.size()};
  if (job.title) sizes.text += job.title->size();
  for (const Measure &measure : job.measures)
    sizes.text += measure.name.size();
  for (const NamedLength &length : job.lengths)
    sizes.count(length);
  for (const Rule &rule : job.rules) {
    sizes.text += rule.name.size();
    sizes.count(rule.holds.left);
    sizes.count(rule.holds.right);
  }
  for (const Join &join : job.joins)
    sizes.count(join);
  for (const Piece &piece : job.pieces)
    sizes.count(piece);
  visit_fixed(job, [&](const Formula &formula, const auto &...) { sizes.count(formula); });
  return sizes;
}

std::optional<Fault> fault_of_sizes(const Sizes &sizes) {
  const auto more_than = [](std::size_t most) { return "the job has more than " + std::to_string(most); };
  if (sizes.things > bounds::most_things)
    return Fault{more_than(bounds::most_things) +
                     " measures, lengths, rules, joins, segments, points, pieces and parts of sides",
                 "a job has a few hundred"};
  if (sizes.text > bounds::most_text)
    return Fault{more_than(bounds::most_text) + " bytes of names and paths", "a job has a few thousand"};
  if (sizes.steps > bounds::most_text)
    return Fault{more_than(bounds::most_text) + " steps of formulas", "a job has a few hundred"};
  return std::nullopt;
}

/// Names that have come before. Those that come once are many, and need not be kept.
class Names {
public:
  Names() = default;
  explicit Names(std::vector<std::string_view> all) : several_(std::move(all)) {
    std::sort(several_.begin(), several_.end(), comes_before);
    auto end = several_.begin();
    for (auto name = several_.begin(); name != several_.end();) {
      const auto next = std::find_if(name, several_.end(), [&](std::string_view other) { return other != *name; });
      if (next - name > 1) *end++ = *name;
      name = next;
    }
    several_.erase(end, several_.end());
  }

  /// Whether the name, one of all, has not come before.
  bool is_new(std::string_view name) {
    return !std::binary_search(several_.begin(), several_.end(), name, comes_before) || came_.insert(name).second;
  }

private:
  /// Few are of one length.
  static bool comes_before(std::string_view one, std::string_view other) {
    return one.size() != other.size() ? one.size() < other.size() : one < other;
  }

  std::vector<std::string_view> several_; ///< those that come several times
  std::unordered_set<std::string_view> came_;
};

Names names_of_lengths(const Job &job) {
  std::vector<std::string_view> names;
  names.reserve(job.measures.size() + job.lengths.size());
  for (const Measure &measure : job.measures)
    names.emplace_back(measure.name);
  for (const NamedLength &length : job.lengths)
    names.emplace_back(length.name);
  return Names(std::move(names));
}

Names names_of_joins(const Job &job) {
  std::vector<std::string_view> names;
  names.reserve(job.joins.size());
  for (const Join &join : job.joins)
    names.emplace_back(join.name);
  return Names(std::move(names));
}

/// Goes over a job part by part and keeps the faults.
class Check {
public:
  explicit Check(const Job &job) : job_(job), judge_(told_in(job), faults_) {}

  std::vector<PlacedFault> faults();
  std::vector<PlacedFault> faults_of_measures();

private:
  void check_heading();
  void check_age();
  void check_measure(MeasureId at);
  std::vector<PlacedFault> with_those_of_values();
  void check_names();
  void check_name_of_length(const std::string &name, Place place);
  void check_length(LengthId at);
  void check_rule(RuleId at);
  void check_joins();
  void check_join(JoinId at);
  void check_name_of_join(JoinId at);

  const Job &job_;
  std::vector<PlacedFault> faults_;
  job::Judge judge_;
  Names names_; ///< of measures and lengths
  Names join_names_;
  std::size_t told_ = 0;    ///< of `bounds::most_told`
  bool cloth_known_ = true; ///< the job's is not at fault
};

void Check::check_heading() {
  if (job_.title) judge_.text(*job_.title, "the title", place::WholeJob{JobPart::title});
  if (told_in(job_) != job_.unit)
    judge_.refuse(place::WholeJob{JobPart::unit},
                  {"this is no unit that a job is in", "take one of mm, cm, m, in, ft and yd"});
  judge_.length(job_.tape_step, true, "the step of the tape", place::WholeJob{JobPart::tape_step});
  if (job_.allowance) judge_.written(*job_.allowance, place::WholeJob{JobPart::allowance});
  cloth_known_ = judge_.fabric(job_.fabric, place::WholeJob{JobPart::fabric}) &&
                 judge_.leaves_a_width(job_.fabric, place::WholeJob{JobPart::fabric});
  judge_.gathering(job_.gathering, place::WholeJob{JobPart::gathering});
  judge_.length(job_.tolerance.cut, false, "the tolerance of cutting", place::WholeJob{JobPart::tolerance});
  judge_.length(job_.tolerance.mark, false, "the tolerance of marking", place::WholeJob{JobPart::tolerance});
  check_age();
}

void Check::check_age() {
  if (job_.wearer_age)
    judge_.number(*job_.wearer_age, 0, bounds::oldest, "the age", place::WholeJob{JobPart::wearer_age});
}

void Check::check_measure(MeasureId at) {
  judge_.length(job_[at].is, false, "the measure", place::InMeasure{at});
}

void Check::check_name_of_length(const std::string &name, Place place) {
  if (auto fault = check_name(name))
    judge_.refuse(place, *std::move(fault));
  else if (!names_.is_new(name))
    judge_.refuse(place, {"the name " + name + " is used twice", "a measure and a length need names of their own"});
}

void Check::check_names() {
  for (int m = 0; m < static_cast<int>(job_.measures.size()); ++m) {
    check_name_of_length(job_.measures[m].name, place::InMeasure{MeasureId(m)});
    check_measure(MeasureId(m));
  }
  for (int i = 0; i < static_cast<int>(job_.lengths.size()); ++i)
    check_length(LengthId(i));
  for (int r = 0; r < static_cast<int>(job_.rules.size()); ++r)
    check_rule(RuleId(r));
}

void Check::check_length(LengthId at) {
  using Part = place::InLength::Part;
  check_name_of_length(job_[at].name, place::InLength{at});
  if (const Formula *is = job_[at].fixed()) judge_.written(*is, place::InLength{at, Part::is});
  const FreeLength *free = job_[at].free();
  if (!free) return;
  if (free->from) judge_.written(*free->from, place::InLength{at, Part::from});
  if (free->to) judge_.written(*free->to, place::InLength{at, Part::to});
  if (const Formula *figure = free->figure()) judge_.written(*figure, place::InLength{at, Part::aim});
  const auto *extreme = free->aim ? std::get_if<Extreme>(&*free->aim) : nullptr;
  if (!extreme) return;
  const Place aim = place::InLength{at, Part::aim};
  if (!job::is_among(*extreme, Extreme::least, Extreme::most))
    judge_.refuse(aim, {"this is nothing that a length is aimed at", "aim at the least, the most or a figure"});
  else if (*extreme == Extreme::most && !free->to)
    judge_.refuse(aim, {"to aim at the most there must be a most", "give the range an end"});
}

void Check::check_rule(RuleId at) {
  const Rule &rule = job_[at];
  const Place place = place::InRule{at};
  // As it was written a rule may have line ends in it.
  judge_.utf8(rule.name, "the rule's name", place);
  if (rule.name.empty()) judge_.refuse(place, {"the rule has no name", "name it, or write it out"});
  if (!job::is_among(rule.holds.relation, Relation::at_most, Relation::equal))
    judge_.refuse(place, {"this is no relation that a rule has", "take at most, at least or equal"});
  judge_.written(rule.holds.left, place);
  judge_.written(rule.holds.right, place);
}

void Check::check_name_of_join(JoinId at) {
  const Join &join = job_[at];
  const Place place = place::InJoin{at, JoinPart::name};
  const bool is_text = judge_.text(join.name, "the join's name", place);
  if (join.name.empty())
    judge_.refuse(place, {"the join has no name", "call it by what is sewn: sleeve into cuff"});
  else if (is_text && !join_names_.is_new(join.name))
    judge_.refuse(place, {"another join is called so", "give each its own name"});
  const std::size_t before = told_;
  told_ += join.name.size() * join.segments.size();
  if (told_ > bounds::most_told && before <= bounds::most_told)
    judge_.refuse(place, {"the names of the joins, told for each of their segments, come to more than " +
                              std::to_string(bounds::most_told) + " bytes",
                          "give them shorter names"});
}

void Check::check_join(JoinId at) {
  const Join &join = job_[at];
  check_name_of_join(at);
  judge_.edge(join.long_edge, join.closed, place::InEdge{EdgeAt(at, WhichEdge::long_edge)});
  judge_.edge(join.band, join.closed, place::InEdge{EdgeAt(at, WhichEdge::band)});
  judge_.whole(join.make, bounds::most_made, "pieces", place::InJoin{at, JoinPart::make});
  judge_.marks(join.marks, place::InJoin{at, JoinPart::marks});
  if (join.allowance) judge_.written(*join.allowance, place::InJoin{at, JoinPart::allowance});
  if (join.use && !job::is_among(*join.use, Use::skirt, Use::curtain))
    judge_.refuse(place::InJoin{at, JoinPart::use},
                  {"this is no use that a join is put to", "take skirt or curtain, or leave it out"});
  const Place fabric = place::InJoin{at, JoinPart::fabric};
  // Nothing is cut from it, so the job's selvedges are not held against it.
  if (judge_.fabric(join.fabric, fabric) &&
      (join.fabric.selvedge != job_.fabric.selvedge || join.fabric.stock != job_.fabric.stock))
    judge_.leaves_a_width(join.fabric, fabric);
  if (join.own_weight && !join.fabric.weight)
    judge_.refuse(fabric, {"the join is said to have a weight of its own and has none", "give its cloth a weight"});
  judge_.gathering(join.gathering, place::InJoin{at, JoinPart::gathering});
  judge_.segments(join, at);
}

void Check::check_joins() {
  if (job_.joins.empty()) judge_.refuse(place::WholeJob{}, {"there is no join", "give the job at least one"});
  for (int j = 0; j < static_cast<int>(job_.joins.size()); ++j)
    check_join(JoinId(j));
}

std::vector<PlacedFault> Check::faults() {
  names_ = names_of_lengths(job_);
  join_names_ = names_of_joins(job_);
  check_heading();
  check_names();
  check_joins();
  job::judge_pieces(job_, cloth_known_, judge_);
  return with_those_of_values();
}

std::vector<PlacedFault> Check::faults_of_measures() {
  check_age();
  for (int m = 0; m < static_cast<int>(job_.measures.size()); ++m)
    check_measure(MeasureId(m));
  return with_those_of_values();
}

std::vector<PlacedFault> Check::with_those_of_values() {
  std::vector<PlacedFault> values = faults_of_values(job_);
  faults_.insert(faults_.end(), std::make_move_iterator(values.begin()), std::make_move_iterator(values.end()));
  return std::move(faults_);
}

} // namespace

std::vector<PlacedFault> validate(const Job &job) {
  if (auto fault = fault_of_sizes(sizes_of(job))) return {{place::WholeJob{}, *std::move(fault)}};
  return Check(job).faults();
}

std::vector<PlacedFault> faults_of_measures(const Job &job) {
  return Check(job).faults_of_measures();
}

} // namespace gatherwright
