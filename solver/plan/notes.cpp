// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/notes.hpp"

#include "gatherwright/cloths.hpp"
#include "gatherwright/limits.hpp"
#include "solver/formula/figure.hpp"
#include "solver/job/beyond.hpp"
#include "solver/job/bodies.hpp"
#include "solver/job/settled.hpp"
#include "solver/mark/pins.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace gatherwright {

namespace {

constexpr double longest_stitch = 20.0; ///< millimetres: a longer one was likely meant in another unit
constexpr double longest_bare = 3000.0; ///< millimetres: a longer edge from bare numbers likely too
constexpr double swatch_differs = 0.05; ///< a limit by the strip and by the weight differ by more than this share
constexpr double certified = 1e-9;      ///< the optimality conditions hold to this
constexpr double light_cloth = 100.0;   ///< g/m2: lawn, muslin and lighter, which catch fire readily; our model
constexpr double full_enough = 1.5;     ///< fullness from which a light cloth stands away from the body; our model

bool gathers_anything(const Join &join) {
  return std::any_of(join.segments.begin(), join.segments.end(),
                     [](const Segment &s) { return takes_fullness(s.kind); });
}

/// The segment that only a trial could tell a note of.
SegmentAt tried_at(const Note &note) {
  if (const auto *stitch = std::get_if<note::StitchWouldDo>(&note)) return stitch->at;
  return std::get<note::BetterGauged>(note).at;
}

/// Notes of one join, in a fixed order.
class JoinNotes {
public:
  JoinNotes(const Job &job, int join, const JoinPlan &plan, std::span<const Note> tried, std::vector<Note> &notes)
      : job_(job), made_(job.joins[join]), join_(join), plan_(plan), tried_(tried), notes_(notes) {}

  void add() {
    add_of_edges();
    if (made_.own_stitch && made_.gathering.stitch.mm > longest_stitch)
      put(note::LongStitch{.at = join_, .stitch = made_.gathering.stitch.mm});
    for (int s = 0; s < static_cast<int>(made_.segments.size()); ++s)
      add_of_segment(s);
    add_of_suppleness();
    add_of_rows();
    add_of_marks();
  }

private:
  void put(Note note) { notes_.push_back(note); }

  void add_of_edges() {
    add_of_width();
    if (job_.bare_lengths && plan_.long_length > longest_bare)
      put(note::LongBareNumber{.at = join_, .length = plan_.long_length});
    const auto note_drawn = [&](const std::optional<DrawnPlan> &drawn, WhichEdge which) {
      // Less than half a step of the tape cannot be seen on it.
      if (!drawn || std::abs(drawn->stitching - drawn->cut_edge) < job_.tape_step.mm / 2) return;
      put(note::StitchingDiffers{.at = EdgeAt(join_, which), .by = drawn->stitching - drawn->cut_edge});
    };
    const auto note_misread = [&](const Edge &edge, WhichEdge which) {
      const DrawnEdge *drawn = edge.drawn();
      // How long a part is stands in the job.
      if (drawn && drawn->misread && !drawn->part)
        put(note::Misread{.at = EdgeAt(join_, which), .by = drawn->misread->mm});
    };
    note_drawn(plan_.drawn_long, WhichEdge::long_edge);
    note_misread(made_.long_edge, WhichEdge::long_edge);
    if (plan_.drawn_long && plan_.drawn_long->cap_outside)
      put(note::GarmentOutside{EdgeAt(join_, WhichEdge::long_edge)});
    note_drawn(plan_.drawn_band, WhichEdge::band);
    note_misread(made_.band, WhichEdge::band);
  }

  /// Widths sewn to one another: each seam takes its allowance from both, a ring has as many seams as widths.
  void add_of_width() {
    if (!made_.fabric.width || !(made_.fabric.width->mm > 0)) return;
    const double width = made_.fabric.width->mm;
    const double allowance = job_.allowance ? figure_of(*job_.allowance) : 0;
    const auto [before, after] = plan_.long_ends.value_or(std::array{0.0, 0.0});
    const double whole = made_.closed ? plan_.long_length : plan_.long_length + before + after;
    const double in_seams = made_.closed ? 0 : 2 * allowance; // the outer sides of the first and the last are no seams
    if (!is_above(plan_.long_length, width) && !is_above(whole - in_seams, width - 2 * allowance)) return;
    note::OverCloth over{.at = join_, .cloth_width = width, .allowance = allowance};
    if (width > 2 * allowance) over.widths = std::ceil((whole - in_seams) / (width - 2 * allowance) * (1 - 1e-9));
    put(over);
  }

  void add_of_rows() {
    if (!plan_.gathering) return;
    const std::vector<double> &from_seam = plan_.gathering->from_seam;
    if (std::any_of(from_seam.begin(), from_seam.end(), [](double row) { return row < 0; }))
      put(note::RowsInside{.at = join_, .allowance = plan_.allowance});
  }

