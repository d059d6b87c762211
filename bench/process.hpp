// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace gatherwright::bench {

/// Runs a program to its end, its output to nowhere; how long that takes, in seconds. Ends the bench where it does not
/// start or does not end with 0.
double process(std::vector<std::string> words);

} // namespace gatherwright::bench
