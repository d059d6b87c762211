// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/new_name.hpp"

#include "cli/words/quoted.hpp"
#include "gatherwright/formula.hpp"

namespace gatherwright::page {

std::optional<Fault> fault_of_new_name(const Source &source, std::string_view name) {
  if (auto fault = check_name(name)) return fault;
  for (const std::string_view key : {std::string_view("measures"), std::string_view("lengths")}) {
    const cli::Value *names = source.document.child(source.document.root(), key);
    if (names && source.document.child(*names, name))
      return Fault{"the name " + cli::quoted(name) + " is used already",
                   "a measure and a length need names of their own"};
  }
  return std::nullopt;
}

} // namespace gatherwright::page
