// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/bodies.hpp"

#include <algorithm>
#include <array>

namespace gatherwright::bodies {

namespace {

struct Called {
  std::string_view name;
  Surveyed surveyed;
};

// The figures are the lesser of the two minima, women's and men's, and the greater of the two maxima.
constexpr Surveyed neck{275, 514};
constexpr Surveyed wrist{124, 216};
constexpr Surveyed hand{152, 248}; ///< round the palm, without the thumb
constexpr Surveyed head{500, 635};
constexpr Surveyed chest{695, 1469};
constexpr Surveyed waist{611, 1379};
constexpr Surveyed hips{737, 1341};
constexpr Surveyed upper_arm{216, 490};
constexpr Surveyed forearm{200, 402};
constexpr Surveyed shoulder_length{107, 185};
constexpr Surveyed waist_back{345, 598};
constexpr Surveyed stature{1409, 1993};

constexpr std::array table = {
    Called{"neck", neck},
    Called{"neck_base", {302, 545}},
    Called{"wrist", wrist},
    Called{"hand", hand},
    Called{"head", head},
    Called{"chest", chest},
    Called{"bust", chest},
    Called{"waist", waist},
    Called{"hip", hips},
    Called{"hips", hips},
    Called{"seat", hips},
    Called{"upper_arm", upper_arm},
    Called{"biceps", upper_arm},
    Called{"forearm", forearm},
    Called{"shoulder_length", shoulder_length},
    Called{"back_waist", waist_back},
    Called{"waist_back", waist_back},
    Called{"stature", stature},
};

} // namespace

std::optional<Surveyed> called(std::string_view name) {
  const auto found = std::find_if(table.begin(), table.end(), [&](const Called &each) { return each.name == name; });
  if (found == table.end()) return std::nullopt;
  return found->surveyed;
}

} // namespace gatherwright::bodies
