// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/pieces_words.hpp"

#include "cli/report/plan_words.hpp"
#include "cli/report/short_names.hpp"
#include "cli/words/amounts.hpp"
#include "cli/words/columns.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/findings.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace gatherwright::report {

namespace {

using words::printable;

/// Allowances are told as finely as any tape, and are one where that cannot tell them apart.
std::string allowance(const Job &job, double mm) {
  return words::fine_length(mm, job.tape());
}

bool same(double a, double b) {
  return std::fabs(a - b) < 1e-6;
}

/// The allowance that most sides have, the first of those that as many have.
double usual_allowance(const BySide<double> &allowances) {
  double usual = 0;
  std::ptrdiff_t most = 0;
  for (const double each : allowances.of_sides) {
    const auto count = std::count_if(allowances.of_sides.begin(), allowances.of_sides.end(),
                                     [each](double other) { return same(each, other); });
    if (count > most) {
      most = count;
      usual = each;
    }
  }
  return usual;
}

/// "1 cm, bottom 1.5 cm", in as many lines as that takes; one figure where all sides have the same.
std::vector<std::string> allowances(const Job &job, const BySide<double> &of) {
  constexpr int widest = 24;
  const double usual = usual_allowance(of);
  std::vector<std::string> lines{allowance(job, usual)};
  for (const Side side : all_sides) {
    if (same(of[side], usual)) continue;
    const std::string next = fmt::format("{} {}", words::side_called(side), allowance(job, of[side]));
    const bool fits = columns(lines.back()) + columns(next) + 2 <= widest;
    lines.back() += fits ? ", " + next : ",";
    if (!fits) lines.push_back(next);
  }
  return lines;
}

/// The allowance of every side of every piece, if it is one.
std::optional<double> common_allowance(const Plan &plan) {
  const double first = plan.pieces.front().allowance[Side::top];
  const bool all = std::all_of(plan.pieces.begin(), plan.pieces.end(), [first](const PiecePlan &piece) {
    const auto &sides = piece.allowance.of_sides;
    return std::all_of(sides.begin(), sides.end(), [first](double each) { return same(each, first); });
  });
  return all ? std::optional(first) : std::nullopt;
}

std::string how_many(const Piece &piece) {
  if (!piece.mirrored || piece.cut < 2) return std::to_string(piece.cut);
  return fmt::format("{}, {}", piece.cut, piece.cut == 2 ? "a pair" : "in pairs");
}

bool marked_alike(const PiecePlan &piece) {
  const auto same_place = [](const PieceMark &a, const PieceMark &b) {
    return a.side == b.side && same(a.tape, b.tape);
  };
  return !piece.marks_mirrored || std::equal(piece.marks.begin(), piece.marks.end(), piece.marks_mirrored->begin(),
                                             piece.marks_mirrored->end(), same_place);
}

/// "sleeve, cuff and 3 more"
std::string few_of(const std::vector<std::string> &names) {
  constexpr std::size_t most_named = 8;
  if (names.size() <= most_named) return fmt::format("{}", fmt::join(names, ", "));
  return fmt::format("{} and {} more", fmt::join(names.begin(), names.begin() + most_named, ", "),
                     names.size() - most_named);
}

template <class Which> std::vector<std::string> names_of_pieces(const Job &job, const Plan &plan, const Which &which) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < plan.pieces.size(); ++i)
    if (which(plan.pieces[i])) names.push_back(printable(job.pieces.at(i).name));
  return names;
}

/// Each by its name, once.
std::vector<std::string> pieces_on(const Job &job, const ClothPlan &cloth) {
  std::vector<bool> there(job.pieces.size());
  for (const Placement &placed : cloth.lay)
    there.at(static_cast<std::size_t>(placed.piece.at)) = true;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < there.size(); ++i)
    if (there[i]) names.push_back(printable(job.pieces[i].name));
  return names;
}

std::string in_stock(const Job &job, const StockPlan &stock) {
  return is_imperial(job.unit) ? words::length(stock.is, job.tape())
                               : words::amount(stock.is, Length{stock.is}, job.unit);
}

bool is_washed(const ClothPlan &cloth) {
  return cloth.cloth.shrinkage.along > 0 || cloth.cloth.shrinkage.across > 0;
}

} // namespace

std::vector<bool> are_sizes_of_pieces(const Job &job, const Plan &plan) {
  std::vector<bool> are(job.lengths.size());
  const auto notice = [&](const Formula &size) {
    if (size.steps().size() != 1 || size.steps().front().code != Formula::Code::symbol) return;
    if (const auto length = job.length_of(size.steps().front().symbol))
      are[static_cast<std::size_t>(length->at)] = true;
  };
  for (std::size_t i = 0; i < plan.pieces.size(); ++i) {
    notice(job.pieces.at(i).across);
    notice(job.pieces[i].along);
  }
  return are;
}

std::string of_all_sizes(const Job &job, const Plan &plan) {
  const std::optional<double> common = common_allowance(plan);
  const std::string included = !common ? "allowances included"
                               : *common > 0
                                   ? fmt::format("with {} of allowance on every side", allowance(job, *common))
                                   : "without any allowance";
  return fmt::format("Cut sizes, {}; along is down the selvedge.", included);
}

