// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/cloth_limits.hpp"

#include "cli/words/figures.hpp"

#include <fmt/format.h>

namespace gatherwright::words {

std::string reason(cloth::Reason reason, const cloth::Explanation &limits, bool again) {
  using cloth::Reason;
  if (again && reason == Reason::by_weight) return fmt::format("the table at {}", weight(limits.weight.grams));
  switch (reason) {
  case Reason::by_weight:
    return fmt::format(
        "the table over weights at {} (heavy cloth about 1.5 to 1, middling 2, sheer 3 to 4; it meets chiffon "
        "at 3 and taffeta at about 2 of Butterick, The New Dressmaker, 1921, ch. 28; the tie to weights is our model)",
        weight(limits.weight.grams));
  case Reason::ease_by_weight:
    return fmt::format("the table over weights at {} (1 to 1 1/2 in are eased over a cap; the tie to weights is our "
                       "model)",
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
  case Reason::skirt:
    return "a skirt goes into its waistband fuller: the most is taken 1.75 times, so that closely woven cotton reaches "
           "the 4.5 to 5.25 of Johnson, 4-H Club Series L-86 and L-87 (Oregon and Utah State Coop. Extension), and no "
           "further than 0.8 of closest packing";
  case Reason::curtain_least:
    return "a curtain has at least 1.5 to 1, as stage velour is hung";
  case Reason::curtain_ideal:
    return "a curtain hangs at 2 to 1, and at 2.5 in cloth lighter than 165 g/m2 (Ohio State University Extension "
           "Bulletin 529 has 2 on average and 2 1/2 for very sheer ones; the weight at which they part is ours)";
  case Reason::curtain_most:
    return "a curtain takes up to 3 to 1 in any cloth (Unified Facilities Guide Specification UFGS-12 22 00, 2007, has "
           "2, 2 1/2 or 3)";
  case Reason::gauging:
    return "cartridge pleats stand from 2.5 to 1 on and take up to 0.8 of closest packing";
  case Reason::casing:
    return "a casing slides down to plain and up to closest packing";
  case Reason::no_fold:
    return "ease begins at length for length, and half of the most is aimed at";
  case Reason::suppleness:
    return fmt::format("for its stiffness the ease is taken {} times", decimals(limits.suppleness, 2));
  case Reason::suppleness_unknown:
    return "how supple it is, is not known: firm cloth takes a quarter less (Kalka, Virginia Coop. Extension 346-122, "
           "1985, has 1 in over a cap of firm cloth, about 1 1/2 in of supple)";
  case Reason::shrinks:
    return "steam shrinks this cloth, so it takes half as much ease again";
  case Reason::grain:
    return "the edge is drawn: cloth takes ease on the bias and half of it along the grain";
  case Reason::own:
    return "your own limit";
  case Reason::moved:
    return "moved to lie between least and most";
  case Reason::packed_bounds:
    break;
  }
  return "kept down to what can be drawn up at all";
}

std::string_view grounds(cloth::Grounds grounds) {
  switch (grounds) {
  case cloth::Grounds::makers_own:
    return "your own measuring";
  case cloth::Grounds::published:
    return "published";
  case cloth::Grounds::practice:
    return "common practice, no source";
  case cloth::Grounds::our_model:
    break;
  }
  return "our model";
}

std::string_view grounds_in_short(cloth::Grounds grounds) {
  switch (grounds) {
  case cloth::Grounds::makers_own:
    return "yours";
  case cloth::Grounds::published:
    return "published";
  case cloth::Grounds::practice:
    return "common practice";
  case cloth::Grounds::our_model:
    break;
  }
  return "ours";
}

std::string_view use(Use use) {
  return use == Use::skirt ? "a skirt" : "a curtain";
}

} // namespace gatherwright::words
