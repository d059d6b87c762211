// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/module.hpp"

#include <dlfcn.h>

namespace gatherwright::page {

Outcome<Module> module() {
  if (void *const opened = ::dlopen(module_file, RTLD_NOW | RTLD_LOCAL)) {
    auto *const serve = reinterpret_cast<Serve *>(::dlsym(opened, serve_name));
    auto *const digest = reinterpret_cast<Digest *>(::dlsym(opened, digest_name));
    if (serve != nullptr && digest != nullptr) return Module{serve, digest};
  }
  const char *const why = ::dlerror();
  return Fault{std::string("the module that serves the page cannot be loaded: ") + (why ? why : module_file),
               "install the program whole"};
}

} // namespace gatherwright::page
