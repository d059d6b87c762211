// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/study.hpp"

#include "gatherwright/limits.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace gatherwright::cloth {
namespace {

using Rows = Eigen::Matrix<double, static_cast<int>(weight_rows), 1>;
using BetweenRows = Eigen::Matrix<double, static_cast<int>(weight_rows), static_cast<int>(weight_rows)>;

/// What one cloth says of a column: the logarithm of its extra over the table's, thickness and stiffness allowed for.
struct Datum {
  Weight weight;
  double off = 0;
};

/// How much of what each row moves a cloth of this weight moves: in proportion to its place between two rows, on the
/// scale of logarithms.
Rows shares(Weight weight) {
  Rows share = Rows::Zero();
  const double grams = std::clamp(weight.grams, lightest.grams, heaviest.grams);
  std::size_t row = 0;
  while (row + 2 < weight_rows && grams >= row_grams[row + 1])
    ++row;
  const double beyond = std::log(grams / row_grams[row]) / std::log(row_grams[row + 1] / row_grams[row]);
  share[static_cast<Eigen::Index>(row)] = 1 - beyond;
  share[static_cast<Eigen::Index>(row + 1)] = beyond;
  return share;
}

std::size_t nearest_row(Weight weight) {
  std::size_t row = 0;
  while (row + 1 < weight_rows && weight.grams * weight.grams > row_grams[row] * row_grams[row + 1])
    ++row;
  return row;
}

double log_extra(double fullness) {
  return std::log(std::max(fullness - 1, least_studied_extra));
}

/// The mean over the people who judged a cloth, and what they differ by added to the sum over all cloths.
double mean_of_people(const std::vector<double> &figures, double &squares, int &more_than_one) {
  double mean = 0;
  for (const double figure : figures)
    mean += log_extra(figure) / static_cast<double>(figures.size());
  for (const double figure : figures)
    squares += (log_extra(figure) - mean) * (log_extra(figure) - mean);
  more_than_one += static_cast<int>(figures.size()) - 1;
  return mean;
}

/// The figures that are best, with their spread. Seven unknowns, each held by its prior: the normal equations are as
/// well conditioned as the cloths are few.
void fit_column(const WeightColumn &now, const std::vector<Datum> &data, FittedColumn &column) {
  BetweenRows normal = BetweenRows::Identity() / (table_spread * table_spread);
  Rows wanted = Rows::Zero();
  for (const Datum &datum : data) {
    const Rows share = shares(datum.weight);
    normal += share * share.transpose() / (cloth_spread * cloth_spread);
    wanted += share * datum.off / (cloth_spread * cloth_spread);
  }
  const BetweenRows covariance = normal.inverse();
  const Rows moved = covariance * wanted;

  // As many figures as the cloths themselves settle; the rest is the table's.
  const double settled = static_cast<double>(weight_rows) - covariance.trace() / (table_spread * table_spread);
  double squares = 0;
  for (const Datum &datum : data)
    squares += std::pow(datum.off - shares(datum.weight).dot(moved), 2);
  const double found = std::sqrt(squares / std::max(1.0, static_cast<double>(data.size()) - settled));
  if (!data.empty()) column.between_cloths = std::exp(found);
  for (std::size_t i = 0; i < weight_rows; ++i) {
    const auto row = static_cast<Eigen::Index>(i);
    const double extra = (now[i] - 1) * std::exp(moved[row]);
    // Where the cloths lie further off than was thought, the figures are known less well by as much.
    column.rows[i] = {now[i], 1 + extra, extra * std::sqrt(covariance(row, row)) * std::max(1.0, found / cloth_spread)};
  }
}

/// `measured`: what a cloth's thickness and stiffness multiply its extra by.
template <class Measured> FittedColumn fitted(const WeightColumn &now, std::span<const StudiedCloth> cloths,
                                              std::vector<double> StudiedCloth::*figures, Measured measured) {
  const CurveOverWeights curve(now);
  FittedColumn column;
  std::vector<Datum> data;
  double squares = 0;
  int more_than_one = 0;
  for (const StudiedCloth &cloth : cloths) {
    if ((cloth.*figures).empty()) continue;
    const double mean = mean_of_people(cloth.*figures, squares, more_than_one);
    ++column.near[nearest_row(weight(cloth.fabric))];
    const double expected = (curve.at(weight(cloth.fabric)) - 1) * measured(cloth.fabric);
    data.push_back({weight(cloth.fabric), mean - std::log(expected)});
  }
  column.cloths = static_cast<int>(data.size());
  if (more_than_one > 0) column.between_people = std::exp(std::sqrt(squares / more_than_one));
  fit_column(now, data, column);
  return column;
}

std::optional<Factor> factor_of(const std::vector<double> &logarithms) {
  if (logarithms.empty()) return std::nullopt;
  const Eigen::Map<const Eigen::ArrayXd> all(logarithms.data(), static_cast<Eigen::Index>(logarithms.size()));
  const double mean = all.mean();
  const double spread =
      logarithms.size() < 2 ? 0.0 : std::sqrt((all - mean).square().sum() / static_cast<double>(logarithms.size() - 1));
  return Factor{std::exp(mean), std::exp(spread), static_cast<int>(logarithms.size())};
}

} // namespace

StudyFit fit(std::span<const StudiedCloth> cloths) {
  const auto as_it_is = [](const Fabric &) { return 1.0; };
  const auto by_body = [](const Fabric &fabric) { return thickness_factor(fabric) * bending_factor(fabric); };
  StudyFit found;
  found.least = fitted(row_least, cloths, &StudiedCloth::least, as_it_is);
  found.ideal = fitted(row_ideal, cloths, &StudiedCloth::ideal, by_body);
  found.most = fitted(row_most, cloths, &StudiedCloth::most, by_body);
  Gathering gathering;
  gathering.stitch = study_stitch;
  std::vector<double> densities;
  std::vector<double> packings;
  for (const StudiedCloth &cloth : cloths) {
    ++found.near[nearest_row(weight(cloth.fabric))];
    if (cloth.fabric.thickness) densities.push_back(std::log(weight(cloth.fabric).grams / cloth.fabric.thickness->mm));
    if (cloth.tight) packings.push_back(std::log(*cloth.tight / packed(cloth.fabric, gathering)));
  }
  found.density = factor_of(densities);
  found.packing = factor_of(packings);
  return found;
}

} // namespace gatherwright::cloth
