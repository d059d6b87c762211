// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/tracing/xml.hpp"

#include <dlfcn.h>

namespace gatherwright::tracing {

ElementsOutcome read_elements(std::string_view text) {
  void *const opened = ::dlopen(module_file, RTLD_NOW | RTLD_LOCAL); // it stays loaded to the end
  auto *const read = opened ? reinterpret_cast<ReadElements *>(::dlsym(opened, read_name)) : nullptr;
  if (read == nullptr) {
    const char *const why = ::dlerror();
    return DrawingFault{0,
                        {std::string("the module that reads drawings cannot be loaded: ") + (why ? why : module_file),
                         "install the program whole"}};
  }
  ElementsOutcome outcome = DrawingFault{};
  read(text, outcome);
  return outcome;
}

} // namespace gatherwright::tracing
