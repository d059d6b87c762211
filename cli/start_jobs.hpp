// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <string_view>

namespace gatherwright::cli {

/// A commented job to start from.
struct StartJob {
  std::string_view name;
  std::string_view summary;
  std::string_view text;
};

/// The jobs of the folder `start`, in the order in which they are listed.
std::span<const StartJob> start_jobs();

} // namespace gatherwright::cli
