// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/cloth_limits.hpp"

#include "words/figures.hpp"

#include <fmt/format.h>

namespace gatherwright::words {

std::string reason(cloth::Reason reason, const cloth::Explanation &limits) {
  using cloth::Reason;
  switch (reason) {
  case Reason::by_weight:
    return fmt::format(
        "the table over weights at {} (heavy cloth about 1.5 to 1, middling 2, sheer 3 to 4; it meets chiffon "
        "at 3 and taffeta at about 2 of Butterick, The New Dressmaker, 1921, ch. 28)",
        weight(limits.weight.grams));
  case Reason::assumed_weight:
    return "no weight is given, so 150 g/m2 is taken";
  case Reason::weight_from_thickness:
    return fmt::format("no weight is given; it is reckoned from the thickness as {}", weight(limits.weight.grams));
  case Reason::thickness_by_weight:
    return fmt::format("a thread's every crossing holds a fold of the cloth, reckoned from its weight as {} thick",
                       small_length(limits.thickness));
  case Reason::thickness_measured:
    return fmt::format("a thread's every crossing holds a fold of the cloth, measured as {} thick",
                       small_length(limits.thickness));
  case Reason::swatch:
    return "your gathered test strip";
  case Reason::thickness_factor:
    return fmt::format("for its thickness (an ordinary cloth of this weight has {}) the extra is taken {} times",
                       small_length(limits.ordinary_thickness), decimals(limits.thickness_factor, 2));
  case Reason::bending_factor:
    return fmt::format("for its stiffness the extra is taken {} times", decimals(limits.bending_factor, 2));
  case Reason::gauging:
    return "cartridge pleats stand from 2.5 to 1 on and take up to 0.8 of closest packing";
  case Reason::casing:
    return "a casing slides down to plain and up to closest packing";
  case Reason::no_fold:
    return "ease begins at length for length, and half of the most is aimed at";
  case Reason::shrinks:
    return "steam shrinks this cloth, so it takes half as much ease again";
  case Reason::grain:
    return "the edge is drawn: cloth takes ease on the bias and half of it along the grain";
  case Reason::own:
    return "your own limit";
  case Reason::moved:
    return "moved to lie between your own limits";
  case Reason::packed_bounds:
    break;
  }
  return "kept down to what can be drawn up at all";
}

std::string_view standing(cloth::Standing standing) {
  switch (standing) {
  case cloth::Standing::makers_own:
    return "your own measuring";
  case cloth::Standing::practice:
    return "common practice, no source; its tie to weights is our model";
  case cloth::Standing::our_model:
    break;
  }
  return "our model";
}

} // namespace gatherwright::words
