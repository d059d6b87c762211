// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/listener.hpp"

#include <cerrno>
#include <cstring>

#include <arpa/inet.h>
#include <netinet/in.h>
#include <sys/socket.h>

namespace gatherwright::page {

Outcome<Listener, CannotListen> listen_at(std::uint16_t port) {
  constexpr int backlog = 1024;
  cli::OpenFile socket(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC | SOCK_NONBLOCK, 0));
  // A port is free again as soon as the program that had it has ended.
  const int anew = 1;
  sockaddr_in at{};
  at.sin_family = AF_INET;
  at.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  at.sin_port = htons(port);
  auto *const address = reinterpret_cast<sockaddr *>(&at);
  socklen_t size = sizeof at;
  if (!socket.is_open() || ::setsockopt(socket.number(), SOL_SOCKET, SO_REUSEADDR, &anew, sizeof anew) != 0 ||
      ::bind(socket.number(), address, size) != 0 || ::listen(socket.number(), backlog) != 0 ||
      ::getsockname(socket.number(), address, &size) != 0)
    return CannotListen{std::strerror(errno)};
  return Listener{std::move(socket), ntohs(at.sin_port)};
}

} // namespace gatherwright::page