Table sizes(const Job &job, const Plan &plan) {
  using Align = Table::Align;
  const Tape tape = job.tape();
  const std::string unit = inches_strung_to(tape.unit) ? "" : std::string(name(tape.unit));
  const Align figures = unit.empty() ? Align::right : Align::point;
  const bool allowances_told = !common_allowance(plan);
  Table table({{"", "piece", Align::left, Table::When::shortened},
               {"", "cut", Align::left},
               {"across", unit, figures},
               {"along", unit, figures},
               {"", "allowances", Align::left, Table::When::left_out}});
  for (std::size_t i = 0; i < plan.pieces.size(); ++i) {
    const Piece &asked = job.pieces.at(i);
    const PiecePlan &planned = plan.pieces[i];
    std::vector<std::string> lines{""};
    if (allowances_told) lines = allowances(job, planned.allowance);
    table.row({printable(asked.name), how_many(asked), words::place(planned.cut_across.tape, tape),
               words::place(planned.cut_along.tape, tape), lines.front()});
    for (std::size_t line = 1; line < lines.size(); ++line)
      table.row({"", "", "", "", lines[line]});
  }
  return table;
}

std::string sizes_between_seams(const Job &job, const Plan &plan) {
  const std::vector<bool> are_sizes = are_sizes_of_pieces(job, plan);
  std::vector<std::string> said;
  for (std::size_t i = 0; i < plan.lengths.size(); ++i) {
    const LengthPlan &planned = plan.lengths[i];
    const bool limited = planned.room && (planned.room->low.value_or(0) > 0 || planned.room->high);
    if (!are_sizes[i] || !planned.is || !(planned.found || limited)) continue;
    const std::string will_do = room_brief(job, planned);
    said.push_back(fmt::format("{} {}{}{}", printable(job.lengths.at(i).name), words::length(*planned.is, job.tape()),
                               planned.found ? ", chosen" : "", will_do.empty() ? "" : fmt::format(" ({})", will_do)));
  }
  if (said.empty()) return "";
  return fmt::format("Between seams, and in brackets what will do: {}.", fmt::join(said, "; "));
}

std::string others_of_pairs(const Job &job, const Plan &plan) {
  const auto differs = [](const PiecePlan &piece) { return !marked_alike(piece); };
  const std::vector<std::string> names = names_of_pieces(job, plan, differs);
  if (names.empty()) return "";
  const auto has_upright = [&](const PiecePlan &piece) {
    return differs(piece) && std::any_of(piece.marks.begin(), piece.marks.end(),
                                         [](const PieceMark &mark) { return !runs_across(mark.side); });
  };
  const bool upright = std::any_of(plan.pieces.begin(), plan.pieces.end(), has_upright);
  return fmt::format("The other of a pair ({}) is this one turned over: marked from the right along top and bottom{}.",
                     few_of(names), upright ? ", its left side as this one's right" : "");
}

std::string cloth_called_short(Cloth cloth) {
  cloth.name = short_name(std::string(std::string_view(cloth.name)));
  return words::cloth_called(cloth);
}

std::string cloth_said(const Job &job, const ClothPlan &cloth, bool alone) {
  const Tape tape = job.tape();
  const double width = cloth.cloth.width.value_or(Length{cloth.usable}).mm;
  const std::string called = fmt::format("{}, {} wide", cloth_called_short(cloth.cloth), words::length(width, tape));
  std::string text = cloth.stock ? fmt::format("From {} in stock of {}", in_stock(job, *cloth.stock), called)
                                 : fmt::format("Buy {} of {}", words::to_buy(cloth, job.unit), called);
  if (!same(width, cloth.usable))
    text += fmt::format(" ({} of it to use{})", words::length_down(cloth.usable, tape),
                        is_washed(cloth) ? " once washed" : "");
  if (!alone) text += fmt::format(", for {}", few_of(pieces_on(job, cloth)));
  return fmt::format("{}. {}", text, lay_said(job, cloth));
}

std::string stock_said(const Job &job, const StockPlan &stock) {
  const Tape tape = job.tape();
  const bool enough = stock.left >= -1e-6;
  if (std::fabs(stock.left) < 1e-6) return "nothing is left";
  return enough ? fmt::format("{} are left", words::length_down(std::max(stock.left, 0.0), tape))
                : fmt::format("{} more are wanted than there are", words::length_up(-stock.left, tape));
}

std::string lay_said(const Job &job, const ClothPlan &cloth) {
  const Tape tape = job.tape();
  std::string text = fmt::format("The pieces take {} of it", words::length_up(cloth.length, tape));
  if (!same(cloth.buy, cloth.length))
    text += fmt::format(" once washed, {} as bought", words::length_up(cloth.buy, tape));
  text += fmt::format(", {} used; ", words::percent(cloth.used));
  if (cloth.stock) text += stock_said(job, *cloth.stock) + "; ";
  return text + fmt::format("{}", cloth.shortest ? "nothing shorter is possible."
                                                 : fmt::format("no layout is shorter than {}.",
                                                               words::length_down(cloth.bound, tape)));
}

std::string_view savings_heading(const Plan &plan) {
  // Planned anew, lengths that are chosen within the cloth there is would take up what is saved.
  const bool chosen_within =
      std::any_of(plan.cloth.begin(), plan.cloth.end(), [](const ClothPlan &cloth) { return cloth.stock.has_value(); });
  if (chosen_within) return "What would save cloth, if no other length changes";
  return plan.savings.size() > 1 ? "What would save cloth (one of these)" : "What would save cloth";
}

std::vector<std::string> savings_said(const Job &job, const Plan &plan) {
  constexpr std::size_t most_savings = 5;
  std::vector<std::string> said;
  for (std::size_t i = 0; i < std::min(plan.savings.size(), most_savings); ++i)
    said.push_back(words::saving(job, plan.savings[i]));
  return said;
}

std::string not_laid(const Job &job, const Plan &plan) {
  const std::vector<std::string> names =
      names_of_pieces(job, plan, [](const PiecePlan &piece) { return piece.too_wide; });
  return names.empty() ? "" : fmt::format("Too wide for their cloth, and left out of this: {}.", few_of(names));
}

} // namespace gatherwright::report
