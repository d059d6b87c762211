// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <string_view>

namespace gatherwright::page {

/// A file that the page is made of.
struct Asset {
  std::string_view name;
  std::string_view text;
};

/// The files of the folder `assets`, by name.
std::span<const Asset> assets();

/// What kind of file a name tells, as HTTP calls it.
std::string_view type_of(std::string_view name);

} // namespace gatherwright::page
