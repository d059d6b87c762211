// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <optional>

/// How proud gathers stand at the stitch line: the cloth between two holes of the thread as an elastica, a thin strip
/// that bends without stretching, pinned at both holes, an arc of one stitch over a span of stitch / fullness (our
/// model).
namespace gatherwright::cloth {

/// How far gathers stand, millimetres, and whether their folds press on each other.
struct Ridge {
  double height = 0;
  bool folds_press = false; ///< neighbouring folds touch: `height` is then that of the touch
  double touch = 0;         ///< where they press: the fullness at which they begin to
};

/// `stitch` hole to hole and `thickness` in millimetres, both above 0. A fullness of 1 or less stands nowhere.
Ridge ridge(double fullness, double stitch, double thickness);

/// The elliptic modulus k of the elastica, 1 / R = 2 E(k) / K(k) - 1, for a finite fullness R; 0 for 1 or less.
/// Good to 1e-14 relative.
double elastica_modulus(double fullness);

/// How far the elastica of that modulus stands, in arcs of one stitch: k / K(k).
double elastica_height(double modulus);

/// Beyond this ratio of thickness to stitch folds touch before they grow wider than their feet.
inline constexpr double thickest_folding = 0.45694658104446363;

/// The fullness at which neighbouring folds touch, at `ratio` = thickness / stitch, above 0 (0: a cloth of no
/// thickness). Up to `thickest_folding` from the elastica, good to 1e-12 relative; beyond it closest packing, 2 / (3
/// ratio), at least 1.
double touching_fullness(double ratio);

/// Ridges of one plan, whose segments mostly share their cloth and stitch, and often are as full as the one before:
/// what was found for that is not looked for again.
class Ridges {
public:
  /// As ridge().
  Ridge of(double fullness, double stitch, double thickness);

private:
  struct Touch {
    double ratio = 0;
    double fullness = 0;
  };
  struct Found {
    std::array<double, 3> asked{}; ///< fullness, stitch, thickness
    Ridge ridge;
  };

  Ridge reckoned(double fullness, double stitch, double thickness);

  std::optional<Touch> last_touch_;
  std::optional<Found> last_;
};

} // namespace gatherwright::cloth
