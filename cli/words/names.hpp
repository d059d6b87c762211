// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/words/printable.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <optional>
#include <string>
#include <string_view>

/// What the things of a job are called.
namespace gatherwright::words {

std::string_view verdict(Verdict verdict); ///< "within limits"

/// With how well it lies within them: "within limits, only just", "within limits, well inside them".
std::string verdict(Verdict verdict, std::optional<Standing> within);
std::string_view standing(Standing standing); ///< "only just", "well"
std::string_view worked(Kind kind);           ///< as a maker does it: "gathered", "plain"

/// "long edge" or "band"
std::string_view edge_called(WhichEdge edge);

/// As a job writes it: "long" or "band".
std::string_view edge_key(WhichEdge edge);

/// A segment by its name, or by its number from 1.
std::string segment_called(const Join &join, int segment);

/// "neck into collar"
std::string where(const Job &job, JoinId join);

/// "neck into collar, left back"; only the join where it is one unnamed stretch.
std::string where(const Job &job, SegmentAt segment);

std::string_view side_called(Side side); ///< "top"

/// "sleeve"
std::string where(const Job &job, PieceId piece);

/// "sleeve, bottom"
std::string where(const Job &job, SideAt side);

/// A cloth by its name, or "the cloth".
std::string cloth_called(const Cloth &cloth);

/// A mark by the name the job gives it, as written: "start" and "end" where an edge's ends have none, "end of NAME"
/// within. Empty for a pin.
std::string mark_called(const Join &join, const Mark &mark);

/// True where the job itself names the mark.
bool mark_is_named(const Join &join, const Mark &mark);

/// A rule as it was written: "2 * sleeve <= 150 cm".
std::string rule_written(const Rule &rule);

/// Whether it has a name of its own, other than what it says.
bool rule_is_named(const Rule &rule);

/// A rule by its name, with what it says after it where that is another: "the hand goes through (cuff >= hand + 3 cm)".
std::string rule_called(const Rule &rule);

/// The name of the one length or measure that an edge is, else empty.
std::string edge_named(const Job &job, const Edge &edge);

} // namespace gatherwright::words
