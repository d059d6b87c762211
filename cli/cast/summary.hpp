// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/cast/wearers.hpp"
#include "gatherwright/plan.hpp"

#include <string>
#include <vector>

/// What the cutter is told of a cast at its end.
namespace gatherwright::cli::cast {

/// Wearers named in each of its two lists, at most.
constexpr std::size_t most_named = 20;

/// What is told of one wearer. The texts are lines, each with its end; empty where there is nothing to tell.
struct OfWearer {
  std::string not_within; ///< the verdict, the first finding and the first remedy
  std::string filled;     ///< the measures whose cells are empty
};

/// The conflict, or else the first of what is wrong with a plan; empty where nothing is.
std::string first_reason(const Job &job, const Plan &plan);

/// `job` is the wearer's. Measures that have no column are not told here: they are the job's for everyone.
OfWearer told_of(const Job &job, const Plan &plan, const Wearer &wearer, const Header &header);

/// Gathers what is told of the wearers in the order of the list; keeps no more than it will say.
class Summary {
public:
  void add(const OfWearer &wearer);
  bool all_within() const { return not_within_ == 0; }

  /// The whole text. `own` is the job as it was written; `cloth`: what is told of the cloth for all, in lines.
  std::string text(const Job &own, const Header &header, const std::string &folder, const std::string &cloth) const;

private:
  long long wearers_ = 0;
  long long not_within_ = 0;
  long long filled_ = 0;
  std::string not_within_lines_;
  std::string filled_lines_;
};

} // namespace gatherwright::cli::cast
