// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/limits.hpp"

#include "gatherwright/by_weight.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::cloth {
namespace {

// No cloth or stitch comes near these: they keep every quotient finite whatever is written.
constexpr double thinnest = 1e-6;
constexpr double thickest = 1e6;
constexpr double packed_at_most = 1e9;

/// How far one measurement may move a limit, either way; our model.
constexpr double least_factor = 0.6;
constexpr double most_factor = 1.4;

/// Median bending length of 251 cloths, millimetres (Feng et al., ACM Transactions on Graphics, 2022).
constexpr double ordinary_bending_length = 18.9;

/// Our model; set so that chiffon and taffeta come to what Butterick, "The New Dressmaker", 1921, ch. 28 has for them.
constexpr double bending_power = 0.75;

/// Gauging wants 2.5 to 1 and more before its folds stand (common practice, no source); its share of packing is our
/// model.
constexpr double gauge_least = 2.5;
constexpr double gauge_share_of_packed = 0.8;

/// A skirt goes into its waistband fuller than other gathers sit well: our factor, set so that closely woven cotton
/// reaches the 4.5 to 5.25 published for it (Johnson, 4-H Club Series L-86 and L-87); its share of packing as for
/// gauging.
constexpr double skirt_factor = 1.75;

/// Curtains hang at 2, 2 1/2 or 3 to 1 as specified (Unified Facilities Guide Specification UFGS-12 22 00, July 2007,
/// 2.2.1.1), at 2 on average and at 2 1/2 where very sheer (Ohio State University Extension Bulletin 529). The least is
/// what velour is hung at (common practice, no source); where the ideal changes is our model.
constexpr double curtain_least = 1.5;
constexpr double curtain_ideal = 2;
constexpr double sheer_curtain_ideal = 2.5;
constexpr double curtain_most = 3;
constexpr double sheer_curtain_below = 165; // g/m2

/// Steam takes up half as much ease again in cloth that it shrinks; our model.
constexpr double shrinking_factor = 1.5;

Reckoned reckoned(double value, std::initializer_list<Reason> reasons) {
  Reckoned limit{value, {}};
  for (const Reason reason : reasons)
    limit.reasons.set(static_cast<std::size_t>(reason));
  return limit;
}

void add(Reckoned &limit, Reason reason) {
  limit.reasons.set(static_cast<std::size_t>(reason));
}

/// How the weight was come by, where it was not given.
void add_weight_source(Reckoned &limit, const Fabric &fabric) {
  if (!fabric.weight) add(limit, fabric.thickness ? Reason::weight_from_thickness : Reason::assumed_weight);
}

Reckoned tabled(double value, const Fabric &fabric) {
  Reckoned limit = reckoned(value, {Reason::by_weight});
  add_weight_source(limit, fabric);
  return limit;
}

/// Applies what was measured to the extra of a limit, which never falls below `least`.
void apply_measured(Reckoned &limit, double by_thickness, double by_bending, const Fabric &fabric, double least) {
  if (!fabric.thickness && !fabric.bending_length) return;
  limit.value = std::max(1 + (limit.value - 1) * by_thickness * by_bending, least);
  if (fabric.thickness && fabric.weight) add(limit, Reason::thickness_factor);
  if (fabric.bending_length) add(limit, Reason::bending_factor);
}

Reckoned reckon_packed(const Fabric &fabric, const Gathering &gathering) {
  Reckoned limit = reckoned(packed(fabric, gathering), {});
  if (fabric.swatch && fabric.swatch->tight) {
    add(limit, Reason::swatch);
  } else if (fabric.thickness) {
    add(limit, Reason::thickness_measured);
  } else {
    add(limit, Reason::thickness_by_weight);
    if (!fabric.weight) add(limit, Reason::assumed_weight);
  }
  return limit;
}

void reckon_for_cloth(Explanation &limits, const Fabric &fabric) {
  if (fabric.swatch && fabric.swatch->good) {
    const double cut = fabric.swatch->cut.mm;
    const auto [shortest, longest] = *fabric.swatch->good;
    limits.least = reckoned(cut / longest.mm, {Reason::swatch});
    limits.most = reckoned(cut / shortest.mm, {Reason::swatch});
    limits.ideal = reckoned(std::sqrt(limits.least.value * limits.most.value), {Reason::swatch});
    return;
  }
  const ByWeight table = by_weight(limits.weight);
  limits.least = tabled(table.least, fabric);
  limits.ideal = tabled(table.ideal, fabric);
  limits.most = tabled(table.most, fabric);
  apply_measured(limits.ideal, limits.thickness_factor, limits.bending_factor, fabric, table.least);
  apply_measured(limits.most, limits.thickness_factor, limits.bending_factor, fabric, table.least);
}

/// An ideal that lies outside the limits goes to the nearer one.
void move_ideal(Explanation &limits) {
  const double between = std::clamp(limits.ideal.value, limits.least.value, limits.most.value);
  if (between == limits.ideal.value) return;
  limits.ideal.value = between;
  add(limits.ideal, Reason::moved);
}

void reckon_for_skirt(Explanation &limits) {
  const double most = std::min(skirt_factor * limits.most.value, gauge_share_of_packed * limits.packed.value);
  if (most <= limits.most.value) return;
  limits.most.value = most;
  add(limits.most, Reason::skirt);
}

void reckon_for_curtain(Explanation &limits, const Fabric &fabric) {
  if (limits.least.value < curtain_least) limits.least = reckoned(curtain_least, {Reason::curtain_least});
  if (limits.most.value < curtain_most) limits.most = reckoned(curtain_most, {Reason::curtain_most});
  const bool sheer = limits.weight.grams < sheer_curtain_below;
  limits.ideal = reckoned(sheer ? sheer_curtain_ideal : curtain_ideal, {Reason::curtain_ideal});
  add_weight_source(limits.ideal, fabric);
  move_ideal(limits);
}

void reckon_gather(Explanation &limits, const Fabric &fabric, std::optional<Use> use) {
  reckon_for_cloth(limits, fabric);
  if (use == Use::skirt) reckon_for_skirt(limits);
  if (use == Use::curtain) reckon_for_curtain(limits, fabric);
}

void reckon_draw(Explanation &limits, const Fabric &fabric, std::optional<Use> use) {
  reckon_gather(limits, fabric, use);
  limits.least = reckoned(1, {Reason::casing});
  limits.most = limits.packed;
  add(limits.most, Reason::casing);
}

void reckon_gauge(Explanation &limits) {
  limits.most = limits.packed;
  limits.most.value = std::max(1.0, gauge_share_of_packed * limits.packed.value);
  add(limits.most, Reason::gauging);
  limits.least = reckoned(std::min(gauge_least, limits.most.value), {Reason::gauging});
  if (limits.least.value < gauge_least) add(limits.least, Reason::packed_bounds);
  limits.ideal = limits.most;
  limits.ideal.value = std::sqrt(limits.least.value * limits.most.value);
}

void bound_by_packed(Reckoned &limit, double packed) {
  if (limit.value <= packed) return;
  limit.value = packed;
  add(limit, Reason::packed_bounds);
}

void reckon_ease(Explanation &limits, const Fabric &fabric, const OwnLimits &own, double bias) {
  const double steam = fabric.shrinks ? shrinking_factor : 1;
  limits.most =
      reckoned(1 + (by_weight(limits.weight).ease_most - 1) * limits.suppleness * bias * steam,
               {Reason::ease_by_weight, fabric.bending_length ? Reason::suppleness : Reason::suppleness_unknown});
  add_weight_source(limits.most, fabric);
  if (fabric.shrinks) add(limits.most, Reason::shrinks);
  if (bias != 1) add(limits.most, Reason::grain);
  if (own.most) limits.most = reckoned(std::max(*own.most, 1.0), {Reason::own});
  bound_by_packed(limits.most, limits.packed.value);
  limits.least = reckoned(1, {Reason::no_fold});
  limits.ideal = limits.most;
  limits.ideal.value = (1 + limits.most.value) / 2;
  add(limits.ideal, Reason::no_fold);
}

/// Puts the maker's own limits over the cloth's; an ideal that is not the maker's moves between what then holds.
void apply_own(Explanation &limits, const OwnLimits &own) {
  if (own.least) limits.least = reckoned(std::max(*own.least, 1.0), {Reason::own});
  if (own.most) limits.most = reckoned(std::max(*own.most, 1.0), {Reason::own});
  // The maker's own one moves the cloth's before it, so that the answer is an interval; if both are own, least holds.
  if (limits.least.value > limits.most.value && own.least) limits.most.value = limits.least.value;
  limits.least.value = std::min(limits.least.value, limits.most.value);
  if (own.ideal) limits.ideal = reckoned(std::max(*own.ideal, 1.0), {Reason::own});
  if (!own.ideal && (own.least || own.most)) move_ideal(limits);
}

} // namespace

