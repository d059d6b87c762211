// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/text/form.hpp"
#include "cli/page/text/source.hpp"

#include <string>
#include <vector>

namespace gatherwright::page {

/// How far a pointer leads into what is written.
struct Way {
  const cli::Value *value = nullptr; ///< the last that is there
  Form form = Form::job;             ///< what it is for
  std::size_t taken = 0;             ///< steps that lead to it
  bool by_short = false;             ///< it is a short form, and stands for the key of the last step
  bool only_part = false;            ///< it is what is sewn to a side, in no list, and the last step was its place 0
};

Way way_to(const Source &source, const std::vector<std::string> &steps);

/// What stands at a place of a list, if there is so much.
const cli::Value *member_at(const Source &source, const cli::Value &list, int place);

/// What a value stands in; the value must not be the outermost.
const cli::Value &parent_of(const Source &source, const cli::Value &value);

bool is_container(const cli::Value &value);

/// A fault at a value's line.
Faults fault_at(const cli::Value &value, std::string_view pointer, Fault fault);

} // namespace gatherwright::page