  void add_of_segment(int s) {
    const SegmentPlan &segment = plan_.segments[s];
    const SegmentAt at(join_, s);
    if (segment.folds && is_below(segment.folds->depth, note::shallow_fold))
      put(note::ShallowFolds{.at = at, .folds = segment.folds->count, .depth = segment.folds->depth});
    if (segment.gathers && segment.gathers->folds_press) put(note::FoldsPress{.at = at, .fullness = segment.fullness});
    const bool shaped = !std::holds_alternative<Even>(made_.segments[s].spread);
    const bool unlevelled = !is_above(segment.fullest, segment.limits.most);
    if (shaped && segment.capped_at_packed && segment.verdict != Verdict::cannot_be_gathered && !unlevelled)
      put(note::SpreadLevelled{.at = at, .level = note::SpreadLevelled::At::packed});
    else if (shaped && segment.levelled)
      put(note::SpreadLevelled{.at = at, .level = note::SpreadLevelled::At::most});
    if (segment.give && segment.verdict == Verdict::within_limits) add_of_give(at, segment);
    add_tried(at);
  }

  void add_of_give(SegmentAt at, const SegmentPlan &segment) {
    using Limit = note::GivePasses::Limit;
    const auto &[low, high] = *segment.give;
    const Limits &limits = segment.limits;
    if (is_below(low, limits.least))
      put(note::GivePasses{.at = at, .limit = Limit::least, .fullness = low, .allowed = limits.least});
    if (is_above(high, limits.most))
      put(note::GivePasses{.at = at, .limit = Limit::most, .fullness = high, .allowed = limits.most});
  }

  void add_tried(SegmentAt at) {
    const auto before = [](const Note &note, SegmentAt segment) { return tried_at(note) < segment; };
    for (auto note = std::lower_bound(tried_.begin(), tried_.end(), at, before);
         note != tried_.end() && tried_at(*note) == at; ++note)
      notes_.push_back(*note);
  }

  /// Where firm cloth would not take the ease, or nothing at all is known of the cloth.
  void add_of_suppleness() {
    if (made_.fabric.bending_length) return;
    const bool weight_known = made_.fabric.weight || made_.fabric.thickness;
    for (std::size_t s = 0; s < made_.segments.size(); ++s) {
      const SegmentPlan &segment = plan_.segments[s];
      if (made_.segments[s].kind != Kind::ease || made_.segments[s].limits.most) continue;
      if (segment.verdict != Verdict::within_limits) continue;
      const double firm = 1 + cloth::firm_share_of_ease * (segment.limits.most - 1);
      if (weight_known && !is_above(segment.fullness, firm)) continue;
      put(note::SupplenessUnknown{.at = join_, .firm = firm});
      return;
    }
  }

  void add_of_marks() {
    const auto shares_a_step = [&](MarkPlace Mark::*side) {
      for (std::size_t i = 0; i + 1 < plan_.marks.size(); ++i)
        if ((plan_.marks[i].*side).tape == (plan_.marks[i + 1].*side).tape) return true;
      return false;
    };
    if (shares_a_step(&Mark::long_edge)) put(note::SharedStep{EdgeAt(join_, WhichEdge::long_edge)});
    if (shares_a_step(&Mark::band)) put(note::SharedStep{EdgeAt(join_, WhichEdge::band)});
    add_folding();
    if (made_.make % 2 == 0 && !made_.mirrored && differs_end_for_end()) put(note::PairNotMirrored{join_});
  }

  void add_folding() {
    int full = 0;
    int folded = 0;
    for (int s = 0; s < static_cast<int>(made_.segments.size()); ++s) {
      if (!takes_fullness(made_.segments[s].kind)) continue;
      ++full;
      if (is_found_by_folding(s)) ++folded;
    }
    if (folded == 0) return;
    if (folded == full) return put(note::FoundByFolding{join_});
    for (int s = 0; s < static_cast<int>(made_.segments.size()); ++s)
      if (is_found_by_folding(s)) put(note::FoundByFolding{SegmentAt(join_, s)});
  }

  bool is_found_by_folding(int s) const {
    const Segment &segment = made_.segments[s];
    return mark::found_by_folding(plan_.segments[s].band, segment.kind, made_.marks,
                                  std::holds_alternative<Even>(segment.spread));
  }

  bool differs_end_for_end() const {
    const auto &marks = plan_.marks;
    const std::size_t count = marks.size();
    for (std::size_t i = made_.closed ? 1 : 0; i < count; ++i) {
      const std::size_t opposite = made_.closed ? count - i : count - 1 - i;
      if (std::abs(marks[i].band.exact + marks[opposite].band.exact - plan_.band) > 1e-9 * plan_.band) return true;
      if (std::abs(marks[i].long_edge.exact + marks[opposite].long_edge.exact - plan_.long_length) >
          1e-9 * plan_.long_length)
        return true;
    }
    return false;
  }

