// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"

#include <string>
#include <string_view>

namespace gatherwright::report {

/// Emphasis on a terminal; where `colour` is off, every text comes back as it is. Nothing is told by colour alone.
struct Ink {
  bool colour = false;

  std::string strong(std::string_view text) const { return with("1", text); }
  std::string faint(std::string_view text) const { return with("2", text); }
  std::string verdict(Verdict verdict, std::string_view text) const {
    return with(verdict == Verdict::within_limits ? "1;32" : verdict <= Verdict::too_full ? "1;33" : "1;31", text);
  }

private:
  std::string with(std::string_view code, std::string_view text) const {
    if (!colour || text.empty()) return std::string(text);
    return std::string("\x1b[").append(code).append("m").append(text).append("\x1b[0m");
  }
};

} // namespace gatherwright::report