double thickness_factor(const Fabric &fabric) {
  if (!fabric.thickness) return 1;
  return std::clamp(weight(fabric).grams / grams_per_mm / fabric.thickness->mm, least_factor, most_factor);
}

double bending_factor(const Fabric &fabric) {
  if (!fabric.bending_length) return 1;
  return std::clamp(std::pow(ordinary_bending_length / fabric.bending_length->mm, bending_power), least_factor,
                    most_factor);
}

Weight weight(const Fabric &fabric) {
  if (fabric.weight) return *fabric.weight;
  return fabric.thickness ? Weight{grams_per_mm * fabric.thickness->mm} : weight_assumed;
}

double thickness(const Fabric &fabric, const Gathering &gathering) {
  double found = 0;
  if (fabric.swatch && fabric.swatch->tight) {
    const double stitch = fabric.swatch->stitch.value_or(gathering.stitch).mm;
    found = 2.0 / 3.0 * stitch * fabric.swatch->tight->mm / fabric.swatch->cut.mm;
  } else {
    found = fabric.thickness ? fabric.thickness->mm : weight(fabric).grams / grams_per_mm;
  }
  return std::clamp(found, thinnest, thickest);
}

double packed(const Fabric &fabric, const Gathering &gathering) {
  // Each crossing of the thread holds one layer, folded about half a thickness: stitch / (t + t / 2); our model.
  return std::clamp(2 * gathering.stitch.mm / (3 * thickness(fabric, gathering)), 1.0, packed_at_most);
}