  const Job &job_;
  const Join &made_;
  JoinId join_;
  const JoinPlan &plan_;
  std::span<const Note> tried_;
  std::vector<Note> &notes_;
};

} // namespace

namespace {

/// The survey behind it is of people from 17 years on.
void add_of_measures(const Job &job, std::vector<Note> &notes) {
  if (job.wearer_age && *job.wearer_age < bodies::youngest) return;
  for (int m = 0; m < static_cast<int>(job.measures.size()); ++m) {
    const Measure &measure = job.measures[m];
    const auto found = bodies::called(measure.name);
    if (!found || (measure.is.mm >= found->least / 2 && measure.is.mm <= found->greatest * 1.5)) continue;
    notes.push_back(note::MeasureFarOff{MeasureId(m), found->least, found->greatest});
  }
}

/// Ranges of fixed figures that end before they begin: where rules conflict for it, and else never.
void add_of_ranges(const Plan &plan, std::vector<Note> &notes) {
  if (!plan.conflict) return;
  using End = condition::InRange::End;
  for (const Condition &condition : plan.conflict->conditions) {
    const auto *begins = std::get_if<condition::InRange>(&condition);
    if (!begins || begins->end != End::from) continue;
    for (const Condition &other : plan.conflict->conditions)
      if (const auto *ends = std::get_if<condition::InRange>(&other);
          ends && ends->end == End::to && ends->at == begins->at && plan.conflict->conditions.size() == 2)
        notes.push_back(note::RangeTurned{begins->at});
  }
}

/// What a join's test strip says against its weight; nothing where it has not both, or they agree.
std::optional<note::SwatchBelieved> believed(const Join &join) {
  const Fabric &fabric = join.fabric;
  const auto by_cloth = [](const Segment &segment) {
    return segment.kind == Kind::gather && !(segment.limits.least && segment.limits.most);
  };
  if (!fabric.swatch || !fabric.swatch->good || !fabric.weight) return std::nullopt;
  if (std::none_of(join.segments.begin(), join.segments.end(), by_cloth)) return std::nullopt;
  Fabric unstripped = fabric;
  unstripped.swatch.reset();
  const Limits strip = cloth::limits(fabric, join.gathering, Kind::gather, {});
  const Limits weighed = cloth::limits(unstripped, join.gathering, Kind::gather, {});
  const auto differ = [](double a, double b) { return std::abs(a - b) > swatch_differs * b; };
  if (!differ(strip.least, weighed.least) && !differ(strip.most, weighed.most)) return std::nullopt;
  return note::SwatchBelieved{.at = std::nullopt,
                              .least = strip.least,
                              .most = strip.most,
                              .least_by_weight = weighed.least,
                              .most_by_weight = weighed.most,
                              .weight = fabric.weight->grams};
}

bool is_same(const note::SwatchBelieved &a, const note::SwatchBelieved &b) {
  return a.least == b.least && a.most == b.most && a.least_by_weight == b.least_by_weight &&
         a.most_by_weight == b.most_by_weight && a.weight == b.weight;
}

/// Once, where it is the same of all that have one; else of each join.
void add_of_swatches(const Job &job, std::vector<Note> &notes) {
  std::vector<note::SwatchBelieved> found;
  for (int j = 0; j < static_cast<int>(job.joins.size()); ++j)
    if (auto of_join = believed(job.joins[j])) {
      of_join->at = JoinId(j);
      found.push_back(*of_join);
    }
  if (found.empty()) return;
  if (std::all_of(found.begin(), found.end(), [&](const auto &each) { return is_same(each, found.front()); })) {
    found.front().at.reset();
    found.resize(1);
  }
  notes.insert(notes.end(), found.begin(), found.end());
}

bool differ(double a, double b) {
  constexpr double rounding = 1e-9;
  return std::abs(a - b) > rounding * std::max(a, b);
}

/// Sides cut without an allowance because nobody said one, and those cut with another than the seam has.
void add_of_pieces(const Job &job, const Plan &plan, std::vector<Note> &notes) {
  note::NoAllowance none;
  for (int p = 0; p < static_cast<int>(plan.pieces.size()); ++p)
    if (!job.allowance &&
        std::any_of(all_sides.begin(), all_sides.end(), [&](Side side) { return !job.pieces[p].allowance[side]; }))
      none.at.emplace_back(p);
  if (!none.at.empty()) notes.push_back(std::move(none));
  for (int p = 0; p < static_cast<int>(plan.pieces.size()); ++p)
    for (const Side side : all_sides)
      for (int n = 0; n < static_cast<int>(job.pieces[p].sides[side].size()); ++n) {
        const SidePart &part = job.pieces[p].sides[side][n];
        const JoinPlan &join = plan.joins[part.join.at];
        const double of_join = part.edge == WhichEdge::band ? join.band_allowance : join.allowance;
        const double of_side = plan.pieces[p].allowance[side];
        if (differ(of_side, of_join))
          notes.push_back(note::AllowancesDiffer{PartAt(SideAt(PieceId(p), side), n), of_side, of_join});
      }
}

/// How much there is of the job's cloth has no part in anything where no piece is cut from it.
bool is_stock_unused(const Job &job) {
  const Cloth cloth = cloth_of(job.fabric, job.unit);
  return cloth.stock && std::none_of(job.pieces.begin(), job.pieces.end(),
                                     [&](const Piece &piece) { return cloth_of(piece.fabric, job.unit) == cloth; });
}

bool is_certified(const Plan &plan) {
  return plan.certificate && plan.certificate->feasibility <= certified &&
         plan.certificate->stationarity <= certified && plan.certificate->complementarity <= certified;
}

} // namespace

