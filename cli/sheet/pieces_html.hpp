// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/sheet/html_blocks.hpp"
#include "cli/sheet/sheet_content.hpp"

/// Pieces and cloths on the worksheet as HTML. The plan must be of the job, with short names.
namespace gatherwright::paper {

/// The table, and what stands over and under it.
void sizes_of_pieces(Html &html, const PiecesSheet &sheet);

/// A cloth with its layout and how it is cut.
void cloth(Html &html, Widths widths, const Job &job, const Plan &plan, const ClothSheet &sheet);

/// What would save cloth; nothing where nothing would.
void savings(Html &html, const Plan &plan, const PiecesSheet &sheet);

/// What is marked on the pieces, two pictures beside each other where both are read as well so; nothing where nothing
/// is.
void on_pieces(Html &html, Widths widths, const Job &job, const Plan &plan, const PiecesSheet &sheet);

/// In the order of the work: each cloth, then what is marked on the pieces; last what would save cloth.
void pieces(Html &html, Widths widths, const Job &job, const Plan &plan, const PiecesSheet &sheet);

} // namespace gatherwright::paper
