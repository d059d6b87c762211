// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/piece/sizes.hpp"

#include "gatherwright/bounds.hpp"
#include "gatherwright/cloths.hpp"
#include "solver/formula/figure.hpp"
#include "solver/job/beyond.hpp"
#include "solver/job/settled.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace gatherwright::piece {

namespace {

/// A part that passes a side's end, or another part, by no more than this share of the side lies on it.
constexpr double side_share = 1e-9;

/// The least number of widths of the cloth that make so wide a piece, each seam between two of them taking the job's
/// allowance from both; nothing where the seams would take it all.
std::optional<int> widths_for(double cut_across, double usable, double allowance) {
  const double each = usable - 2 * allowance;
  if (!(each > 0)) return std::nullopt;
  const double widths = std::ceil((cut_across - 2 * allowance) / each * (1 - limit_share));
  return widths <= bounds::most_cut ? std::optional(static_cast<int>(std::max(widths, 1.0))) : std::nullopt;
}

/// Parts of a side in the order in which they lie on it.
class Lying {
public:
  Lying(const Job &job, SideAt side, const Sizes &sizes, std::span<const SewnJoin> joins)
      : side_(side), length_(sizes.length_of(side.side)) {
    const std::vector<SidePart> &parts = job[side.piece].sides[side.side];
    for (int p = 0; p < static_cast<int>(parts.size()); ++p) {
      const double begins = sizes.at[side.side][p];
      parts_.push_back({begins, begins + length_of(parts[p], joins), p});
    }
  }

  void find(std::vector<Wrong> &wrong) {
    const double slack = side_share * length_;
    for (const Part &part : parts_)
      if (part.end > length_ + slack)
        wrong.push_back(finding::PastTheEnd{.at = at(part), .end = part.end, .side = length_});
    std::stable_sort(parts_.begin(), parts_.end(), [](const Part &a, const Part &b) { return a.begins < b.begins; });
    const Part *furthest = nullptr;
    for (const Part &part : parts_) {
      if (furthest && part.begins < furthest->end - slack)
        wrong.push_back(finding::Overlaps{
            .at = at(part), .other = furthest->number, .begins = part.begins, .other_end = furthest->end});
      if (!furthest || part.end > furthest->end) furthest = &part;
    }
  }

private:
  struct Part {
    double begins = 0;
    double end = 0;
    int number = 0;
  };

  PartAt at(const Part &part) const { return PartAt(side_, part.number); }

  SideAt side_;
  double length_;
  std::vector<Part> parts_;
};

} // namespace

std::vector<Unsound> unsound_in(PieceId id, const Sizes &sizes) {
  std::vector<Unsound> unsound;
  const auto judge = [&](double size, bool across) {
    if (!(size >= bounds::shortest_length.mm)) unsound.push_back(refusal::NoSize{id, across, size});
  };
  judge(sizes.across, true);
  judge(sizes.along, false);
  for (const Side side : all_sides)
    for (int part = 0; part < static_cast<int>(sizes.at[side].size()); ++part)
      if (const double at = sizes.at[side][part]; at < 0)
        unsound.push_back(refusal::BeforeTheSide{PartAt(SideAt(id, side), part), at});
  return unsound;
}

std::optional<finding::TooWide> too_wide(const Job &job, PieceId id, const Sizes &sizes) {
  const std::optional<double> width = usable(cloth_of(job[id].fabric, job.unit));
  if (!width || !is_above(sizes.cut_across(), *width)) return std::nullopt;
  if (job[id].turn && !is_above(sizes.cut_along(), *width)) return std::nullopt;
  const double allowance = job.allowance ? figure_of(*job.allowance) : 0;
  return finding::TooWide{.at = id,
                          .cut_across = sizes.cut_across(),
                          .usable = *width,
                          .widths = widths_for(sizes.cut_across(), *width, allowance)};
}

std::vector<Wrong> wrong_with(const Job &job, PieceId id, const Sizes &sizes, std::span<const SewnJoin> joins) {
  std::vector<Wrong> wrong;
  if (const auto wide = too_wide(job, id, sizes)) wrong.push_back(*wide);
  for (const Side side : all_sides)
    if (!job[id].sides[side].empty()) Lying(job, SideAt(id, side), sizes, joins).find(wrong);
  return wrong;
}

} // namespace gatherwright::piece
