// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/sheet/page_flow.hpp"
#include "cli/sheet/sheet_content.hpp"

/// Pieces and cloths of a worksheet, as blocks on a page. The plan must be of the job, with short names.
namespace gatherwright::paper {

/// The table, and what stands over and under it.
void put_sizes(PageFlow &flow, const PiecesSheet &sheet);

/// In the order of the work: each cloth with its layout and how it is cut; then what is marked on the pieces, two
/// pictures beside each other where both are read as well so.
void put_pieces(PageFlow &flow, const Job &job, const Plan &plan, const PiecesSheet &sheet, Setting setting);

} // namespace gatherwright::paper
