// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/piece_parts.hpp"

#include "gatherwright/bounds.hpp"
#include "gatherwright/validate.hpp"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

namespace gatherwright {

std::vector<int> sharing_a_name(const Cloth &jobs, std::span<const std::optional<Cloth>> of_pieces) {
  std::unordered_map<SharedText, const Cloth *> first;
  if (std::any_of(of_pieces.begin(), of_pieces.end(), [&](const auto &cloth) { return cloth == jobs; }))
    first.emplace(jobs.name, &jobs);
  std::vector<int> sharing;
  for (std::size_t i = 0; i < of_pieces.size(); ++i) {
    if (!of_pieces[i]) continue;
    const auto found = first.emplace(of_pieces[i]->name, &*of_pieces[i]).first;
    if (*found->second != *of_pieces[i]) sharing.push_back(static_cast<int>(i));
  }
  return sharing;
}

namespace job {

namespace {

using PiecePart = place::InPiece::Part;
using PartOfSide = place::InSidePart::Part;

/// Goes over the pieces one by one.
class Pieces {
public:
  Pieces(const Job &job, bool cloth_known, Judge &judge) : job_(job), cloth_known_(cloth_known), judge_(judge) {}

  void judge();

private:
  void name(PieceId at);
  void sizes(PieceId at);
  void sides(PieceId at);
  void part(PartAt at);
  void stretch(PartAt at);
  std::optional<Cloth> cloth(PieceId at);

  const Job &job_;
  bool cloth_known_;
  Judge &judge_;
  std::unordered_set<std::string_view> names_; ///< so far
  std::size_t told_ = 0;                       ///< of `bounds::most_told`
  std::int64_t cut_ = 0;
};

void Pieces::name(PieceId at) {
  const Piece &piece = job_[at];
  const Place place = place::InPiece{at, PiecePart::name};
  const bool is_text = judge_.text(piece.name, "the piece's name", place);
  if (piece.name.empty())
    judge_.refuse(place, {"the piece has no name", "call it by what it is: sleeve"});
  else if (is_text && !names_.insert(piece.name).second)
    judge_.refuse(place, {"another piece is called so", "give each its own name"});
}

void Pieces::sizes(PieceId at) {
  const Piece &piece = job_[at];
  const bool counted = judge_.whole(piece.cut, bounds::most_cut, "pieces", place::InPiece{at, PiecePart::cut});
  cut_ += counted ? piece.cut : 1;
  judge_.written(piece.across, place::InPiece{at, PiecePart::across});
  judge_.written(piece.along, place::InPiece{at, PiecePart::along});
  for (const Side side : all_sides)
    if (const auto &allowance = piece.allowance[side]) judge_.written(*allowance, place::InAllowance{SideAt(at, side)});
}

/// From which mark to which.
void Pieces::stretch(PartAt at) {
  const SidePart &part = job_[at];
  const int last = static_cast<int>(job_[part.join].segments.size());
  const auto is_mark = [last](int mark) { return mark >= 0 && mark <= last; };
  const auto refuse_mark = [&](PartOfSide of) {
    judge_.refuse(place::InSidePart{at, of}, {"the join has no such mark",
                                              "give one from 0, its start, to " + std::to_string(last) + ", its end"});
  };
  if (!is_mark(part.from)) refuse_mark(PartOfSide::from);
  if (!is_mark(part.to)) refuse_mark(PartOfSide::to);
  if (is_mark(part.from) && is_mark(part.to) && part.from >= part.to)
    judge_.refuse(place::InSidePart{at, PartOfSide::to},
                  {"the part ends where it begins, or before", "let it run from an earlier mark to a later one"});
}

void Pieces::part(PartAt at) {
  const SidePart &part = job_[at];
  judge_.written(part.at, place::InSidePart{at, PartOfSide::at});
  const Place whole = place::InSidePart{at};
  const bool is_edge = is_among(part.edge, WhichEdge::long_edge, WhichEdge::band);
  if (!is_edge) judge_.refuse(whole, {"this is no edge of a join", "take the long edge or the band"});
  if (part.join.at < 0 || part.join.at >= static_cast<int>(job_.joins.size()))
    return judge_.refuse(whole, {"this join is none of the job's", "number the joins from 0"});
  told_ += job_[at.side.piece].name.size() + job_[part.join].name.size();
  if (is_edge && job_[EdgeAt(part.join, part.edge)].drawn())
    judge_.refuse(whole, {"the edge is drawn, and the sides of a piece are straight", "leave it out of the piece"});
  if (!job_[part.join].segments.empty()) stretch(at);
}

void Pieces::sides(PieceId at) {
  const std::size_t before = told_;
  for (const Side side : all_sides)
    for (int p = 0; p < static_cast<int>(job_[at].sides[side].size()); ++p)
      part(PartAt(SideAt(at, side), p));
  if (told_ > bounds::most_told && before <= bounds::most_told)
    judge_.refuse(place::InPiece{at, PiecePart::name},
                  {"the names of pieces and joins, told for each part of a side, come to more than " +
                       std::to_string(bounds::most_told) + " bytes",
                   "give them shorter names"});
}

/// What it is cut from; nothing where that is at fault.
std::optional<Cloth> Pieces::cloth(PieceId at) {
  const Fabric &fabric = job_[at].fabric;
  const Place place = place::InPiece{at, PiecePart::fabric};
  if (!judge_.fabric(fabric, place)) return std::nullopt;
  Cloth cloth = cloth_of(fabric, judge_.unit());
  const bool as_jobs = cloth == cloth_of(job_.fabric, judge_.unit());
  if (as_jobs && !cloth_known_) return std::nullopt; // told of the job
  if (!judge_.leaves_a_width(fabric, place)) return std::nullopt;
  return cloth;
}

void Pieces::judge() {
  names_.reserve(job_.pieces.size());
  std::vector<std::optional<Cloth>> cloths;
  for (int p = 0; p < static_cast<int>(job_.pieces.size()); ++p) {
    const PieceId at(p);
    name(at);
    sizes(at);
    cloths.push_back(cloth(at));
    sides(at);
  }
  if (cut_ > bounds::most_cut)
    judge_.refuse(place::WholeJob{place::WholeJob::Part::pieces},
                  {std::to_string(cut_) + " pieces are too many",
                   "cut no more than " + std::to_string(bounds::most_cut) + " in all"});
  for (const int p : sharing_a_name(cloth_of(job_.fabric, judge_.unit()), cloths))
    judge_.refuse(place::InPiece{PieceId(p), PiecePart::fabric},
                  {"the piece's cloth goes by the same name as another, or has none either",
                   "another cloth needs a name of its own"});
}

} // namespace

void judge_pieces(const Job &job, bool cloth_known, Judge &judge) {
  Pieces(job, cloth_known, judge).judge();
}

} // namespace job

} // namespace gatherwright
