// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <limits>

/// Where rounding ends and a number begins. All of it is of the solver: the checker of certificates has its own.
///
/// A double is rounded at 2e-16 of itself, and a row's value is a sum of a few products: so what is left of a row
/// beside others, of a bound beside a value or of a multiplier beside a gradient is rounding at some 1e-15 of what it
/// was made of. What may be made of it on the way multiplies that, and what a plan promises (1e-9 of a row's numbers)
/// bounds it from above: most tolerances lie between the two, and all stand here in groups that must keep an order.
namespace gatherwright::optimum::tolerance {

/// Of one operation.
inline constexpr double rounding = std::numeric_limits<double>::epsilon();

/// What a plan promises: residuals up to this, each relative to the numbers in its own row or balance.
inline constexpr double certified = 1e-9;

// Rows that depend on others.

/// A row less a combination of others is nothing where it is less than this share of the numbers in that: some dozens
/// of roundings.
inline constexpr double row_rounding = 1e-14;

/// A coefficient that cancels to less than this share of the numbers that it is a sum of is rounding (a few units in
/// each entry of a map): left in, it would be taken for a direction in which the row can be met.
inline constexpr double cancelled_coefficient = 1e-13;

/// A row whose part outside others is less than this share of its own length depends on them. Orthogonalised twice, an
/// exactly dependent one keeps a few units of rounding (1e-15), and rows are themselves rounded: this leaves room for a
/// thousand times as much. In wide numbers it is the same share, so that rows are told apart alike.
inline constexpr double dependent_share = 1e-11;

/// A row that depends on others agrees with them where it is violated by no more than this share of the numbers in it:
/// what a plan promises, and a hundred times what the row may differ by from a combination of them.
inline constexpr double agreement = 1e-9;

/// A row of which others leave a share of its length between these is nearly parallel to them: it may count as one
/// more, but what it says beside them is carried by few digits. The first lies below dependent_share, so that a row
/// only just taken for dependent is among them; where no more than the second is left, what the row says is rounded at
/// 2e-11 of it, which is where dependent rows begin.
inline constexpr double least_nearly_parallel = 1e-12;
inline constexpr double most_nearly_parallel = 1e-5;

/// What a row of one or two terms gives is put into other rows where it stands there by at least this share of the
/// row's length: they then grow at most tenfold by what it says of other unknowns.
inline constexpr double clear_pivot = 0.1;

static_assert(most_nearly_parallel < clear_pivot);
static_assert(rounding < row_rounding && row_rounding < cancelled_coefficient);
static_assert(cancelled_coefficient < least_nearly_parallel && least_nearly_parallel < dependent_share);
static_assert(dependent_share < agreement && agreement <= certified);
static_assert(dependent_share < most_nearly_parallel && rounding / most_nearly_parallel < dependent_share * 10);

constexpr bool is_nearly_parallel(double left, double length) {
  return left < most_nearly_parallel * length && left > least_nearly_parallel * length;
}

/// Columns whose lengths differ by no more than this share are as long: lengths are sums, and a few roundings must not
/// decide which is eliminated first. Any share between rounding and one that would harm the pivoting will do.
inline constexpr double same_length = 1e-9;

// Normals in the active set. Shares of squares, where it says so.

/// Where the square of what is left of a normal is at least this share of its own, its directions are good to ten
/// roundings.
inline constexpr double much_left = 0.01;

/// And from this share on it is known well enough from the squares alone, which lose a digit when one is taken from the
/// other.
inline constexpr double clearly_left = 0.1;

/// A square so small a share of the normal's that two roundings of it would be seen in it: it is then looked at more
/// closely. A dependent row's is always smaller.
inline constexpr double little_left = 1e-10;

/// A share of an active normal in a combination is rounding below this share of the greatest: the triangle is solved
/// twice, each time to a few roundings.
inline constexpr double no_share = 1e-13;

static_assert(dependent_share * dependent_share < little_left && little_left < much_left && much_left < clearly_left);
static_assert(rounding < no_share && no_share < dependent_share);

// What is missed.

/// Roundings in a row's value: of its terms, of the point, of the bound.
inline constexpr double roundings = 16;

/// A slack is a sum of a few products, each rounded at the size of the numbers; a thousand times that is still nothing
/// on cloth. Where the set keeps changing for no more than rounding, it grows tenfold up to the second, which is a
/// tenth of what a plan promises.
inline constexpr double slack_rounding = 1e-13;
inline constexpr double most_slack_rounding = 1e-10;

/// More than this share of the numbers in a row is no rounding of active rows: of them it takes at most
/// 1 / dependent_share times as much as of the row, each rounded.
inline constexpr double perhaps_rounding = 1e-3;

/// A violation below this share of the numbers in its row is rounding: the limit can hold. What is passed over must be
/// less than a plan promises, and what the active set lets be (slack_rounding) must be passed over.
inline constexpr double no_violation = 1e-11;

static_assert(roundings * rounding < slack_rounding && slack_rounding < most_slack_rounding);
static_assert(most_slack_rounding < certified && slack_rounding < no_violation && no_violation < certified);
static_assert(roundings * rounding / dependent_share < perhaps_rounding);

// The proximal term. Its weight is a share of the greatest coefficient of the wishes; the squares of both stand in one
// factor.

/// An unknown whose pivot is less than this share of the greatest is left open by a level's wishes: what they say of it
/// is rounded at 2e-9 of it, more than a plan promises. A proximal term then decides, whose share must be far above.
inline constexpr double open_share = 1e-7;

/// What the wishes do see converges by the square of this share in each move. Where that is slow the weight is lessened
/// to the second, whose square must stay well above rounding, since steps along what is open are divided by it.
inline constexpr double proximal_share = 1e-4;
inline constexpr double least_proximal_share = 1e-5;

/// Up to this share a point not yet settled may miss what it would keep: steps along what only the proximal term holds
/// are rounded at rounding over the square of the least share.
inline constexpr double unsettled = 1e-5;

/// A move that is not this much shorter than the one before is slow. The same in wide numbers.
inline constexpr double slow = 0.05;

/// The centre stands still where it moves by no more than this share of the numbers, times what the factor's condition
/// (the inverse of the weight's share) makes of it: a few roundings.
inline constexpr double still = 1e-15;

/// It is also at rest where moves are slow and the slope they come of (the move times the square of the weight's share)
/// is below this share of the gradient: that is rounding. After many moves a little more than rounding will do.
inline constexpr double no_slope = 1e-15;
inline constexpr double little_slope = 1e-13;

static_assert(rounding / open_share > certified);
static_assert(open_share < least_proximal_share && least_proximal_share < proximal_share);
static_assert(rounding / (least_proximal_share * least_proximal_share) < unsettled);
static_assert(agreement < unsettled);
static_assert(rounding < still && rounding < no_slope && no_slope < little_slope);

// Multipliers and what is loose.

/// A multiplier that weighs less than this share of its level's gradient is rounding in a wish that is met.
inline constexpr double no_multiplier = 1e-12;

/// One that weighs more than this share is clearly above 0: making good a later multiplier of the other sign then takes
/// no more than a million times as much of the level's balance.
inline constexpr double clear_multiplier = 1e-6;

/// Unknowns that move by less than this share of the numbers, drawn to a place as far away as those, cannot move: the
/// weight of what draws them is 1, and what holds them is met to slack_rounding, or most_slack_rounding at worst. The
/// same in wide numbers.
inline constexpr double moved_share = 1e-8;

static_assert(rounding < no_multiplier && no_multiplier < clear_multiplier);
static_assert(most_slack_rounding < moved_share);

// What an answer is trusted for, before more digits are asked.

/// Where rows are multiplied by so many times their level's own numbers, they nearly cancel, and small residuals beside
/// them say little: what a plan promises of the rows is then 1e-6 of the level.
inline constexpr double cancelling = 1e3;

/// The rows of a contradiction cancel to this share of their terms, but for rounding; in a problem too large for more
/// digits the second must do.
inline constexpr double contradiction_cancels = 1e-13;
inline constexpr double contradiction_cancels_roughly = 1e-10;

/// Its bounds do not cancel to this share of theirs, which is no less than what may be left of the terms.
inline constexpr double bounds_left = 1e-10;

static_assert(roundings * rounding < contradiction_cancels && contradiction_cancels < contradiction_cancels_roughly);
static_assert(contradiction_cancels_roughly <= bounds_left);

// Scales: binary orders.

/// Apart from which on a problem is scaled: below, where ordinary plans lie, it is solved as it is.
inline constexpr int far_apart = 16;

/// Rows of one level that weigh so differently lose half of a double's digits, squared, and more to rounding than a
/// plan promises.
inline constexpr int too_different = 14;

/// What of that is left once unknowns are scaled has fewer digits to lose.
inline constexpr int still_too_different = 12;

static_assert(still_too_different < too_different && too_different < far_apart);
static_assert(2 * too_different > std::numeric_limits<double>::digits / 2);

} // namespace gatherwright::optimum::tolerance

