// SPDX-License-Identifier: GPL-3.0-or-later
#include "cloth/study.hpp"

#include "cloth/limits.hpp"

#include <Eigen/Dense>
#include <unsupported/Eigen/NonLinearOptimization>
#include <unsupported/Eigen/NumericalDiff>

#include <algorithm>
#include <cmath>

namespace gatherwright::cloth {
namespace {

constexpr int most_evaluations = 2000; ///< of the curve through a column; a dozen or two is usual
constexpr double converged = 1e-12;    ///< relative, of the sum of squares and of the figures

/// What one cloth says of a column: the logarithm of its extra, without what its thickness and stiffness do to it.
struct Datum {
  Weight weight;
  double log_extra = 0;
};

/// Residuals of a column for Eigen's least squares, over the logarithms by which its extras are moved.
struct Residuals {
  using Scalar = double;
  using InputType = Eigen::VectorXd;
  using ValueType = Eigen::VectorXd;
  using JacobianType = Eigen::MatrixXd;
  enum { InputsAtCompileTime = Eigen::Dynamic, ValuesAtCompileTime = Eigen::Dynamic };

  const WeightColumn &now;
  const std::vector<Datum> &data;

  int inputs() const { return static_cast<int>(weight_rows); }
  int values() const { return static_cast<int>(data.size() + weight_rows); }

  int operator()(const Eigen::VectorXd &moved, Eigen::VectorXd &residuals) const {
    WeightColumn extra{};
    for (std::size_t i = 0; i < weight_rows; ++i)
      extra[i] = (now[i] - 1) * std::exp(moved[static_cast<Eigen::Index>(i)]);
    const CurveOverWeights curve(extra);
    Eigen::Index row = 0;
    for (const Datum &datum : data)
      residuals[row++] = (datum.log_extra - std::log(curve.at(datum.weight))) / cloth_spread;
    for (std::size_t i = 0; i < weight_rows; ++i)
      residuals[row++] = moved[static_cast<Eigen::Index>(i)] / table_spread;
    return 0;
  }
};

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

/// The figures that are best, with their spread.
void fit_column(const WeightColumn &now, const std::vector<Datum> &data, FittedColumn &column) {
  Eigen::NumericalDiff<Residuals, Eigen::Central> residuals(Residuals{now, data});
  Eigen::LevenbergMarquardt<Eigen::NumericalDiff<Residuals, Eigen::Central>> search(residuals);
  search.parameters.maxfev = most_evaluations;
  search.parameters.ftol = search.parameters.xtol = converged;
  Eigen::VectorXd moved = Eigen::VectorXd::Zero(residuals.inputs());
  search.minimize(moved);

  Eigen::MatrixXd slopes(residuals.values(), residuals.inputs());
  residuals.df(moved, slopes);
  const Eigen::MatrixXd covariance =
      (slopes.transpose() * slopes).ldlt().solve(Eigen::MatrixXd::Identity(residuals.inputs(), residuals.inputs()));
  Eigen::VectorXd at_best(residuals.values());
  residuals(moved, at_best);

  // As many figures as the cloths themselves settle; the rest is the table's.
  const double settled = residuals.inputs() - covariance.trace() / (table_spread * table_spread);
  const double left = std::max(1.0, static_cast<double>(data.size()) - settled);
  const double found = std::sqrt(at_best.head(static_cast<Eigen::Index>(data.size())).squaredNorm() / left);
  if (!data.empty()) column.between_cloths = std::exp(found * cloth_spread);
  for (std::size_t i = 0; i < weight_rows; ++i) {
    const auto row = static_cast<Eigen::Index>(i);
    const double extra = (now[i] - 1) * std::exp(moved[row]);
    // Where the cloths lie further off than was thought, the figures are known less well by as much.
    column.rows[i] = {now[i], 1 + extra, extra * std::sqrt(covariance(row, row)) * std::max(1.0, found)};
  }
}

/// `measured`: what a cloth's thickness and stiffness multiply its extra by.
template <class Measured> FittedColumn fitted(const WeightColumn &now, std::span<const StudiedCloth> cloths,
                                              std::vector<double> StudiedCloth::*figures, Measured measured) {
  FittedColumn column;
  std::vector<Datum> data;
  double squares = 0;
  int more_than_one = 0;
  for (const StudiedCloth &cloth : cloths) {
    if ((cloth.*figures).empty()) continue;
    const double mean = mean_of_people(cloth.*figures, squares, more_than_one);
    data.push_back({weight(cloth.fabric), mean - std::log(measured(cloth.fabric))});
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

std::size_t nearest_row(Weight weight) {
  std::size_t row = 0;
  while (row + 1 < weight_rows && weight.grams * weight.grams > row_grams[row] * row_grams[row + 1])
    ++row;
  return row;
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
