// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <string>
#include <vector>

/// What a maker should know that is no fault, and what a wearer should be kept from.
namespace gatherwright::words {

/// The whole sentence: the place, where the note has one, and what it says of it.
std::string note(const Job &job, const Plan &plan, const Note &note);

/// The two apart, so that what is said of many places can be said once.
std::string note_place(const Job &job, const Note &note);
std::string note_says(const Job &job, const Plan &plan, const Note &note);

/// A sentence of a note said of these places, or of the whole job where there is none.
std::string note_of(const std::vector<std::string> &places, std::string says);

std::string caution(const Job &job, const Plan &plan, const Caution &caution);

/// Whether a join is drawn up for a child, so that no length of cord is told.
bool is_cord_of_a_child(const Job &job, const Join &join);

/// Pins set in everything the plan makes.
long long pins_in_all(const Job &job, const Plan &plan);
std::string pins_counted(long long pins);

} // namespace gatherwright::words
