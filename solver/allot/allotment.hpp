// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/allot/scheme.hpp"
#include "solver/optimum/elimination.hpp"
#include "solver/optimum/solver.hpp"

#include <array>
#include <optional>
#include <vector>

namespace gatherwright::allot {

/// A scheme solved, with the found lengths put on the tape.
struct Allotment {
  bool conflict = false;
  bool indistinct = false;            ///< what must hold cannot be told apart at this precision: nothing else is set
  bool proved = true;                 ///< else there is no certificate: that nothing better exists is not known
  bool too_much_work = false;         ///< the solver's bound was passed: nothing else is set
  optimum::Multipliers contradiction; ///< of a conflict
  optimum::Residuals certificate;     ///< of the joint optimum; feasibility also of the unknowns as cut
  std::vector<double> exact;          ///< unknowns at the joint optimum
  std::vector<double> unknowns;       ///< as cut: found lengths on the tape
  std::vector<char> off_tape;         ///< per free length: no tape step would do, it is left exact
  std::vector<char> loose;            ///< unknowns that can still move though nothing is lost
};

/// Solves, then puts the free lengths on the tape one after another in the job's order: each on the step nearest to its
/// value as solved anew with the earlier ones held, that keeps what must hold and passes the limits no further than is
/// inevitable; else on the next nearest on the other side; else, where the limits cannot be kept anyway, on that of the
/// two that passes them least; else it is left as it is. `solver` is only room to work in. `start` is taken where it
/// suits the scheme; the answer is the same, to the bit, without it. `limits_missed`: limits cannot be kept anyway,
/// elsewhere.
Allotment allot(const Scheme &scheme, const Tape &tape, optimum::Solver &solver,
                const optimum::Elimination *start = nullptr, bool limits_missed = false);

/// Of all pairs of named conditions that are a rule, a range's end or a given length, the one whose rows are nearest to
/// parallel; nothing where there are not two.
std::optional<std::array<Condition, 2>> nearest_to_parallel(const Scheme &scheme);

/// The job's named conditions that conflict, and how far they are from holding. Where the work is spent before each has
/// been tried, some may have no part in it.
struct NamedConflict {
  std::vector<Condition> conditions;
  bool irreducible = true;
  double apart = 0;
};
NamedConflict named_conflict(const Scheme &scheme, const optimum::Multipliers &contradiction, optimum::Work &work);

} // namespace gatherwright::allot
