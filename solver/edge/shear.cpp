// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/shear.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace gatherwright::edge {

namespace {

constexpr std::size_t nodes = 8;

double shear_of(Point heading, Point warp) {
  return std::min(1.0, 2 * std::abs(dot(heading, warp) * cross(heading, warp)) / dot(heading, heading));
}

/// Chebyshev's nodes of the second kind, ends included, so that neighbouring pieces meet.
const std::array<double, nodes> &chebyshev() {
  static const std::array<double, nodes> places = [] {
    std::array<double, nodes> z{};
    for (std::size_t i = 0; i < nodes; ++i) {
      z[i] = -std::cos(static_cast<double>(i) * std::numbers::pi / (nodes - 1));
    }
    return z;
  }();
  return places;
}

/// The polynomial through values at Chebyshev's nodes: divided differences, multiplied out.
std::array<double, nodes> interpolate(std::array<double, nodes> values) {
  const std::array<double, nodes> &z = chebyshev();
  for (std::size_t order = 1; order < nodes; ++order) {
    for (std::size_t i = nodes - 1; i >= order; --i) {
      values[i] = (values[i] - values[i - 1]) / (z[i] - z[i - order]);
    }
  }
  std::array<double, nodes> coefficients{};
  for (std::size_t i = nodes; i-- > 0;) {
    for (std::size_t k = nodes - 1; k > 0; --k)
      coefficients[k] = coefficients[k - 1] - z[i] * coefficients[k];
    coefficients[0] = values[i] - z[i] * coefficients[0];
  }
  return coefficients;
}

double polynomial(const std::array<double, nodes> &coefficients, double z) {
  double value = 0;
  for (std::size_t k = nodes; k-- > 0;)
    value = value * z + coefficients[k];
  return value;
}

double antiderivative(const std::array<double, nodes> &coefficients, double z) {
  double value = 0;
  for (std::size_t k = nodes; k-- > 0;)
    value = value * z + coefficients[k] / static_cast<double>(k + 1);
  return value * z;
}

double place_of(const Shear::Piece &piece, double y) {
  return std::clamp(2 * (y - piece.start) / piece.length - 1, -1.0, 1.0);
}

class Tabulator {
public:
  explicit Tabulator(Point warp, const ShearTable *table = nullptr) : warp_(warp), table_(table) {}

  void add(const StitchingLine::Run &run) {
    const Shape &shape = run.moved.shape;
    if (run.from == run.to || shape.straight()) {
      add_constant(run.length, shear_of(shape.heading(run.from), warp_));
      return;
    }
    const double before = shear_.length;
    if (table_ && run.whole_turned)
      for (const ShearTable::Piece &piece : table_->of_stretch(run.stretch))
        add_piece(piece.length, piece.coefficients);
    else
      add_turning(run);
    shear_.length = before + run.length; // as the line has it, without the rounding of the sum
  }

  Shear take() { return std::move(shear_); }

private:
  void add_turning(const StitchingLine::Run &run) {
    const Shape &shape = run.moved.shape;
    // Parts over which the shear only rises or only falls: between the directions of warp, weft and true bias, and
    // where the edge bends one way.
    std::vector<double> bounds{run.from, run.to};
    const auto split = [&](const Places &places) {
      for (const double t : places) {
        if (t > run.from && t < run.to) bounds.push_back(t);
      }
    };
    const Point weft = right_of(warp_);
    for (const Point direction : {warp_, weft, warp_ + weft, warp_ - weft})
      split(shape.parallels(direction));
    split(shape.inflections());
    std::sort(bounds.begin(), bounds.end());
    for (std::size_t i = 1; i < bounds.size(); ++i)
      add_monotone(run.moved, bounds[i - 1], bounds[i]);
  }

  void add_piece(double length, const std::array<double, nodes> &coefficients) {
    if (!(length > 0)) return;
    shear_.pieces.push_back({shear_.length, length, coefficients});
    shear_.length += length;
  }

  void add_constant(double length, double shear) { add_piece(length, {shear < no_shear ? 0.0 : shear}); }

