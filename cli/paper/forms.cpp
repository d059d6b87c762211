// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/paper/forms.hpp"

#include "cli/drawing/svg.hpp"
#include "cli/layout/layouts.hpp"
#include "cli/press/pdf.hpp"
#include "cli/sheet/sheet.hpp"
#include "cli/strip/strips.hpp"

#include <algorithm>
#include <array>

namespace gatherwright::paper {

namespace {

PdfOutcome strips_pdf(const Job &job, const Plan &plan, const Wanted &wanted) {
  return pdf(strips(job, plan, wanted.size, wanted.joins));
}

PdfOutcome strips_svg(const Job &job, const Plan &plan, const Wanted &wanted) {
  return svg_file(strips(job, plan, wanted.size, wanted.joins));
}

PdfOutcome sheet_as_html(const Job &job, const Plan &plan, const Wanted &wanted) {
  return sheet_html(job, plan, wanted.pins);
}

PdfOutcome sheet_as_pdf(const Job &job, const Plan &plan, const Wanted &wanted) {
  return sheet_pdf(job, plan, wanted.size, wanted.pins);
}

PdfOutcome layout_pdf(const Job &job, const Plan &plan, const Wanted &wanted) {
  return pdf(layouts(job, plan, wanted.size));
}

PdfOutcome layout_svg(const Job &job, const Plan &plan, const Wanted &wanted) {
  return svg_file(layouts(job, plan, wanted.size));
}

} // namespace

std::span<const Form> strips_forms() {
  static constexpr std::array forms{Form{".pdf", strips_pdf}, Form{".svg", strips_svg}};
  return forms;
}

std::span<const Form> sheet_forms() {
  static constexpr std::array forms{Form{".html", sheet_as_html, Form::Of::anything},
                                    Form{".pdf", sheet_as_pdf, Form::Of::anything}};
  return forms;
}

std::span<const Form> layout_forms() {
  static constexpr std::array forms{Form{".pdf", layout_pdf, Form::Of::layouts},
                                    Form{".svg", layout_svg, Form::Of::layouts}};
  return forms;
}

std::optional<std::string_view> why_not_made(const Form &form, const Plan &plan) {
  const bool conflict = plan.verdict == Verdict::rules_conflict;
  if (form.of == Form::Of::joins && conflict) return "the rules conflict, so there is nothing to mark";
  if (form.of != Form::Of::layouts || !plan.cloth.empty()) return std::nullopt;
  return conflict ? "the rules conflict, so there is nothing to lay" : "no piece goes into its cloth";
}

std::optional<Fault> nothing_to_lay(const Job &job) {
  if (job.pieces.empty()) return Fault{"the job has no pieces to lay", "write its \"pieces\""};
  if (std::any_of(job.pieces.begin(), job.pieces.end(), [](const Piece &piece) { return piece.fabric.width; }))
    return std::nullopt;
  return Fault{"nobody said how wide the cloth of the pieces is", "write the \"width\" of the \"fabric\""};
}

} // namespace gatherwright::paper
