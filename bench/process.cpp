// SPDX-License-Identifier: GPL-3.0-or-later
#include "bench/process.hpp"

#include "bench/measured.hpp"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

namespace gatherwright::bench {

double process(std::vector<std::string> words) {
  std::vector<char *> arguments;
  for (std::string &word : words)
    arguments.push_back(word.data());
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", O_WRONLY, 0);
  const double time = once([&] {
    pid_t child = 0;
    hold(posix_spawn(&child, arguments[0], &actions, nullptr, arguments.data(), environ) == 0,
         "a process did not start");
    int status = 0;
    waitpid(child, &status, 0);
    hold(WIFEXITED(status) && WEXITSTATUS(status) == 0, "a process failed");
  });
  posix_spawn_file_actions_destroy(&actions);
  return time;
}

} // namespace gatherwright::bench