  void add_monotone(const Moved &moved, double from, double to) {
    struct Part {
      double from, to;
      double error; ///< of the part it is half of
      int depth;
    };
    // A bound that is not met: where the moved curve has a cusp at an end, the shear goes as a root of the length, but
    // evenly with the parameter, so that a half is off by half as much, and one that is not has come down to rounding.
    constexpr int deepest = 40;
    std::vector<Part> waiting{{from, to, std::numeric_limits<double>::infinity(), 0}};
    while (!waiting.empty()) {
      const Part part = waiting.back();
      waiting.pop_back();
      const double length = moved.length(part.from, part.to);
      if (!(length > 0)) continue;
      const auto exact = [&](double z) {
        const double t = moved.foot(part.from, part.to, length, 0.5 * (z + 1) * length).parameter;
        return shear_of(moved.shape.heading(t), warp_);
      };
      std::array<double, nodes> values{};
      for (std::size_t i = 0; i < nodes; ++i)
        values[i] = exact(chebyshev()[i]);
      const std::array<double, nodes> coefficients = interpolate(values);
      double error = 0;
      for (const double z : tests)
        error = std::max(error, std::abs(polynomial(coefficients, z) - exact(z)));
      const bool settled = error <= 0.5 * shear_error || error > 0.75 * part.error || part.depth == deepest;
      if (settled) {
        const bool none = *std::max_element(values.begin(), values.end()) < no_shear;
        add_piece(length, none ? std::array<double, nodes>{} : coefficients);
        continue;
      }
      const double middle = 0.5 * (part.from + part.to);
      waiting.push_back({middle, part.to, error, part.depth + 1});
      waiting.push_back({part.from, middle, error, part.depth + 1});
    }
  }

  // Places between nodes, next to the middle and to the ends, where an error shows.
  static constexpr std::array<double, 4> tests{-0.97, -0.45, 0.08, 0.78};

  Point warp_;
  const ShearTable *table_;
  Shear shear_;
};

} // namespace

Point warp_direction(double degrees) {
  const double turn = std::fmod(degrees, 360);
  const double quarter = std::round(turn / 90);
  // Whole quarters are taken off first, so that the warp along the page is exactly along it.
  const double rest = (turn - 90 * quarter) * std::numbers::pi / 180;
  Point direction{std::cos(rest), -std::sin(rest)};
  const int quarters = (static_cast<int>(quarter) % 4 + 4) % 4;
  for (int i = 0; i < quarters; ++i)
    direction = -1.0 * right_of(direction);
  return {direction.x + 0.0, direction.y + 0.0};
}

std::optional<ShearTable> ShearTable::of(const StitchingLine &line, Point warp, std::size_t most_pieces) {
  ShearTable table;
  // To its very end: of the last stretch, rounding may leave a little beyond the length of the line.
  for (const StitchingLine::Run &run : line.runs(0, std::numeric_limits<double>::infinity())) {
    if (!run.whole_turned) continue;
    table.ends_.resize(run.stretch, table.pieces_.size()); // those before it that have none
    Tabulator tabulator(warp);
    tabulator.add(run);
    const Shear shear = tabulator.take();
    for (const Shear::Piece &piece : shear.pieces)
      table.pieces_.push_back({piece.length, piece.coefficients});
    table.ends_.push_back(table.pieces_.size());
    if (table.pieces_.size() > most_pieces) return std::nullopt;
    if (const double area = integral(shear, 0, shear.length); area > table.surest_) {
      table.surest_from_ = run.start;
      table.surest_to_ = run.start + run.length;
      table.surest_ = area;
    }
  }
  return table;
}

bool ShearTable::surely_shears(double from, double to) const {
  return surest_from_ >= from && surest_to_ <= to && surest_ > 2 * no_shear * (to - from);
}

std::span<const ShearTable::Piece> ShearTable::of_stretch(std::size_t stretch) const {
  const std::size_t from = stretch == 0 ? 0 : ends_[stretch - 1];
  return std::span(pieces_).subspan(from, ends_[stretch] - from);
}

Shear shear_along(const StitchingLine &line, double from, double to, Point warp, const ShearTable *table) {
  Tabulator tabulator(warp, table);
  for (const StitchingLine::Run &run : line.runs(from, to))
    tabulator.add(run);
  return tabulator.take();
}

double value(const Shear::Piece &piece, double y) {
  return std::clamp(polynomial(piece.coefficients, place_of(piece, y)), 0.0, 1.0);
}

double value(const Shear &shear, double y) {
  const auto after = std::upper_bound(shear.pieces.begin(), shear.pieces.end(), y,
                                      [](double place, const Shear::Piece &piece) { return place < piece.start; });
  return value(after == shear.pieces.begin() ? shear.pieces.front() : *(after - 1), y);
}

double integral(const Shear::Piece &piece, double from, double to) {
  const double low = antiderivative(piece.coefficients, place_of(piece, from));
  return 0.5 * piece.length * (antiderivative(piece.coefficients, place_of(piece, to)) - low);
}

double integral(const Shear &shear, double from, double to) {
  double sum = 0;
  for (const Shear::Piece &piece : shear.pieces) {
    if (piece.start + piece.length > from && piece.start < to) sum += integral(piece, from, to);
  }
  return sum;
}

double mean(const Shear &shear) {
  return shear.length > 0 ? integral(shear, 0, shear.length) / shear.length : 0;
}

} // namespace gatherwright::edge
