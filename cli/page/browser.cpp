// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/browser.hpp"

#include <array>
#include <cerrno>
#include <csignal>
#include <cstdlib>

#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

namespace gatherwright::page {

namespace {

bool is_set(const char *variable) {
  const char *const value = std::getenv(variable);
  return value != nullptr && *value != '\0';
}

/// The shell ends at once and leaves the rest to the system, so that nothing is waited for: some desktops' opener runs
/// as long as the browser does.
constexpr const char *script = R"(command -v xdg-open >/dev/null || exit 1
xdg-open "$1" </dev/null >/dev/null 2>&1 &)";

/// What a program is started with: signals as a shell would have them.
class AsFromAShell {
public:
  AsFromAShell() {
    ::posix_spawnattr_init(&attributes_);
    sigset_t none;
    ::sigemptyset(&none);
    sigset_t ignored;
    ::sigemptyset(&ignored);
    ::sigaddset(&ignored, SIGPIPE);
    ::sigaddset(&ignored, SIGXFSZ);
    ::posix_spawnattr_setsigmask(&attributes_, &none);
    ::posix_spawnattr_setsigdefault(&attributes_, &ignored);
    ::posix_spawnattr_setflags(&attributes_, POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF);
  }
  ~AsFromAShell() { ::posix_spawnattr_destroy(&attributes_); }
  AsFromAShell(const AsFromAShell &) = delete;
  AsFromAShell &operator=(const AsFromAShell &) = delete;

  const posix_spawnattr_t *get() const { return &attributes_; }

private:
  posix_spawnattr_t attributes_{};
};

} // namespace

bool has_display() {
  return is_set("DISPLAY") || is_set("WAYLAND_DISPLAY");
}

bool open_in_browser(const std::string &address) {
  // Nothing is written to them: the system's functions take no texts that they promise not to.
  const auto word = [](const char *text) { return const_cast<char *>(text); };
  const std::array<char *, 6> words{word("sh"), word("-c"), word(script), word("sh"), word(address.c_str()), nullptr};
  pid_t shell = 0;
  if (::posix_spawn(&shell, "/bin/sh", nullptr, AsFromAShell().get(), words.data(), environ) != 0) return false;
  int status = 0;
  while (::waitpid(shell, &status, 0) < 0)
    if (errno != EINTR) return false;
  return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

} // namespace gatherwright::page
