// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

/// Things in a row, as a sentence has them.
namespace gatherwright::words {

/// "left front, left back and right back"; of at least one.
std::string listed(const std::vector<std::string> &things);

/// So many of a thing by its name: "sleeve", "2 sleeves", "2 bodies"; "2 of part 7" where a name takes no s.
std::string so_many(std::size_t count, const std::string &name);

} // namespace gatherwright::words