std::vector<Note> notes_of(const Job &job, const Plan &plan, std::span<const Note> tried) {
  std::vector<Note> notes;
  const bool assumed = std::any_of(job.joins.begin(), job.joins.end(), [](const Join &join) {
    return !join.fabric.weight && !join.fabric.thickness && gathers_anything(join);
  });
  if (assumed) notes.push_back(note::WeightAssumed{});
  add_of_measures(job, notes);
  add_of_ranges(plan, notes);
  add_of_swatches(job, notes);
  if (job.gathering.stitch.mm > longest_stitch)
    notes.push_back(note::LongStitch{.at = std::nullopt, .stitch = job.gathering.stitch.mm});
  for (std::size_t j = 0; j < plan.joins.size(); ++j)
    JoinNotes(job, static_cast<int>(j), plan.joins[j], tried, notes).add();
  add_of_pieces(job, plan, notes);
  if (is_stock_unused(job)) notes.push_back(note::StockUnused{});
  for (int i = 0; i < static_cast<int>(plan.lengths.size()); ++i)
    if (const auto &found = plan.lengths[i].found; found && found->off_tape)
      notes.push_back(note::OffTape{LengthId(i)});
  for (int r = 0; r < static_cast<int>(plan.rules.size()); ++r)
    if (!plan.rules[r].holds) notes.push_back(note::RuleBroken{RuleId(r)});
  // Without a certificate nothing is known; one of the plan as cut may miss what must hold by so much.
  if (plan.verdict != Verdict::rules_conflict && !is_certified(plan)) {
    note::Unproved unproved;
    if (plan.certificate && plan.certificate->feasibility > certified) unproved.missed = plan.certificate->feasibility;
    notes.push_back(unproved);
  }
  return notes;
}

namespace {

/// Joins that a cord or an elastic draws up and somebody wears, at the waist or anywhere else.
std::vector<JoinId> corded(const Job &job, caution::Cord::Where where) {
  std::vector<JoinId> joins;
  for (int j = 0; j < static_cast<int>(job.joins.size()); ++j) {
    const Join &join = job.joins[j];
    if (join.use == Use::curtain || (join.use == Use::skirt) != (where == caution::Cord::Where::waist)) continue;
    if (std::any_of(join.segments.begin(), join.segments.end(), [](const Segment &s) { return on_cord(s.kind); }))
      joins.emplace_back(j);
  }
  return joins;
}

} // namespace

std::vector<Caution> cautions_of(const Job &job, const Plan &plan) {
  bool pinned = false;
  bool light = false;
  for (std::size_t j = 0; j < plan.joins.size(); ++j) {
    pinned = pinned || plan.joins[j].pins > 0;
    const Weight weight = cloth::weight(job.joins[j].fabric);
    for (std::size_t s = 0; s < job.joins[j].segments.size(); ++s) {
      const Kind kind = job.joins[j].segments[s].kind;
      light = light || (takes_fullness(kind) && !told_in_percent(kind) && weight.grams <= light_cloth &&
                        plan.joins[j].segments[s].fullness >= full_enough);
    }
  }
  std::vector<Caution> cautions;
  if (!job.wearer_age || *job.wearer_age < caution::child_below)
    for (const auto where : {caution::Cord::Where::neck, caution::Cord::Where::waist})
      if (auto joins = corded(job, where); !joins.empty())
        cautions.push_back(caution::Cord{where, job.wearer_age.has_value(), std::move(joins)});
  if (pinned) cautions.push_back(caution::Pins{});
  if (light) cautions.push_back(caution::Flame{});
  return cautions;
}

} // namespace gatherwright
