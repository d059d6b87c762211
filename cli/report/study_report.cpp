// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/study_report.hpp"

#include "cli/report/json_text.hpp"
#include "cli/report/plan_text.hpp"
#include "cli/report/table.hpp"
#include "cli/words/columns.hpp"
#include "cli/words/figures.hpp"
#include "gatherwright/limits.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace gatherwright::report {

namespace {

using Lay = JsonText::Lay;

struct NamedColumn {
  std::string_view name;
  const cloth::FittedColumn &column;
};

std::array<NamedColumn, 3> columns_of(const cloth::StudyFit &fit) {
  return {NamedColumn{"least", fit.least}, NamedColumn{"ideal", fit.ideal}, NamedColumn{"most", fit.most}};
}

std::string counted(int count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

/// A factor as what it is more than 1: "18 %".
std::string percent_over(double factor) {
  return words::decimals(100 * (factor - 1), 0) + " %";
}

std::string headline(int cloths, int still_empty) {
  std::string text = fmt::format("A study of {}, beside the table over weights", counted(cloths, "cloth", "cloths"));
  if (still_empty > 0) text += fmt::format(" ({} without figures yet)", counted(still_empty, "more is", "more are"));
  return wrapped(text, "", "", text_width);
}

/// Whether a figure has moved by more than it is known to. A row without a cloth near it moves with its neighbours
/// only.
bool would_change(const cloth::FittedColumn &column, std::size_t row) {
  const cloth::FittedFigure &figure = column.rows[row];
  return column.near[row] > 0 && std::abs(figure.fitted - figure.now) > figure.spread;
}

std::string table_of(const cloth::StudyFit &fit) {
  std::vector<Table::Column> headings{{"cloth", "g/m2"}, {"cloths", "near"}};
  for (const NamedColumn &each : columns_of(fit)) {
    headings.push_back({std::string(each.name), "now"});
    headings.push_back({"", "fitted", Table::Align::left});
  }
  Table table(std::move(headings));
  for (std::size_t row = 0; row < cloth::weight_rows; ++row) {
    std::vector<std::string> cells{words::trimmed(cloth::row_grams[row], 0), std::to_string(fit.near[row])};
    for (const NamedColumn &each : columns_of(fit)) {
      const cloth::FittedFigure &figure = each.column.rows[row];
      cells.push_back(words::decimals(figure.now, 2));
      cells.push_back(fmt::format("{} +-{}{}", words::decimals(figure.fitted, 2), words::decimals(figure.spread, 2),
                                  would_change(each.column, row) ? " *" : ""));
    }
    table.row(std::move(cells));
  }
  return table.lines("  ", text_width);
}

std::string changes(const cloth::StudyFit &fit) {
  std::string text;
  for (const NamedColumn &each : columns_of(fit))
    for (std::size_t row = 0; row < cloth::weight_rows; ++row)
      if (const cloth::FittedFigure &figure = each.column.rows[row]; would_change(each.column, row))
        text += fmt::format("{}{} at {} g/m2 {} in place of {}", text.empty() ? "" : ", ", each.name,
                            words::trimmed(cloth::row_grams[row], 0), words::decimals(figure.fitted, 2),
                            words::decimals(figure.now, 2));
  return text.empty() ? "Nothing in the table has moved by more than its spread."
                      : fmt::format("What has moved by more than its spread (*): {}.", text);
}

std::string scatter(const NamedColumn &each) {
  if (each.column.cloths == 0) return fmt::format("{}: no cloth has a figure for it.", each.name);
  std::string text =
      fmt::format("{}: {}; the extra of a cloth lies {} off the fitted figures, either way", each.name,
                  counted(each.column.cloths, "cloth", "cloths"), percent_over(each.column.between_cloths.value_or(1)));
  if (each.column.between_people)
    text += fmt::format(", and people differ by {} on one cloth", percent_over(*each.column.between_people));
  return text + ".";
}

std::string of_cloths(const cloth::Factor &factor) {
  return factor.of < 2 ? "one cloth"
                       : fmt::format("{} cloths, each {} off it, either way", factor.of, percent_over(factor.spread));
}

std::string beside_the_table(const cloth::StudyFit &fit) {
  std::string text;
  if (fit.density)
    text += wrapped(fmt::format("Thickness: weight / {} in mm in place of weight / {} ({}).",
                                words::decimals(fit.density->mean, 0), words::decimals(cloth::grams_per_mm, 0),
                                of_cloths(*fit.density)),
                    "  ", "    ", text_width);
  if (fit.packing)
    text += wrapped(fmt::format("Drawn up tight: {} times what is reckoned from the thickness ({}).",
                                words::decimals(fit.packing->mean, 2), of_cloths(*fit.packing)),
                    "  ", "    ", text_width);
  return text.empty() ? text : "\nBeside the table\n" + text;
}

void factor_json(JsonText &json, const Key &key, const std::optional<cloth::Factor> &factor) {
  if (!factor) return;
  json.key(key);
  json.open_object(Lay::one_line);
  json.number_field("mean", factor->mean);
  json.number_field("spread", factor->spread);
  json.integer_field("cloths", factor->of);
  json.close();
}

void column_json(JsonText &json, const NamedColumn &each) {
  json.key(each.name);
  json.open_object();
  json.integer_field("cloths", each.column.cloths);
  if (each.column.between_cloths) json.number_field("between_cloths", *each.column.between_cloths);
  if (each.column.between_people) json.number_field("between_people", *each.column.between_people);
  json.key("rows");
  json.open_array();
  for (std::size_t row = 0; row < cloth::weight_rows; ++row) {
    const cloth::FittedFigure &figure = each.column.rows[row];
    json.open_object(Lay::one_line);
    json.number_field("weight", cloth::row_grams[row]);
    json.number_field("now", figure.now);
    json.number_field("fitted", figure.fitted);
    json.number_field("spread", figure.spread);
    json.truth_field("would_change", would_change(each.column, row));
    json.close();
  }
  json.close();
  json.close();
}

} // namespace

std::string study_text(const cloth::StudyFit &fit, int cloths, int still_empty) {
  std::string text = headline(cloths, still_empty) + "\n" + table_of(fit) + "\n" +
                     wrapped(changes(fit), "", "", text_width) + "\nHow far they lie apart\n";
  for (const NamedColumn &each : columns_of(fit))
    text += wrapped(scatter(each), "  ", "    ", text_width);
  text += beside_the_table(fit) + "\n";
  return text + wrapped("The table is taken to be right to within 25 % of the extra, and a cloth to lie 25 % off it: "
                        "both are our model. So one cloth at the weight of a row moves it half the way. Nothing is "
                        "changed by this; the figures are to be read before they are believed.",
                        "", "", text_width);
}

std::string study_json(const cloth::StudyFit &fit, int cloths, int still_empty) {
  JsonText json;
  json.open_object();
  json.text_field("format", "gatherwright study 1");
  json.integer_field("cloths", cloths);
  json.integer_field("still_empty", still_empty);
  json.key("near");
  json.open_array(Lay::one_line);
  for (const int near : fit.near)
    json.integer(near);
  json.close();
  for (const NamedColumn &each : columns_of(fit))
    column_json(json, each);
  factor_json(json, "density", fit.density);
  factor_json(json, "packing", fit.packing);
  json.close();
  return json.take();
}

} // namespace gatherwright::report
