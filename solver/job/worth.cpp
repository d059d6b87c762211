// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/worth.hpp"

#include "solver/job/order.hpp"

#include <array>
#include <charconv>
#include <string>

namespace gatherwright {

namespace {

/// Works out formulas one after another and keeps the faults.
class Worth {
public:
  explicit Worth(const Job &job) : job_(job), values_(job.symbols()), known_(job.symbols(), true) {
    for (std::size_t m = 0; m < job.measures.size(); ++m)
      values_[m].constant = job.measures[m].is.mm;
    if (job.fabric.width) values_[job.symbol_of_cloth_width()].constant = job.fabric.width->mm;
  }

  std::vector<PlacedFault> faults();

private:
  /// The value, if it has one and is a length where it is fixed.
  std::optional<Affine> judge(const Formula &formula, bool above_0, Place place);
  std::optional<Affine> value(const Formula &formula, Place place);
  void judge_length(int length);
  void judge_join(int join);
  void judge_edge(EdgeAt at);

  const Job &job_;
  std::vector<Affine> values_; ///< per symbol
  std::vector<char> known_;
  std::vector<PlacedFault> faults_;
};

std::optional<Affine> Worth::value(const Formula &formula, Place place) {
  for (const Formula::Step &step : formula.steps())
    if (step.code == Formula::Code::symbol && !known_[step.symbol]) return std::nullopt;
  Outcome<Affine> value = evaluate(formula, values_);
  if (value) return *std::move(value);
  faults_.push_back({place, value.fault()});
  return std::nullopt;
}

std::optional<Affine> Worth::judge(const Formula &formula, bool above_0, Place place) {
  std::optional<Affine> worth = value(formula, place);
  if (!worth || !worth->fixed()) return worth;
  if (auto fault = fault_of_length({worth->constant}, above_0, job_.unit)) {
    faults_.push_back({place, *std::move(fault)});
    return std::nullopt;
  }
  return worth;
}

void Worth::judge_length(int index) {
  const NamedLength &length = job_.lengths[index];
  const LengthId at(index);
  const int symbol = job_.symbol_of(at);
  using Part = place::InLength::Part;
  if (const FreeLength *free = length.free()) {
    values_[symbol].terms = {{symbol, 1.0}};
    if (free->from) judge(*free->from, false, place::InLength{at, Part::from});
    if (free->to) judge(*free->to, false, place::InLength{at, Part::to});
    if (const Formula *figure = free->figure()) judge(*figure, true, place::InLength{at, Part::aim});
    return;
  }
  auto worth = judge(*length.fixed(), false, place::InLength{at, Part::is});
  known_[symbol] = worth.has_value();
  if (worth) values_[symbol] = *std::move(worth);
}

void Worth::judge_edge(EdgeAt at) {
  if (const Formula *length = job_[at].formula()) judge(*length, true, place::InEdge{at});
}

void Worth::judge_join(int index) {
  const JoinId id(index);
  judge_edge(EdgeAt(id, WhichEdge::long_edge));
  judge_edge(EdgeAt(id, WhichEdge::band));
  using Part = place::InSegment::Part;
  const auto &segments = job_.joins[index].segments;
  for (int s = 0; s < static_cast<int>(segments.size()); ++s) {
    const SegmentAt at(id, s);
    if (segments[s].long_edge) judge(*segments[s].long_edge, true, place::InSegment{at, Part::long_edge});
    if (segments[s].band) judge(*segments[s].band, true, place::InSegment{at, Part::band});
  }
}

std::vector<PlacedFault> Worth::faults() {
  for (const int length : order_of_lengths(job_))
    judge_length(length);
  for (int r = 0; r < static_cast<int>(job_.rules.size()); ++r) {
    const Place at = place::InRule{RuleId(r)};
    if (value(job_.rules[r].holds.left, at)) value(job_.rules[r].holds.right, at);
  }
  for (int j = 0; j < static_cast<int>(job_.joins.size()); ++j)
    judge_join(j);
  return std::move(faults_);
}

std::string in_unit(Length length, Unit unit) {
  std::array<char, 32> digits{};
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), length.mm / millimetres(unit),
                                 std::chars_format::general, 6)
                       .ptr;
  return std::string(digits.data(), end) + " " + std::string(name(unit));
}

} // namespace

std::optional<Fault> fault_of_length(Length length, bool above_0, Unit unit) {
  if (length > longest_length) return Fault{"this comes to more than 100 km", "write the length of a piece of cloth"};
  if (length.mm < 0) return Fault{"this comes to " + in_unit(length, unit), "a length is never below 0"};
  if (above_0 && length < shortest_length) return Fault{"this comes to 0", "a length above 0 is needed here"};
  return std::nullopt;
}

std::vector<PlacedFault> faults_of_values(const Job &job) {
  return Worth(job).faults();
}

} // namespace gatherwright
