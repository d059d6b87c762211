// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/press/print_apart.hpp"

#include "cli/machine/open_file.hpp"
#include "cli/machine/write_all.hpp"

#include <array>
#include <cerrno>
#include <fcntl.h>
#include <new>
#include <string>
#include <string_view>
#include <sys/mman.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

namespace gatherwright::paper {

namespace {

/// What comes through the pipe begins with which it is.
constexpr char is_pdf = 'p';
constexpr char is_fault = 'f';

/// In the child: it tells its outcome and ends at once, without what the parent has yet to do.
[[noreturn]] void print_and_end(press::Print *print, const Document &document, int into) {
  // What the libraries say of their lack of memory is not for the user, nor is a core.
  const rlimit no_core{0, 0};
  ::setrlimit(RLIMIT_CORE, &no_core);
  if (const int nowhere = ::open("/dev/null", O_WRONLY | O_CLOEXEC); nowhere >= 0) ::dup2(nowhere, STDERR_FILENO);
  try {
    PdfOutcome outcome = Fault{};
    cli::throw_unless_well(print(document, outcome));
    std::string said;
    if (outcome)
      said = is_pdf + *std::move(outcome);
    else
      said = is_fault + outcome.fault().what + '\0' + outcome.fault().instead;
    if (cli::write_all(into, said)) ::_exit(0);
  } catch (...) { // no memory: the parent sees that nothing whole was said
  }
  ::_exit(1);
}

std::string read_to_end(int from) {
  std::string said;
  std::array<char, 65536> room;
  for (;;) {
    const ssize_t got = ::read(from, room.data(), room.size());
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) return said;
    said.append(room.data(), static_cast<std::size_t>(got));
  }
}

bool ended_well(pid_t child) {
  int status = 0;
  while (::waitpid(child, &status, 0) < 0)
    if (errno != EINTR) return false;
  return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

} // namespace

bool memory_is_bounded() {
  for (const auto resource : {RLIMIT_AS, RLIMIT_DATA}) {
    rlimit limit{};
    if (::getrlimit(resource, &limit) == 0 && limit.rlim_cur != RLIM_INFINITY) return true;
  }
  return false;
}

bool has_room_to_load() {
  // It takes 29 MB of addresses on Debian 12, and to print the least page takes some 60 MB more.
  constexpr std::size_t enough = 64'000'000;
  void *const room =
      ::mmap(nullptr, enough, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS | MAP_NORESERVE, -1, 0);
  if (room == MAP_FAILED) return false;
  ::munmap(room, enough);
  return true;
}

PdfOutcome print_apart(press::Print *print, const Document &document) {
  std::array<int, 2> ends;
  if (::pipe2(ends.data(), O_CLOEXEC) != 0) throw std::bad_alloc();
  cli::OpenFile from(ends[0]);
  cli::OpenFile into(ends[1]);
  const pid_t child = ::fork();
  if (child == 0) print_and_end(print, document, into.number());
  into.close();
  if (child < 0) throw std::bad_alloc();
  std::string said;
  try {
    said = read_to_end(from.number());
  } catch (const std::bad_alloc &) {
    from.close(); // so that the child ends
    ended_well(child);
    throw;
  }
  if (!ended_well(child) || said.empty()) throw std::bad_alloc();
  if (said.front() == is_pdf) return said.substr(1);
  const std::string_view fault = std::string_view(said).substr(1);
  const std::size_t half = fault.find('\0');
  return Fault{std::string(fault.substr(0, half)), std::string(fault.substr(half + 1))};
}

} // namespace gatherwright::paper
