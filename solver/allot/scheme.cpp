// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/allot/scheme.hpp"

#include "gatherwright/cloths.hpp"
#include "gatherwright/limits.hpp"
#include "gatherwright/order.hpp"
#include "solver/allot/place.hpp"
#include "solver/formula/evaluate.hpp"
#include "solver/job/beyond.hpp"
#include "solver/job/settled.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace gatherwright::allot {

namespace {

using optimum::Term;

constexpr double least_reference = 1.0; ///< millimetres: a reference band is never below this
constexpr double least_aim = 10.0;      ///< millimetres: a wish for a length is never scaled by less
constexpr double no_middle = 1000.0;    ///< millimetres: taken where a free length's range says nothing
constexpr double least_extra = 0.001;   ///< the ideal extra is taken as at least this

/// What is left of a sum of a few terms where it should be 0: so many roundings of them.
constexpr double roundings = 16;

/// An unknown length's range, and the place that level 4 draws it to.
struct Range {
  Affine from;
  Affine to;
  bool has_from = false;
  bool has_to = false;
  double middle = no_middle;
};

/// Puts a job's rows together, join by join.
class Builder {
public:
  Builder(const Job &job, std::span<const DrawnLengths> drawn, const Question *question)
      : job_(job), drawn_(drawn), question_(question) {}

  SchemeOutcome build();
  std::optional<AskedScheme> build_asked();

private:
  bool is_unknown(int length) const;
  bool is_subject(int length) const { return question_ && question_->subject == Subject(LengthId(length)); }
  bool asks_of_edge() const { return question_ && std::holds_alternative<EdgeAt>(question_->subject); }
  bool is_asked(int join) const;
  int symbol_of_edge() const { return job_.symbols(); }
  void add_lengths();
  void evaluate_symbols();
  void lay_out();
  void make_room();
  void evaluate_sides();
  void range_of(int unknown);
  std::optional<double> aimed_at(int index, const Range &range);
  void add_ranges();
  void add_derived_lengths();
  void add_dependent_lengths();
  void keep_written(const Formula *formula);
  void add_rules();
  void add_join(int join);
  void add_segment(int join, int segment, double reference);
  std::optional<double> given_long(int join, int segment) const;
  double bias_of(int join, int segment) const;
  Limits limits_of(int join, int segment);
  void add_equal_bands(int join);
  void evaluate_pieces();
  void add_pieces();
  void keep_piece(PieceId at);
  void keep_width_turned(PieceId at);
  void keep_parts(SideAt at);
  void put_part(const SidePart &part, double factor);
  void keep_what_moves();
  double allowances(PieceId at, Side one, Side other) const;
  double planned(const Affine &form) const;
  void add_wishes_for_lengths();
  std::vector<double> reference_bands(int join) const;
  double at_reference(const Affine &form) const;
  Affine evaluated(const Formula &formula, Place place);
  void put(const Affine &form, double factor);
  ConditionRow add(optimum::Rows &rows, double bound);
  ConditionRow equal(double bound) { return add(scheme_.problem.equal, bound); }
  ConditionRow at_least(double bound) { return add(scheme_.problem.at_least, bound); }
  void name(Condition condition, ConditionRow row);

