// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/text/edit.hpp"
#include "cli/page/text/form.hpp"

#include <optional>
#include <span>
#include <string>

namespace gatherwright::page {

/// A value in all that the steps to it still ask for: { "swatch": { "cut": "30 cm" } }. Where a list of two is made for
/// one of them, both are that.
std::string made(Form form, std::span<const std::string> steps, const Source &value, const Room &room);

/// What a value that is no object, or the one part of a side, becomes where a step leads into it: the long form, with
/// `made` there. Nothing where it has none.
std::optional<std::string> long_form(Form form, std::string_view written, std::string_view step, std::string_view made);

} // namespace gatherwright::page
