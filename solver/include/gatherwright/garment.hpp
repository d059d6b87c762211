// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace gatherwright {

/// Where the garment lies beside a drawn cut edge: by the direction of travel as seen on the page, or of a closed edge.
///   1. Inside and outside are told by the way a closed path is drawn.
enum class Garment { left, right, inside, outside };

} // namespace gatherwright
