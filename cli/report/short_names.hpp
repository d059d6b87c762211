// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

/// Names and formulas that are longer than anyone reads, for all that is told to people.
namespace gatherwright::report {

/// Characters of a name that are told, and characters without a width of their own (accents that combine, joiners) in a
/// row: no script stacks half as many, and setting them takes time that grows with their square.
inline constexpr std::size_t most_told = 1000;
inline constexpr std::size_t most_stacked = 16;

/// Bytes of a name that are told; all of them but for one that is too long.
std::size_t told_bytes(std::string_view name);

/// The name, or its beginning and an ellipsis where it is too long.
std::string short_name(std::string name);

/// The job with the beginning and an ellipsis in place of every name, title and written formula that is too long;
/// nothing where none is.
std::optional<Job> with_short_names(const Job &job);

} // namespace gatherwright::report
