// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/fragments.hpp"

#include "cli/report/short_names.hpp"
#include "cli/sheet/html_parts.hpp"
#include "cli/sheet/pieces_html.hpp"

#include <fmt/format.h>

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace gatherwright::paper {

namespace {

/// Fragments one after another.
class Parted {
public:
  explicit Parted(const std::function<bool(std::string_view)> &leave) : leave_(leave) {}

  /// Whether it is left as it is.
  bool left(const std::string &name) {
    if (!leave_ || !leave_(name)) return false;
    made_.push_back({name, std::nullopt});
    return true;
  }

  /// Unless nothing is written.
  void add(std::string name, const std::function<void(Html &)> &write) {
    if (left(name)) return;
    Html html;
    write(html);
    if (std::string written = html.take(); !written.empty()) made_.push_back({std::move(name), std::move(written)});
  }

  std::vector<Fragment> take() { return std::move(made_); }

private:
  const std::function<bool(std::string_view)> &leave_;
  std::vector<Fragment> made_;
};

std::string name_of_cloth(std::size_t cloth) {
  return fmt::format("cloth-{}", cloth + 1);
}

void add_pieces(Parted &parted, Widths widths, const Job &job, const Plan &plan, const PiecesSheet &sheet) {
  std::size_t cloths = 0;
  // Of a plan without layouts those stay that are there.
  while (plan.cloth.empty() && parted.left(name_of_cloth(cloths)))
    ++cloths;
  for (const ClothSheet &each : sheet.cloths)
    parted.add(name_of_cloth(each.cloth), [&](Html &html) { cloth(html, widths, job, plan, each); });
  parted.add("cloths-left-out", [&](Html &html) {
    paragraph(html, sheet.cloths_left_out);
    paragraph(html, sheet.too_wide);
  });
  parted.add("on-pieces", [&](Html &html) { on_pieces(html, widths, job, plan, sheet); });
  parted.add("savings", [&](Html &html) { savings(html, plan, sheet); });
}

void add_join(Parted &parted, const JoinShown &join) {
  const std::string name = fmt::format("join-{}", join.sheet.join + 1);
  parted.add(name, [&](Html &html) { join_words(html, join.sheet, name); });
  parted.add(name + "-picture", [&](Html &html) { join_figure(html, join); });
  parted.add(name + "-drawn", [&](Html &html) { as_drawn(html, join); });
  parted.add(name + "-curve", [&](Html &html) { curve(html, join); });
  parted.add(name + "-marks", [&](Html &html) { marks(html, join.sheet); });
  parted.add(name + "-working", [&](Html &html) { working(html, join.sheet); });
}

} // namespace

std::vector<Fragment> sheet_fragments(const Job &whole, const Plan &plan, const PictureWidth &width, report::Pins pins,
                                      const std::function<bool(std::string_view)> &leave) {
  const std::optional<Job> short_named = report::with_short_names(whole);
  const Job &job = short_named ? *short_named : whole;
  const Sheet sheet = sheet_of(job, plan, {}, pins);
  const Widths widths(&width, 1);
  Parted parted(leave);
  parted.add("verdict", [&](Html &html) { verdict(html, sheet); });
  parted.add("wrong", [&](Html &html) { list(html, "h2", sheet.wrong); });
  parted.add("mend", [&](Html &html) { list(html, "h2", sheet.mend); });
  if (has_anything_to_cut(sheet)) parted.add("cut", [&](Html &html) { sizes_to_cut(html, sheet); });
  if (sheet.pieces) add_pieces(parted, widths, job, plan, *sheet.pieces);
  for (const JoinSheet &join : sheet.joins)
    add_join(parted, {job, plan, join, widths});
  parted.add("joins-left-out", [&](Html &html) { paragraph(html, sheet.joins_left_out); });
  parted.add("between-marks", [&](Html &html) { paragraph(html, sheet.between_marks); });
  parted.add("notes", [&](Html &html) { list(html, "h2", sheet.notes); });
  parted.add("cautions", [&](Html &html) { list(html, "h2", sheet.cautions); });
  return parted.take();
}

} // namespace gatherwright::paper
