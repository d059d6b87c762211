// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/press/pdf.hpp"

#include "cli/press/press.hpp"
#include "cli/press/print_apart.hpp"

#include <new>

namespace gatherwright::paper {

PdfOutcome pdf(const Document &document) {
  const bool bounded = memory_is_bounded();
  if (bounded && !has_room_to_load()) throw std::bad_alloc();
  const auto loaded = cli::load_module(press::file_name);
  press::Print *const print = loaded ? loaded->function<press::Print>(press::function_name) : nullptr;
  if (print == nullptr)
    return Fault{"the module that makes PDF cannot be loaded: " + (loaded ? press::file_name : loaded.fault().why),
                 "install the program whole, or ask for SVG or HTML"};
  if (bounded) return print_apart(print, document);
  PdfOutcome outcome = Fault{};
  cli::throw_unless_well(print(document, outcome));
  return outcome;
}

} // namespace gatherwright::paper
