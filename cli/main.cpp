// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/commands.hpp"
#include "cli/machine/write_all.hpp"

#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <exception>
#include <new>
#include <string_view>

#include <unistd.h>

namespace {

using namespace gatherwright::cli;

int end_with(Status status) {
  return static_cast<int>(status);
}

/// Says it with no memory of its own.
int machine_fault_without_memory(std::string_view what) {
  write_all(STDERR_FILENO, what);
  return end_with(Status::machine);
}

constexpr std::string_view out_of_memory = "gatherwright: out of memory\n";
constexpr std::string_view own_fault = "gatherwright: stopped by a fault of its own; please report the job\n";

/// Where memory is so short that not even an exception can be made, or one leaves a thread, there is nothing to catch.
[[noreturn]] void end_uncaught() {
  std::string_view what = out_of_memory;
  try {
    if (std::current_exception()) throw; // cppcheck-suppress rethrowNoCurrentException
  } catch (const std::bad_alloc &) {
  } catch (...) {
    what = own_fault;
  }
  std::_Exit(machine_fault_without_memory(what));
}

/// Before anything else, since the headers of libraries bring objects that are made before main begins.
[[gnu::constructor(101)]] void set_terminate_handler() {
  std::set_terminate(end_uncaught);
}

bool set_and_not_empty(const char *variable) {
  const char *value = std::getenv(variable);
  return value != nullptr && *value != '\0';
}

/// Standard output took no more.
struct NotWritten {
  int why; ///< errno
};

void say(std::string_view text) {
  if (!write_all(STDOUT_FILENO, text)) throw NotWritten{errno};
}

Surroundings surroundings() {
  const char *terminal = std::getenv("TERM");
  const bool dumb = terminal != nullptr && std::strcmp(terminal, "dumb") == 0;
  Surroundings found{.terminal = ::isatty(STDOUT_FILENO) == 1 && !dumb, .no_color = set_and_not_empty("NO_COLOR")};
  found.say = say;
  if (::isatty(STDERR_FILENO) == 1 && !dumb) found.tell = [](std::string_view text) { write_all(STDERR_FILENO, text); };
  return found;
}

int answer(int count, char **arguments) {
  const std::vector<std::string> given(arguments + (count > 0 ? 1 : 0), arguments + count);
  Answer said;
  try {
    said = run(given, surroundings());
    say(said.out);
  } catch (const NotWritten &fault) {
    said = machine_fault(std::string("cannot write: ") + std::strerror(fault.why));
  }
  write_all(STDERR_FILENO, said.err);
  return end_with(said.status);
}

} // namespace

int main(int count, char **arguments) {
  // A reader that goes away is told like any other that cannot be written to.
  std::signal(SIGPIPE, SIG_IGN);
  // So is a file that may not grow any longer.
  std::signal(SIGXFSZ, SIG_IGN);
  try {
    return answer(count, arguments);
  } catch (const std::bad_alloc &) {
    return machine_fault_without_memory(out_of_memory);
  } catch (const std::exception &) {
    return machine_fault_without_memory(own_fault);
  }
}