/// The same in wide numbers, rounded at 1e-34 where the machine has 113 binary digits; dependent_share, agreement,
/// slow, no_violation and moved_share are those of doubles, so that an answer means the same however it was found.
namespace gatherwright::optimum::tolerance::wide {

inline constexpr double rounding = 1e-34;

/// Of a row that depends on others, being less than dependent_share of itself outside them: more than this share is no
/// rounding of coefficients, which were doubles before, nor of sums of them, so that what the row says beside the
/// others is lost.
inline constexpr double rounded_share = 1e-13;

/// A square so small a share of the normal's is what two orthogonalisations leave of nothing.
inline constexpr double nothing_left = 1e-60;

/// A share of an active normal in a combination is rounding below this share of the greatest: a combination of rows
/// that are told apart takes up to 1 / dependent_share of each, rounded at 1e-34.
inline constexpr double no_share = 1e-20;

/// What is missed by this share of a row's own numbers is rounding, and so is what is missed by the second share of the
/// greatest at hand: the weakest weight makes up to 1e11 of a rounding.
inline constexpr double nothing_missed = 1e-18;
inline constexpr double nothing_of_all = 1e-23;

/// Each move of the centre leaves the square of this, times that of the condition of the rows at hand, of what it was
/// off by: 1e-4 for rows 1e-9 from parallel. Where moves are slow the weight is lessened once, since what the wishes
/// see only weakly then comes near faster.
inline constexpr double proximal_share = 1e-11;
inline constexpr double least_proximal_share = 1e-13;

/// As in double precision, a few roundings of wide numbers: for the move, times what the weight makes of them.
inline constexpr double still = 1e-18;
inline constexpr double no_slope = 1e-32;

/// A multiplier below this share of the greatest is rounding.
inline constexpr double no_multiplier = 1e-26;

/// An unknown below this share of the numbers is what their rounding leaves of 0.
inline constexpr double nothing = 1e-20;

static_assert(nothing_left < no_share * no_share && rounding < no_share &&
              no_share < dependent_share * dependent_share * 1e3);
static_assert(rounding / proximal_share <= nothing_of_all && nothing_of_all < nothing_missed);
static_assert(nothing_missed < tolerance::rounding && nothing_missed < no_violation && nothing_missed < agreement);
static_assert(least_proximal_share < proximal_share && proximal_share < tolerance::least_proximal_share);
static_assert(rounding < no_slope && rounding / least_proximal_share < still && still < tolerance::still);
static_assert(no_multiplier < tolerance::no_multiplier && nothing < tolerance::rounding);

} // namespace gatherwright::optimum::tolerance::wide
