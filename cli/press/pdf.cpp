// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/press/pdf.hpp"

#include "cli/press/press.hpp"
#include "cli/press/print_apart.hpp"

#include <dlfcn.h>
#include <new>

namespace gatherwright::paper {

namespace {

/// The module's one function, or none. It stays loaded to the end.
press::Print *loaded() {
  void *module = ::dlopen(press::file_name, RTLD_NOW | RTLD_LOCAL);
  return module == nullptr ? nullptr : reinterpret_cast<press::Print *>(::dlsym(module, press::function_name));
}

} // namespace

PdfOutcome pdf(const Document &document) {
  const bool bounded = memory_is_bounded();
  if (bounded && !has_room_to_load()) throw std::bad_alloc();
  press::Print *const print = loaded();
  if (print == nullptr) {
    const char *const why = ::dlerror();
    return Fault{std::string("the module that makes PDF cannot be loaded: ") + (why ? why : press::file_name),
                 "install the program whole, or ask for SVG or HTML"};
  }
  if (bounded) return print_apart(print, document);
  PdfOutcome outcome = Fault{};
  print(document, outcome);
  return outcome;
}

} // namespace gatherwright::paper
