// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/together.hpp"

#include "cli/report/pieces_words.hpp"
#include "cli/report/plan_text.hpp"
#include "cli/words/amounts.hpp"
#include "cli/words/columns.hpp"
#include "gatherwright/bounds.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gatherwright::cli::cast {

namespace {

using report::text_width;
using report::wrapped;

template <class Plans> auto plan_of(Plans &plans, const Cloth &cloth) {
  return std::find_if(plans.begin(), plans.end(), [&](const ClothPlan &plan) { return plan.cloth == cloth; });
}

} // namespace

WearersCloth cloth_of_wearer(const Cloths &cloths, const Plan &plan) {
  WearersCloth wearer{pieces_of(plan), std::vector<double>(cloths.cloths.size())};
  for (std::size_t i = 0; i < cloths.cloths.size(); ++i) {
    const auto bought = plan_of(plan.cloth, cloths.cloths[i]);
    if (bought != plan.cloth.end()) wearer.steps[i] = std::round(bought->buy_by_step / bought->cloth.sold_by.mm);
  }
  return wearer;
}

void Together::add(const WearersCloth &wearer) {
  for (std::size_t i = 0; i < steps_.size(); ++i)
    steps_[i] += wearer.steps.at(i);
  for (std::size_t i = 0; i < wearer.pieces.sizes.size(); ++i)
    pieces_ += job_.pieces.at(i).cut;
  too_many_ = too_many_ || pieces_ > bounds::most_cut;
  if (too_many_)
    wearers_ = {};
  else
    wearers_.push_back(wearer.pieces);
}

std::optional<std::vector<ClothPlan>> Together::laid() const {
  return too_many_ ? std::nullopt : lay_together(job_, wearers_);
}

std::string Together::said(const std::optional<std::vector<ClothPlan>> &laid) const {
  std::string lines;
  for (std::size_t i = 0; i < steps_.size(); ++i) {
    if (steps_[i] == 0) continue;
    const Cloth &cloth = cloths_.cloths[i];
    std::string text = fmt::format("{}: {} cut one by one", report::cloth_called_short(cloth),
                                   words::amount(steps_[i] * cloth.sold_by.mm, cloth.sold_by, job_.unit));
    if (!laid)
      text += fmt::format("; more than {} pieces are too many to lay together.", bounds::most_cut);
    else if (const auto together = plan_of(*laid, cloth); together == laid->end())
      text += "; too unlike in size to be laid together.";
    else
      text += fmt::format("; {} laid together on one bolt. {}", words::to_buy(*together, job_.unit),
                          report::lay_said(job_, *together));
    lines += wrapped(text, "  ", "    ", text_width);
  }
  return lines;
}

} // namespace gatherwright::cli::cast
