// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

/// What is installed beside the program to tell of its commands, made of the same forms as its help.
namespace gatherwright::cli::pages {

/// The manual page, section 1, in the macros of man(7). `date`: of the version, as 2026-01-31.
std::string manual(std::string_view version, std::string_view date);

/// Completions: to be sourced by bash, found by zsh as `_gatherwright`, by fish as `gatherwright.fish`.
std::string for_bash();
std::string for_zsh();
std::string for_fish();

} // namespace gatherwright::cli::pages
