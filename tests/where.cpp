// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/where.hpp"

std::string test_data(const std::string &name) {
  return PROJECT_ROOT "/tests/data/" + name;
}

std::string in_project(const std::string &name) {
  return PROJECT_ROOT "/" + name;
}

std::string program_file() {
  return PROGRAM;
}
