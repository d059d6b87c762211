// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cloth.hpp"

#include <bitset>
#include <optional>
#include <vector>

/// What a cloth takes: limits of fullness and ease from its weight, thickness, stiffness or a test strip.
///
/// Throughout, a fabric's weight, thickness and bending length, a swatch's lengths and a gathering's stitch are above 0
/// where they are given, and a swatch is in order (`faults_of`).
namespace gatherwright::cloth {

/// Taken where neither weight nor thickness is given; our model.
inline constexpr Weight weight_assumed{150.0};

/// An ordinary woven cloth of W g/m2 is W / 500 mm thick, good to 30 %. Our model: ten published clothing cloths give
/// 484 kg/m3 as their geometric mean, with a standard deviation of the logarithm of 0.137.
inline constexpr double grams_per_mm = 500.0;

/// The weight to reckon with: as given, else from the measured thickness, else `weight_assumed`.
Weight weight(const Fabric &fabric);

/// The thickness to reckon with, millimetres: from a swatch drawn tight, else measured, else from the weight.
double thickness(const Fabric &fabric, const Gathering &gathering);

/// Closest packing at the gathering's stitch: 2 stitch / (3 thickness), at least 1.
double packed(const Fabric &fabric, const Gathering &gathering);

/// What a firm cloth takes of the margin of ease of an ordinary one, and the supplest; our model, about the one
/// published table that sorts by suppleness (Kalka, "Set-In Sleeves", Virginia Coop. Extension 346-122, 1985: 1 in over
/// a cap of firm cloth, about 1 1/2 in of supple).
inline constexpr double firm_share_of_ease = 0.75;
inline constexpr double supple_share_of_ease = 1.2;

/// What a measured thickness and a measured bending length multiply a limit's extra by, each within 0.6 and 1.4; 1
/// where it was not measured.
double thickness_factor(const Fabric &fabric);
double bending_factor(const Fabric &fabric);

/// Flexural rigidity of a strip of the cloth, micronewton metres, from its weight and the length that bends under it:
/// weight per area times acceleration of free fall times bending length cubed. Reported, and used for nothing else.
double flexural_rigidity(Weight weight, Length bending_length);

/// What of a seam, beside its cloth and stitch, moves the limits.
struct Seam {
  std::optional<Use> use = std::nullopt;
  double bias = 1; ///< what the ease limit's margin is multiplied by; 1 for a straight edge that is not drawn
};

/// Limits of fullness for a kind in this cloth, the maker's own over them. For ease `least` is 1 and `ideal` (1 + most)
/// / 2; for flat all are 1. 1 <= least <= most <= packed, all finite; 1 <= ideal <= packed, and
/// between least and most unless the maker's own.
Limits limits(const Fabric &fabric, const Gathering &gathering, Kind kind, const OwnLimits &own, const Seam &seam = {});

/// What a limit comes from, in the order in which it is told.
enum class Reason {
  by_weight,             ///< the table over weights
  ease_by_weight,        ///< the same table's ease
  assumed_weight,        ///< and no weight was given
  weight_from_thickness, ///< and the weight was found from the thickness
  thickness_by_weight,   ///< the thickness behind packing was found from the weight
  thickness_measured,    ///< or measured
  swatch,                ///< a gathered test strip
  thickness_factor,      ///< thinner or thicker than an ordinary cloth of its weight
  bending_factor,        ///< limper or stiffer than an ordinary cloth
  skirt,                 ///< a skirt into its waistband
  curtain_least,         ///< a curtain into its heading
  curtain_ideal,
  curtain_most,
  gauging,            ///< gauge: what is practised, and a share of the closest packing
  casing,             ///< draw: anything down to flat, up to the closest packing
  no_fold,            ///< ease: least is length for length, ideal half of most
  suppleness,         ///< ease: limper or stiffer than an ordinary cloth
  suppleness_unknown, ///< ease: and what firm cloth would take
  shrinks,            ///< ease: steam shrinks the cloth
  grain,              ///< ease: the edge is drawn, and its way over the grain known
  own,                ///< the maker's own limit
  moved,              ///< moved between least and most
  packed_bounds,      ///< kept down to the closest packing
};
inline constexpr int reason_count = static_cast<int>(Reason::packed_bounds) + 1;

/// How well founded a reason is, the best first.
enum class Grounds {
  makers_own, ///< measured or chosen by the maker
  published,  ///< printed in the source that the reason names
  practice,   ///< common practice, no source
  our_model,
};

Grounds grounds(Reason reason);

/// A limit and what it comes from.
struct Reckoned {
  double value = 1;
  std::bitset<reason_count> reasons;

  bool because(Reason reason) const { return reasons[static_cast<std::size_t>(reason)]; }
};

/// The reasons of a limit in the order in which they are told.
std::vector<Reason> reasons_of(const Reckoned &limit);

/// The weakest standing among the reasons of a limit. It has at least one.
Grounds grounds(const Reckoned &limit);

/// How `limits` came about, and what lies behind it.
///   1. Every limit tells what it comes from, in order.
///   2. A limit stands no firmer than the weakest of its reasons.
struct Explanation {
  Reckoned least;
  Reckoned ideal;
  Reckoned most;
  Reckoned packed;
  Weight weight;                           ///< reckoned with
  double thickness = 0;                    ///< reckoned with, millimetres
  double ordinary_thickness = 0;           ///< of an ordinary cloth of that weight, millimetres
  double thickness_factor = 1;             ///< on ideal - 1 and most - 1; 1 where thickness was not measured
  double bending_factor = 1;               ///< likewise
  double suppleness = 1;                   ///< on the margin of ease; 1 where no bending length is given
  std::optional<double> flexural_rigidity; ///< micronewton metres, where a bending length is given
};

/// The values are those of `limits` with the same arguments. For flat the limits have no reasons.
Explanation explain(const Fabric &fabric, const Gathering &gathering, Kind kind, const OwnLimits &own = {},
                    const Seam &seam = {});

} // namespace gatherwright::cloth
