// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/pieces_text.hpp"

#include "cli/report/pieces_words.hpp"
#include "cli/report/plan_text.hpp"
#include "cli/report/side_marks.hpp"
#include "cli/words/columns.hpp"
#include "cli/words/cutting.hpp"

#include "gatherwright/cutting.hpp"

#include <fmt/format.h>

#include <array>

namespace gatherwright::report {

namespace {

constexpr std::size_t most_steps = 40; ///< of cutting one cloth: more than that is followed on a picture

std::string pieces_to_cut(const Job &job, const Plan &plan, const Ink &ink) {
  return "\n" + ink.strong("What to cut") + "\n" + paragraph(of_all_sizes(job, plan)) +
         sizes(job, plan).lines(margin, text_width) + paragraph(sizes_between_seams(job, plan));
}

std::string marks(const Job &job, const Plan &plan, const Ink &ink, Pins pins) {
  std::string text;
  for (const SidesSaid &sides : sides_said(job, plan, pins, most_rows))
    text += wrapped(fmt::format("{}: {}.", sides.where, sides.says), margin, "    ", text_width);
  if (text.empty()) return text;
  const std::string unit = inches_strung_to(job.unit) ? "" : fmt::format(" ({})", name(job.unit));
  return ink.strong("What is sewn to each side") + "\n" +
         paragraph(fmt::format("Marks{} are from the cut corner at the left or at the top.", unit)) + text +
         paragraph(others_of_pairs(job, plan));
}

std::string cloths(const Job &job, const Plan &plan, const Ink &ink) {
  if (plan.cloth.empty()) return "";
  std::string text = "\n" + ink.strong("Cloth") + "\n";
  const std::array pieces{pieces_of(plan)};
  for (const ClothPlan &cloth : plan.cloth) {
    text += paragraph(cloth_said(job, cloth, plan.cloth.size() == 1));
    for (const std::string &said : words::cutting_said({.job = job, .cloth = cloth, .pieces = pieces}, most_steps))
      text += wrapped(said, margin, "    ", text_width);
  }
  return text + paragraph(not_laid(job, plan));
}

std::string savings(const Job &job, const Plan &plan, const Ink &ink) {
  std::string text;
  for (const std::string &said : savings_said(job, plan))
    text += wrapped(said, "  - ", "    ", text_width);
  return text.empty() ? text : fmt::format("\n{}\n{}", ink.strong(savings_heading(plan)), text);
}

} // namespace

std::string pieces_text(const Job &job, const Plan &plan, const Ink &ink, Pins pins) {
  if (plan.pieces.empty()) return "";
  return pieces_to_cut(job, plan, ink) + marks(job, plan, ink, pins) + cloths(job, plan, ink) + savings(job, plan, ink);
}

} // namespace gatherwright::report
