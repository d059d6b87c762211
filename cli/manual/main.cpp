// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/machine/whole_file.hpp"
#include "cli/manual/pages.hpp"

#include <iostream>

namespace {

bool written(const std::string &path, const std::string &text) {
  const auto why = gatherwright::cli::write_whole_file(path, text);
  if (why) std::cerr << path << " cannot be written: " << *why << "\n";
  return !why;
}

} // namespace

/// usage: gatherwright_pages FOLDER VERSION DATE
int main(int count, char **arguments) {
  using namespace gatherwright::cli::pages;
  if (count != 4) {
    std::cerr << "usage: gatherwright_pages FOLDER VERSION DATE\n";
    return 2;
  }
  const std::string folder = std::string(arguments[1]) + "/";
  const bool all = written(folder + "gatherwright.1", manual(arguments[2], arguments[3])) &&
                   written(folder + "gatherwright", for_bash()) && written(folder + "_gatherwright", for_zsh()) &&
                   written(folder + "gatherwright.fish", for_fish());
  return all ? 0 : 3;
}
