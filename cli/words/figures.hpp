// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/quantity.hpp"

#include <string>

/// Numbers as they stand in a sentence. Lengths are millimetres.
namespace gatherwright::words {

/// With so many decimals, and no minus before a zero; a very large number in powers of ten.
std::string decimals(double value, int places);

/// As `decimals`, with what is 0 at the end left out.
std::string trimmed(double value, int places);

/// "2.50 to 1".
std::string to_one(double fullness);

/// "165 g/m2".
std::string weight(double grams);

/// A fullness without its "to 1": two decimals, none above 10.
std::string ratio(double fullness);

/// How far gathers stand out: where inches are told, to the nearest 1/32 in.
std::string height(double mm, Unit unit);

/// A small length where it is read off no tape: "4 mm", "1.6 mm"; in a job in inches as a fraction, to the nearest 1/16
/// in, or below that as a decimal: "1/2 in", "0.03 in".
std::string small_length(double mm, Unit unit = Unit::mm);

/// The same of what comes again and again, stitches or folds: "4 mm", "1/2 in", "16 to the inch".
std::string stitch(double mm, Unit unit);

/// How a place is read off the tape, without a unit where there is only one: "4.6", "~4.6" where it is off the tape.
std::string place(double mm, const Tape &tape);

/// A length read off the tape with its unit, "about" before it where it is off the tape.
std::string length(double mm, const Tape &tape);

/// A length to the nearest step of the tape, where no more is meant.
std::string nearest_length(double mm, const Tape &tape);

/// A length read as finely as an ordinary tape has it, to the millimetre or 1/16 in, where the job's own is coarser.
std::string fine_length(double mm, const Tape &tape);

/// A length on the tape at or below `mm`, at or above it: what still holds where `mm` is the limit.
std::string length_down(double mm, const Tape &tape);
std::string length_up(double mm, const Tape &tape);

/// A value and the limit it passes, with as many decimals as it takes to tell them apart; where it takes more than
/// anyone could cut or count by, the value is "just over" or "just under" the limit.
struct Pair {
  std::string measured;
  std::string limit;
};
Pair ratios(double measured, double limit);        ///< "3.40", "2.70"
Pair ease_percents(double measured, double limit); ///< fullness as ease: "11 %", "8 %"
Pair lengths(double measured, double limit, const Tape &tape);

/// Both sides of a rule that holds: as `lengths`, but they read the same where nobody could tell them apart.
Pair sides_that_hold(double left, double right, const Tape &tape);

/// A figure between two lengths, low <= high, in the fewest decimals that lie between them: "54.05 cm".
std::string figure_between(double low, double high, const Tape &tape);

} // namespace gatherwright::words
