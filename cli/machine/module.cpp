// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/machine/module.hpp"

#include <filesystem>
#include <stdexcept>
#include <system_error>

namespace gatherwright::cli {

void throw_unless_well(Ended ended) {
  if (ended == Ended::without_memory) throw std::bad_alloc();
  if (ended == Ended::by_a_fault) throw std::runtime_error("a fault in a module");
}

Outcome<Loaded, NotLoaded> load_module(const std::string &file) {
  std::error_code failed;
  const std::filesystem::path program = std::filesystem::read_symlink("/proc/self/exe", failed);
  if (failed) return NotLoaded{file + ": where the program lies is not known: " + failed.message()};
  const std::string path = program.parent_path().string() + "/../lib/gatherwright/" + file;
  if (void *const module = ::dlopen(path.c_str(), RTLD_NOW | RTLD_LOCAL)) return Loaded{module};
  const char *const told = ::dlerror();
  const std::string why = told ? told : path;
  return NotLoaded{why.starts_with(path) ? file + why.substr(path.size()) : file + ": " + why};
}

} // namespace gatherwright::cli
