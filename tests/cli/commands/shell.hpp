// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/where.hpp"

#include <catch2/catch.hpp>

#include <sys/wait.h>

#include <cstdio>
#include <string>

/// The real program, called by way of a shell that redirects as the test wants.
namespace command_test {

struct Ran {
  int status = -1; ///< -1: it did not end by itself
  std::string said;
};

inline Ran shell(const std::string &command) {
  Ran ran;
  FILE *pipe = popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  char piece[4096];
  for (std::size_t got = 0; (got = fread(piece, 1, sizeof piece, pipe)) > 0;)
    ran.said.append(piece, got);
  const int ended = pclose(pipe);
  ran.status = WIFEXITED(ended) ? WEXITSTATUS(ended) : -1;
  return ran;
}

/// What the shell calls the program.
inline std::string program() {
  return "'" + program_file() + "'";
}

} // namespace command_test