  const Job &job_;
  std::span<const DrawnLengths> drawn_;
  const Question *question_;
  Scheme scheme_;
  std::vector<PlacedFault> faults_;
  std::vector<Range> ranges_;                                          ///< per unknown length
  std::vector<Affine> segment_long_, segment_band_;                    ///< of the join at hand
  std::array<std::optional<Limits>, all_kinds.size()> limits_of_kind_; ///< likewise
  std::vector<double> reference_of_column_; ///< shared columns: where each free length is taken to be
  std::vector<Term> row_;
  std::vector<int> place_in_row_; ///< per symbol: where its term stands, if the row at hand has one
  double constant_ = 0;           ///< of the row at hand
};

Affine Builder::evaluated(const Formula &formula, Place place) {
  Affine value;
  Outcome<double> constant = formula::evaluate_onto(formula, scheme_.symbols, value.terms);
  if (constant) {
    value.constant = *constant;
    return value;
  }
  faults_.push_back({place, std::move(constant).fault()});
  return {};
}

bool Builder::is_unknown(int length) const {
  if (is_subject(length)) return true;
  return job_.lengths[length].free() && !(question_ && question_->others_held);
}

bool Builder::is_asked(int join) const {
  return !question_ || std::binary_search(question_->joins.begin(), question_->joins.end(), JoinId(join));
}

void Builder::evaluate_symbols() {
  scheme_.symbols.assign(job_.symbols() + 1, {});
  for (std::size_t m = 0; m < job_.measures.size(); ++m)
    scheme_.symbols[m].constant = job_.measures[m].is.mm;
  if (job_.fabric.width) scheme_.symbols[job_.symbol_of_cloth_width()].constant = job_.fabric.width->mm;
  if (asks_of_edge()) scheme_.symbols[symbol_of_edge()].terms = {{symbol_of_edge(), 1.0}};
  for (const int length : order_of_lengths(job_)) {
    const int symbol = job_.symbol_of(LengthId(length));
    if (is_unknown(length))
      scheme_.symbols[symbol].terms = {{symbol, 1.0}};
    else if (const Formula *is = job_.lengths[length].fixed())
      scheme_.symbols[symbol] = evaluated(*is, place::InLength{LengthId(length), place::InLength::Part::is});
    else
      scheme_.symbols[symbol].constant = question_->planned[length];
  }
}

void reserve(optimum::Rows &rows, std::size_t more, std::size_t terms_each) {
  rows.start.reserve(rows.start.size() + more);
  rows.bound.reserve(rows.bound.size() + more);
  rows.terms.reserve(rows.terms.size() + more * terms_each);
}

/// As many rows as a job of few lengths and rules has, so that they need not be moved as they come.
void Builder::make_room() {
  const std::size_t segments = static_cast<std::size_t>(scheme_.problem.shared_begin()) / 2;
  const std::size_t lengths = scheme_.free_lengths.size();
  const std::size_t others = lengths + job_.rules.size();
  reserve(scheme_.problem.equal, 2 * segments + others, 2);
  reserve(scheme_.problem.at_least, (question_ ? 4 : 2) * segments + 3 * others, 1);
  if (!question_) reserve(scheme_.problem.limits, 2 * segments, 2);
  if (!question_) reserve(scheme_.problem.wishes[1], segments, 2);
  scheme_.conditions.reserve(2 * segments + 2 * others);
  scheme_.condition_rows.reserve(2 * segments + 2 * others);
}

void Builder::lay_out() {
  scheme_.first_column.reserve(job_.joins.size());
  for (std::size_t j = 0; j < job_.joins.size(); ++j) {
    scheme_.first_column.push_back(scheme_.problem.unknowns);
    if (!is_asked(static_cast<int>(j))) continue;
    scheme_.problem.unknowns += 2 * static_cast<int>(job_.joins[j].segments.size());
    scheme_.problem.block_ends.push_back(scheme_.problem.unknowns);
  }
  scheme_.column_of_length.assign(job_.lengths.size(), -1);
  scheme_.symbol_columns.assign(job_.symbols() + 1, -1);
  place_in_row_.assign(job_.symbols() + 1, 0);
  for (int length = 0; length < static_cast<int>(job_.lengths.size()); ++length) {
    if (!is_unknown(length)) continue;
    scheme_.free_lengths.push_back(length);
    scheme_.column_of_length[length] = scheme_.problem.unknowns;
    scheme_.symbol_columns[job_.symbol_of(LengthId(length))] = scheme_.problem.unknowns++;
  }
  if (asks_of_edge()) scheme_.symbol_columns[symbol_of_edge()] = scheme_.problem.unknowns++;
}

void Builder::evaluate_sides() {
  scheme_.long_edges.reserve(job_.joins.size());
  scheme_.bands.reserve(job_.joins.size());
  scheme_.rule_sides.reserve(2 * job_.rules.size());
  for (std::size_t j = 0; j < job_.joins.size(); ++j) {
    const int join = static_cast<int>(j);
    const auto come_to = [&](WhichEdge which, std::optional<double> drawn) {
      const EdgeAt at(JoinId(join), which);
      if (question_ && question_->subject == Subject(at)) return scheme_.symbols[symbol_of_edge()];
      return drawn ? Affine{*drawn, {}} : evaluated(*job_[at].formula(), place::InEdge{at});
    };
    const DrawnLengths *drawn = drawn_.empty() ? nullptr : &drawn_[j];
    scheme_.long_edges.push_back(come_to(WhichEdge::long_edge, drawn ? drawn->long_edge : std::nullopt));
    scheme_.bands.push_back(come_to(WhichEdge::band, drawn ? drawn->band : std::nullopt));
  }
  for (std::size_t r = 0; r < job_.rules.size(); ++r) {
    const Place place = place::InRule{RuleId(static_cast<int>(r))};
    scheme_.rule_sides.push_back(evaluated(job_.rules[r].holds.left, place));
    scheme_.rule_sides.push_back(evaluated(job_.rules[r].holds.right, place));
  }
  evaluate_pieces();
}

void Builder::put(const Affine &form, double factor) {
  constant_ += factor * form.constant;
  for (const auto &[symbol, coefficient] : form.terms) {
    const Term term{scheme_.symbol_columns[symbol], factor * coefficient};
    int &place = place_in_row_[symbol];
    if (place < static_cast<int>(row_.size()) && row_[place].column == term.column)
      row_[place].value += term.value;
    else {
      place = static_cast<int>(row_.size());
      row_.push_back(term);
    }
  }
}

ConditionRow Builder::add(optimum::Rows &rows, double bound) {
  rows.add(row_, bound - constant_);
  row_.clear();
  constant_ = 0;
  return {&rows == &scheme_.problem.equal, rows.size() - 1};
}

void Builder::name(Condition condition, ConditionRow row) {
  scheme_.conditions.push_back(condition);
  scheme_.condition_rows.push_back(row);
}

void Builder::range_of(int unknown) {
  const int index = scheme_.free_lengths[unknown];
  const NamedLength &length = job_.lengths[index];
  Range &range = ranges_.emplace_back();
  const FreeLength *free = length.free();
  const bool kept = free && (!is_subject(index) || question_->within_range);
  range.has_from = kept && free->from;
  range.has_to = kept && free->to;
  const auto part = [&](place::InLength::Part of) { return place::InLength{LengthId(index), of}; };
  if (range.has_from) range.from = evaluated(*free->from, part(place::InLength::Part::from));
  if (range.has_to) range.to = evaluated(*free->to, part(place::InLength::Part::to));
  if (question_) {
    reference_of_column_.push_back(question_->planned[index]);
    return;
  }
  if (range.has_from && range.has_to)
    range.middle = (range.from.constant + range.to.constant) / 2;
  else if (range.has_from)
    range.middle = range.from.constant;
  else if (range.has_to)
    range.middle = range.to.constant;
  if (!(range.middle > 0)) range.middle = no_middle;
  double reference = aimed_at(index, range).value_or(range.middle);
  if (range.has_to) reference = std::min(reference, range.to.constant);
  reference_of_column_.push_back(std::max(reference, range.from.constant));
}

/// What a length to be found is aimed at; nothing where it is aimed at nothing.
std::optional<double> Builder::aimed_at(int index, const Range &range) {
  const FreeLength *free = job_.lengths[index].free();
  if (!free || !free->aim) return std::nullopt;
  if (const Formula *figure = free->figure())
    return evaluated(*figure, place::InLength{LengthId(index), place::InLength::Part::aim}).constant;
  return std::get<Extreme>(*free->aim) == Extreme::least ? range.from.constant : range.to.constant;
}

void Builder::add_ranges() {
  for (std::size_t i = 0; i < scheme_.free_lengths.size(); ++i) {
    const int index = scheme_.free_lengths[i];
    const int column = scheme_.column_of_length[index];
    // Never below 0 is no condition of the maker's: it is kept always and has no name.
    row_ = {{column, 1.0}};
    at_least(0);
    if (ranges_[i].has_from) {
      row_ = {{column, 1.0}};
      put(ranges_[i].from, -1);
      name(condition::InRange{LengthId(index), condition::InRange::End::from}, at_least(0));
    }
    if (!ranges_[i].has_to) continue;
    row_ = {{column, -1.0}};
    put(ranges_[i].to, 1);
    name(condition::InRange{LengthId(index), condition::InRange::End::to}, at_least(0));
  }
}

/// What is made of a free length is no more below 0 than the length itself; this too has no name.
void Builder::add_derived_lengths() {
  for (int index = 0; index < static_cast<int>(job_.lengths.size()); ++index) {
    const Affine &form = scheme_.symbols[job_.symbol_of(LengthId(index))];
    if (job_.lengths[index].free() || form.fixed()) continue;
    put(form, 1);
    at_least(0);
  }
}

/// Of a question: what else must hold of lengths that depend on its subject. None is below 0, nor is what is written of
/// a free one, and a free one that stays as planned stays within its range.
void Builder::add_dependent_lengths() {
  for (int index = 0; index < static_cast<int>(job_.lengths.size()); ++index) {
    const Affine &form = scheme_.symbols[job_.symbol_of(LengthId(index))];
    const FreeLength *free = job_.lengths[index].free();
    if (!is_unknown(index) && !form.fixed()) {
      put(form, 1);
      at_least(0);
    }
    if (!free) continue;
    keep_written(free->from ? &*free->from : nullptr);
    keep_written(free->figure());
    if (is_unknown(index)) continue;
    const auto bound = [&](const std::optional<Formula> &formula, double sign) {
      if (!formula) return;
      const Affine value = evaluated(*formula, place::InLength{LengthId(index)});
      if (value.fixed()) return;
      constant_ = sign * form.constant;
      put(value, -sign);
      at_least(0);
    };
    bound(free->from, 1);
    bound(free->to, -1);
  }
}

/// What is written in other forms than a sum has no row: a trial tells.
void Builder::keep_written(const Formula *formula) {
  if (!formula) return;
  const Outcome<Affine> value = evaluate(*formula, scheme_.symbols);
  if (!value || value->fixed()) return;
  put(*value, 1);
  at_least(0);
}

void Builder::add_rules() {
  for (std::size_t r = 0; r < job_.rules.size(); ++r) {
    const Affine &left = scheme_.rule_sides[2 * r];
    const Affine &right = scheme_.rule_sides[2 * r + 1];
    if (left.fixed() && right.fixed()) continue;
    const Relation relation = job_.rules[r].holds.relation;
    const double sign = relation == Relation::at_most ? -1 : 1;
    put(left, sign);
    put(right, -sign);
    const Condition condition = condition::Holds{RuleId(static_cast<int>(r))};
    if (relation == Relation::equal)
      name(condition, equal(0));
    else
      name(condition, at_least(0));
  }
}

double Builder::at_reference(const Affine &form) const {
  if (question_) return least_reference; // limits that must hold need no weighing
  double value = form.constant;
  for (const auto &[symbol, coefficient] : form.terms)
    value += coefficient * reference_of_column_[scheme_.symbol_columns[symbol] - scheme_.problem.shared_begin()];
  return value;
}

/// The band of each segment as far as it can be told before anything is solved: what its violations and its unevenness
/// are weighed by.
std::vector<double> Builder::reference_bands(int join) const {
  const auto &segments = job_.joins[join].segments;
  std::vector<double> bands(segments.size(), -1);
  double left = at_reference(scheme_.bands[join]);
  int unknown = 0;
  for (std::size_t s = 0; s < segments.size(); ++s) {
    if (segments[s].band)
      bands[s] = at_reference(segment_band_[s]);
    else if (!takes_fullness(segments[s].kind) && segments[s].long_edge)
      bands[s] = at_reference(segment_long_[s]);
    else
      ++unknown;
    if (bands[s] >= 0) left -= bands[s];
  }
  for (double &band : bands)
    band = std::max(band < 0 ? left / unknown : band, least_reference);
  return bands;
}

/// The long edge of a segment of the join at hand, where given figures settle it.
std::optional<double> Builder::given_long(int join, int s) const {
  const Segment &segment = job_.joins[join].segments[s];
  const std::optional<Formula> &cloth = given_cloth(segment);
  if (!cloth) return std::nullopt;
  const Affine &given = &cloth == &segment.long_edge ? segment_long_[s] : segment_band_[s];
  return given.fixed() ? std::optional(given.constant) : std::nullopt;
}

/// What the ease limit's margin is multiplied by: a drawn edge eases by as much of it as lies on the bias, down to half
/// along straight grain. Over the segment itself where its place is settled by given figures, else over the whole edge.
double Builder::bias_of(int join, int segment) const {
  if (job_.joins[join].segments[segment].kind != Kind::ease || drawn_.empty() || !drawn_[join].mean_shear) return 1;
  const double whole = *drawn_[join].long_edge;
  double from = 0;
  double to = whole;
  const auto gives = [&](int s) { return given_long(join, s).has_value(); };
  if (const auto by = placed_by(job_.joins[join], segment, gives)) {
    double beside = 0; // between the edge's end that it is measured from and the segment
    for (int s = by->first; s < by->end; ++s)
      if (s != segment) beside += *given_long(join, s);
    const double own = *given_long(join, segment);
    from = by->from_start ? beside : whole - beside - own;
    to = from + own;
  }
  const bool lies_on_edge = from >= 0 && to <= whole && from < to;
  return 0.5 + 0.5 * (lies_on_edge ? drawn_[join].mean_shear(from, to) : drawn_[join].mean_shear(0, whole));
}

void Builder::add_equal_bands(int join) {
  const auto &segments = job_.joins[join].segments;
  int first = -1;
  for (int s = 0; s < static_cast<int>(segments.size()); ++s) {
    if (!takes_fullness(segments[s].kind) || segments[s].band || segments[s].long_edge) continue;
    if (first >= 0) {
      row_ = {{scheme_.band_column(join, s), 1.0}, {scheme_.band_column(join, first), -1.0}};
      equal(0);
    }
    first = first < 0 ? s : first;
  }
}

void Builder::add_segment(int join, int s, double reference) {
  const Segment &segment = job_.joins[join].segments[s];
  const int l = scheme_.long_column(join, s);
  const int b = scheme_.band_column(join, s);
  const SegmentAt at(JoinId(join), s);
  if (!takes_fullness(segment.kind)) {
    row_ = {{l, 1.0}, {b, -1.0}};
    name(condition::Flat{at}, equal(0));
  }
  if (segment.long_edge) {
    row_ = {{l, 1.0}};
    put(segment_long_[s], -1);
    name(condition::Given{at, WhichEdge::long_edge}, equal(0));
  }
  if (segment.band) {
    row_ = {{b, 1.0}};
    put(segment_band_[s], -1);
    name(condition::Given{at, WhichEdge::band}, equal(0));
  }
  for (const int column : {l, b}) {
    row_ = {{column, 1.0}};
    at_least(0);
  }
  if (!takes_fullness(segment.kind)) return;
  const Limits &limits = scheme_.limits[join][s];
  const double scale = 1 / std::sqrt(reference);
  optimum::Rows &rows = question_ ? scheme_.problem.at_least : scheme_.problem.limits;
  rows.add(std::array<Term, 2>{{{l, scale}, {b, -limits.least * scale}}}, 0);
  rows.add(std::array<Term, 2>{{{l, -scale}, {b, limits.most * scale}}}, 0);
  if (question_) {
    const auto *fade = std::get_if<Fade>(&segment.spread);
    if (!fade) return;
    row_ = {{b, 1.0}};
    for (const Formula &over : fade->over)
      put(evaluated(over, place::InSegment{at, place::InSegment::Part::spread}), -1);
    at_least(0);
    return;
  }
  const double extra = std::max(limits.ideal - 1, least_extra) * segment.share;
  const double evenness = 1 / std::sqrt(extra * reference);
  scheme_.problem.wishes[1].add(std::array<Term, 2>{{{l, evenness}, {b, -(1 + extra) * evenness}}}, 0);
}

/// Stretches of a join that say nothing of their own have what others of their kind have.
Limits Builder::limits_of(int join, int s) {
  const Join &made = job_.joins[join];
  const Segment &segment = made.segments[s];
  const auto found = [&] {
    const cloth::Seam seam{.use = made.use, .bias = bias_of(join, s)};
    return cloth::limits(made.fabric, made.gathering, segment.kind, segment.limits, seam);
  };
  const auto &[least, ideal, most] = segment.limits;
  if (least || ideal || most || segment.kind == Kind::ease) return found();
  std::optional<Limits> &of_kind = limits_of_kind_[static_cast<std::size_t>(segment.kind)];
  if (!of_kind) of_kind = found();
  return *of_kind;
}

void Builder::add_join(int join) {
  const Join &made = job_.joins[join];
  const int segments = static_cast<int>(made.segments.size());
  segment_long_.clear();
  segment_band_.clear();
  limits_of_kind_ = {};
  scheme_.limits.resize(job_.joins.size());
  auto &limits = scheme_.limits[join];
  limits.reserve(made.segments.size());
  segment_long_.reserve(made.segments.size());
  segment_band_.reserve(made.segments.size());
  for (int s = 0; s < segments; ++s) {
    const Segment &segment = made.segments[s];
    const SegmentAt at(JoinId(join), s);
    const auto given = [&](const std::optional<Formula> &formula, place::InSegment::Part part) {
      return formula ? evaluated(*formula, place::InSegment{at, part}) : Affine{};
    };
    segment_long_.push_back(given(segment.long_edge, place::InSegment::Part::long_edge));
    segment_band_.push_back(given(segment.band, place::InSegment::Part::band));
  }
  for (int s = 0; s < segments; ++s)
    limits.push_back(limits_of(join, s));
  const auto adds_up = [&](WhichEdge which) {
    const bool of_band = which == WhichEdge::band;
    for (int s = 0; s < segments; ++s)
      row_.push_back({of_band ? scheme_.band_column(join, s) : scheme_.long_column(join, s), 1.0});
    put(of_band ? scheme_.bands[join] : scheme_.long_edges[join], -1);
    name(condition::AddsUp{EdgeAt(JoinId(join), which)}, equal(0));
  };
  adds_up(WhichEdge::long_edge);
  adds_up(WhichEdge::band);
  add_equal_bands(join);
  const std::vector<double> references = reference_bands(join);
  for (int s = 0; s < segments; ++s)
    add_segment(join, s, references[s]);
}

void Builder::evaluate_pieces() {
  for (int p = 0; p < static_cast<int>(job_.pieces.size()); ++p) {
    const PieceId id(p);
    const Piece &piece = job_[id];
    PieceForms &forms = scheme_.pieces.emplace_back();
    forms.across = evaluated(piece.across, place::InPiece{id, place::InPiece::Part::across});
    forms.along = evaluated(piece.along, place::InPiece{id, place::InPiece::Part::along});
    for (const Side side : all_sides)
      for (int part = 0; part < static_cast<int>(piece.sides[side].size()); ++part)
        forms.at[side].push_back(evaluated(piece.sides[side][part].at, place::InSidePart{PartAt(SideAt(id, side), part),
                                                                                         place::InSidePart::Part::at}));
  }
}

double Builder::allowances(PieceId at, Side one, Side other) const {
  return allowance_of(job_, SideAt(at, one)) + allowance_of(job_, SideAt(at, other));
}

/// A piece that may not turn is no wider than its cloth, where its width hangs on what is to be found.
void Builder::add_pieces() {
  for (int p = 0; p < static_cast<int>(job_.pieces.size()); ++p) {
    const PieceId id(p);
    const std::optional<double> width = usable(cloth_of(job_[id].fabric, job_.unit));
    const Affine &across = scheme_.pieces[p].across;
    if (!width || job_[id].turn || across.fixed()) continue;
    put(across, -1);
    name(condition::NoWider{id}, at_least(allowances(id, Side::left, Side::right) - *width));
  }
}

double Builder::planned(const Affine &form) const {
  double value = form.constant;
  for (const auto &[symbol, coefficient] : form.terms)
    if (const auto length = job_.length_of(symbol)) value += coefficient * question_->planned[length->at];
  return value;
}

/// The row at hand is not below 0; one that nothing moves holds or does not.
void Builder::keep_what_moves() {
  if (row_.empty())
    constant_ = 0;
  else
    at_least(0);
}

/// A piece that may turn goes into its cloth as it is or turned: of the two that hang on the subject the one that fits
/// better as planned.
void Builder::keep_width_turned(PieceId at) {
  const std::optional<double> width = usable(cloth_of(job_[at].fabric, job_.unit));
  if (!width || !job_[at].turn) return;
  const PieceForms &forms = scheme_.pieces[at.at];
  struct Way {
    const Affine &size;
    double left; ///< of the width, were the piece nothing
    bool fits, moves;
  };
  const auto way = [&](const Affine &size, Side one, Side other) {
    const double left = *width - allowances(at, one, other);
    return Way{size, left, !is_above(planned(size), left), !size.fixed()};
  };
  const Way as_it_is = way(forms.across, Side::left, Side::right);
  const Way turned = way(forms.along, Side::top, Side::bottom);
  for (const Way &each : {as_it_is, turned})
    if (!each.moves && each.fits) return;
  if (!as_it_is.moves && !turned.moves) return;
  const bool turn =
      !as_it_is.moves || (turned.moves && planned(turned.size) - turned.left < planned(as_it_is.size) - as_it_is.left);
  const Way &chosen = turn ? turned : as_it_is;
  put(chosen.size, -1);
  at_least(-chosen.left);
}

void Builder::keep_piece(PieceId at) {
  const PieceForms &forms = scheme_.pieces[at.at];
  for (const Affine *size : {&forms.across, &forms.along}) {
    put(*size, 1);
    keep_what_moves();
  }
  keep_width_turned(at);
  for (const Side side : all_sides)
    keep_parts(SideAt(at, side));
}

/// The length of a part: its edge's where it is all of it, else that of its segments, whose join is asked about.
void Builder::put_part(const SidePart &part, double factor) {
  const int join = part.join.at;
  const bool of_band = part.edge == WhichEdge::band;
  if (part.from == 0 && part.to == static_cast<int>(job_.joins[join].segments.size()))
    return put(of_band ? scheme_.bands[join] : scheme_.long_edges[join], factor);
  for (int s = part.from; s < part.to; ++s)
    row_.push_back({of_band ? scheme_.band_column(join, s) : scheme_.long_column(join, s), factor});
}

/// Each part of a side begins on it, and ends before the next begins or the side ends. What is not asked about is left
/// out.
void Builder::keep_parts(SideAt side) {
  const std::vector<SidePart> &parts = job_[side.piece].sides[side.side];
  const PieceForms &forms = scheme_.pieces[side.piece.at];
  const std::vector<Affine> &at = forms.at[side.side];
  std::vector<std::pair<double, int>> in_order;
  for (int p = 0; p < static_cast<int>(parts.size()); ++p) {
    put(at[p], 1);
    keep_what_moves();
    in_order.emplace_back(planned(at[p]), p);
  }
  std::sort(in_order.begin(), in_order.end());
  for (std::size_t k = 0; k < in_order.size(); ++k) {
    const int p = in_order[k].second;
    const bool whole = parts[p].from == 0 && parts[p].to == static_cast<int>(job_[parts[p].join].segments.size());
    if (!whole && !is_asked(parts[p].join.at)) continue;
    put_part(parts[p], -1);
    put(at[p], -1);
    put(k + 1 < in_order.size() ? at[in_order[k + 1].second] : runs_across(side.side) ? forms.across : forms.along, 1);
    keep_what_moves();
  }
}

void Builder::add_wishes_for_lengths() {
  for (std::size_t i = 0; i < scheme_.free_lengths.size(); ++i) {
    const int index = scheme_.free_lengths[i];
    const std::optional<double> aim = aimed_at(index, ranges_[i]);
    const bool aimed = aim.has_value();
    const double target = aim.value_or(ranges_[i].middle);
    const double scale = 1 / (aimed ? std::max(target, least_aim) : target);
    scheme_.problem.wishes[aimed ? 0 : 2].add(std::array<Term, 1>{{{scheme_.column_of_length[index], scale}}},
                                              target * scale);
  }
}

void Builder::add_lengths() {
  evaluate_symbols();
  lay_out();
  make_room();
  evaluate_sides();
  for (std::size_t i = 0; i < scheme_.free_lengths.size(); ++i)
    range_of(static_cast<int>(i));
  add_ranges();
}

SchemeOutcome Builder::build() {
  add_lengths();
  add_derived_lengths();
  add_rules();
  for (std::size_t j = 0; j < job_.joins.size(); ++j)
    add_join(static_cast<int>(j));
  add_pieces();
  add_wishes_for_lengths();
  if (!faults_.empty()) return std::move(faults_);
  return std::move(scheme_);
}

std::optional<AskedScheme> Builder::build_asked() {
  add_lengths();
  add_dependent_lengths();
  add_rules();
  for (std::size_t j = 0; j < job_.joins.size(); ++j)
    if (is_asked(static_cast<int>(j))) add_join(static_cast<int>(j));
  add_pieces();
  for (int p = 0; p < static_cast<int>(job_.pieces.size()); ++p)
    keep_piece(PieceId(p));
  if (!faults_.empty()) return std::nullopt;
  const auto *length = std::get_if<LengthId>(&question_->subject);
  const int symbol = length ? job_.symbol_of(*length) : symbol_of_edge();
  AskedScheme asked{std::move(scheme_), 0};
  asked.column = asked.scheme.symbol_columns[symbol];
  return asked;
}

} // namespace

double Scheme::value(const Affine &form, std::span<const double> unknowns) const {
  double sum = form.constant;
  double numbers = std::abs(form.constant);
  for (const auto &[symbol, coefficient] : form.terms) {
    const double part = coefficient * unknowns[symbol_columns[symbol]];
    sum += part;
    numbers += std::abs(part);
  }
  return std::abs(sum) <= roundings * std::numeric_limits<double>::epsilon() * numbers ? 0 : sum;
}

SchemeOutcome scheme(const Job &job, std::span<const DrawnLengths> drawn) {
  return Builder(job, drawn, nullptr).build();
}

std::optional<AskedScheme> scheme(const Job &job, const Question &question, std::span<const DrawnLengths> drawn) {
  return Builder(job, drawn, &question).build_asked();
}

} // namespace gatherwright::allot
