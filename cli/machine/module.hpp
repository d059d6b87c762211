// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/outcome.hpp"

#include <exception>
#include <new>
#include <string>

#include <dlfcn.h>

/// Modules: parts of the program that are loaded only when they are asked for. A module may have another standard
/// library than the program, which has its own within it, so no exception may pass from one to the other.
namespace gatherwright::cli {

/// How what was asked of the other side ended.
enum class Ended { well, without_memory, by_a_fault };

/// Does the work, and lets nothing that it throws out to the other side.
template <class Work> Ended contained(Work work) noexcept {
  try {
    work();
    return Ended::well;
  } catch (const std::bad_alloc &) {
    return Ended::without_memory;
  } catch (...) {
    return Ended::by_a_fault;
  }
}

/// Throws on this side what did not get out of the other: std::bad_alloc, or a std::exception.
void throw_unless_well(Ended ended);

/// A module that is loaded, to the end of the program.
struct Loaded {
  void *module;

  /// Null where it has none of this name.
  template <class Function> Function *function(const char *name) const {
    return reinterpret_cast<Function *>(::dlsym(module, name));
  }
};

struct NotLoaded {
  std::string why; ///< begins with the file's name
};

/// Loads the module of this file from its one place, beside the program: ../lib/gatherwright, seen from the folder that
/// the program lies in.
Outcome<Loaded, NotLoaded> load_module(const std::string &file);

} // namespace gatherwright::cli
