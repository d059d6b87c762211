// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/document.hpp"

#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// What a job's text says, for who shows it as it was written.
namespace gatherwright::page {

struct Written {
  std::string job; ///< as JSON without remarks: keys in the order written, of those that come twice the first; numbers
                   ///< and texts as they are spelt
  std::vector<std::pair<std::string, std::string>> remarks; ///< by pointer, in the order written
};

/// A remark belongs to what it stands right above, with no blank line between, or behind on its line; one behind an
/// opening bracket to what is opened there. Several are one, with a blank between; their signs are left out. Where
/// pointers and remarks come to more than a text may be long, the rest of the remarks is left out. The document must be
/// that of the text.
Written written(std::string_view text, const cli::Document &document);

} // namespace gatherwright::page