double flexural_rigidity(Weight weight, Length bending_length) {
  // g/m2 to kg/m2 is 1e-3, mm3 to m3 1e-9, N to uN 1e6; 9.80665 m/s2 is standard gravity.
  return 9.80665e-6 * weight.grams * bending_length.mm * bending_length.mm * bending_length.mm;
}

Explanation explain(const Fabric &fabric, const Gathering &gathering, Kind kind, const OwnLimits &own,
                    const Seam &seam) {
  Explanation limits;
  limits.weight = weight(fabric);
  limits.thickness = thickness(fabric, gathering);
  limits.ordinary_thickness = limits.weight.grams / grams_per_mm;
  if (kind == Kind::flat) return limits;
  limits.thickness_factor = thickness_factor(fabric);
  limits.bending_factor = bending_factor(fabric);
  limits.suppleness = std::clamp(limits.bending_factor, firm_share_of_ease, supple_share_of_ease);
  if (fabric.bending_length) limits.flexural_rigidity = flexural_rigidity(limits.weight, *fabric.bending_length);
  limits.packed = reckon_packed(fabric, gathering);
  if (kind == Kind::ease) {
    reckon_ease(limits, fabric, own, seam.bias);
    return limits;
  }
  if (kind == Kind::gauge) {
    reckon_gauge(limits);
  } else if (kind == Kind::draw) {
    reckon_draw(limits, fabric, seam.use);
  } else {
    reckon_gather(limits, fabric, seam.use);
  }
  apply_own(limits, own);
  for (Reckoned *limit : {&limits.least, &limits.ideal, &limits.most})
    bound_by_packed(*limit, limits.packed.value);
  return limits;
}

Limits limits(const Fabric &fabric, const Gathering &gathering, Kind kind, const OwnLimits &own, const Seam &seam) {
  const Explanation found = explain(fabric, gathering, kind, own, seam);
  return {found.least.value, found.ideal.value, found.most.value, found.packed.value};
}

Grounds grounds(Reason reason) {
  switch (reason) {
  case Reason::own:
  case Reason::moved:
  case Reason::swatch:
    return Grounds::makers_own;
  case Reason::curtain_ideal:
  case Reason::curtain_most:
  case Reason::suppleness_unknown:
    return Grounds::published;
  case Reason::by_weight:
  case Reason::ease_by_weight:
  case Reason::curtain_least:
  case Reason::casing:
  case Reason::no_fold:
    return Grounds::practice;
  default:
    return Grounds::our_model;
  }
}

std::vector<Reason> reasons_of(const Reckoned &limit) {
  std::vector<Reason> told;
  for (int reason = 0; reason < reason_count; ++reason)
    if (limit.because(static_cast<Reason>(reason))) told.push_back(static_cast<Reason>(reason));
  return told;
}

Grounds grounds(const Reckoned &limit) {
  Grounds weakest = Grounds::makers_own;
  for (const Reason reason : reasons_of(limit))
    weakest = std::max(weakest, grounds(reason));
  return weakest;
}

} // namespace gatherwright::cloth
