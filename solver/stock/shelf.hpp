// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cloths.hpp"
#include "gatherwright/job.hpp"
#include "solver/allot/scheme.hpp"
#include "solver/layout/arrangement.hpp"
#include "solver/layout/lay.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <utility>
#include <vector>

/// Lengths chosen so that their pieces come out of the cloth that there is. Millimetres.
namespace gatherwright::stock {

/// Which way a length moves the sizes of pieces that must fit.
enum class Way {
  grows,   ///< none is smaller for it
  shrinks, ///< none is larger
  mixed,
};

/// The cloths of a job of which there is only so much, and what is cut from them, as functions of the free lengths in
/// question. What fits and what does not is remembered: larger pieces never need less, and what was laid in some way
/// may be laid like that at other sizes. Layouts are looked for only where neither that nor a bound has an answer.
class Shelf {
public:
  /// `job` is settled, the scheme is of it. Both must outlive this.
  Shelf(const Job &job, const allot::Scheme &scheme);

  struct Limited {
    ClothId at;
    double most = 0;         ///< that a layout may take, once washed
    std::vector<int> pieces; ///< of the job
  };
  const std::vector<Limited> &cloths() const { return cloths_; }

  /// Columns of the free lengths that pieces of cloths which are not put aside depend on, in the job's order, and which
  /// way each moves them.
  const std::vector<int> &columns() const { return columns_; }
  const std::vector<Way> &ways() const { return ways_; }

  /// Whether the pieces of a cloth that depend on no free length fit by themselves; nothing where that is not known.
  std::optional<bool> fixed_fit(std::size_t cloth);

  /// From now on that cloth is as long as anybody likes.
  void put_aside(std::size_t cloth);
  bool is_aside(std::size_t cloth) const { return aside_[cloth] != 0; }

  /// Whether all pieces of a cloth fit, with the lengths at these values. What can be neither found nor excluded counts
  /// as not fitting, and is remembered as unknown.
  bool fits(std::size_t cloth, std::span<const double> lengths);
  /// Of all cloths that are not aside, but those left out.
  bool fits(std::span<const double> lengths, std::span<const char> left_out = {});

  bool all_known(std::size_t cloth) const { return unknown_[cloth] == 0; }
  /// How often a layout was looked for.
  int calls() const { return calls_; }
  void allow(int calls) { most_calls_ = calls; }
  bool spent() const { return calls_ >= most_calls_; }

private:
  /// constant + sum of coefficient x length in question
  struct Form {
    double constant = 0;
    std::vector<std::pair<int, double>> terms;

    double at(std::span<const double> lengths) const;
  };
  struct Sizes {
    Form across, along; ///< as cut
  };

  Form form_of(const Affine &affine, double allowances) const;
  void find_columns();
  std::optional<bool> asked(std::size_t cloth, const std::vector<double> &sizes);
  std::optional<bool> laid(std::size_t cloth, const std::vector<double> &sizes);
  std::optional<bool> laid(std::size_t cloth, const layout::Problem &problem);
  bool fits_arranged(std::size_t cloth, const layout::Problem &problem);
  std::vector<double> sizes_at(std::size_t cloth, std::span<const double> lengths, bool fixed_only) const;

  const Job &job_;
  const allot::Scheme &scheme_;
  Cloths of_job_;
  std::vector<Limited> cloths_;
  std::vector<char> aside_;
  std::vector<int> unknown_;
  std::vector<int> columns_;
  std::vector<Way> ways_;
  std::vector<std::vector<Sizes>> sizes_;                                     ///< per cloth, as its pieces
  std::vector<std::vector<std::vector<double>>> known_to_fit_, known_not_to_; ///< per cloth; neither holds another
  std::vector<std::vector<layout::Arrangement>> arrangements_;                ///< per cloth; the last used first
  int calls_ = 0;
  int most_calls_ = 1'000;
};

} // namespace gatherwright::stock
