// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/tracing/xml.hpp"

namespace gatherwright::tracing {

ElementsOutcome read_elements(std::string_view text) {
  const auto loaded = cli::load_module(module_file);
  ReadElements *const read = loaded ? loaded->function<ReadElements>(read_name) : nullptr;
  if (read == nullptr)
    return DrawingFault{
        0,
        {"the module that reads drawings cannot be loaded: " + (loaded ? module_file : loaded.fault().why),
         "install the program whole"}};
  ElementsOutcome outcome = DrawingFault{};
  cli::throw_unless_well(read(text, outcome));
  return outcome;
}

} // namespace gatherwright::tracing
