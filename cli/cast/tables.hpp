// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/cast/wearers.hpp"
#include "gatherwright/plan.hpp"

#include <optional>
#include <string>

/// The tables of a cast: `cast.csv`, a row a wearer and join, `cut.csv`, the cutting list, a row a wearer, and of a job
/// with pieces `cloth.csv`, a row a wearer and cloth. Rows end with a line feed.
namespace gatherwright::cli::cast {

std::string cast_header();

/// What is wrong with a job of which `cast.csv` would run to gigabytes, if anything is: each join of each wearer may
/// come to name all of the measures.
std::optional<PlacedFault> too_long_tables(const Job &job);

/// Lengths are numbers in the job's unit, to a hundredth of a millimetre; the last column names the measures that are
/// the job's. Where the rules conflict there is no join, and one row says so.
std::string cast_rows(const Job &job, const Plan &plan, const Wearer &wearer);

/// Each length with the job's unit: "sleeve [cm]".
std::string cut_header(const Job &job);
/// Lengths as read off the tape, as decimals; empty where the rules conflict and a length is not known.
std::string cut_row(const Job &job, const Plan &plan, const Wearer &wearer);

/// "wearer,cloth,length [cm],bound [cm],buy", with the job's unit.
std::string cloth_header(const Job &job);
/// What the wearer's pieces take of each cloth that any are laid on, lengths as in `cast.csv`; the cloth is empty where
/// it has no name.
std::string cloth_rows(const Job &job, const Plan &plan, const Wearer &wearer);

} // namespace gatherwright::cli::cast
