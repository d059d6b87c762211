// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/server.hpp"

#include "cli/machine/open_file.hpp"
#include "cli/page/module/exchanges.hpp"
#include "cli/page/module/visits.hpp"
#include "cli/page/module/workers.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <memory>
#include <new>
#include <set>
#include <system_error>
#include <utility>

#include <microhttpd.h>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <poll.h>
#include <sys/resource.h>
#include <sys/signalfd.h>
#include <sys/socket.h>

namespace gatherwright::page {

namespace {

using cli::OpenFile;

Reply line(int status, std::string_view says) {
  return {status, "text/plain; charset=utf-8", std::string(says) + "\n"};
}

/// The connections that the library holds beyond the bound, since it lets go of those ended only at its next turn.
constexpr int beyond = 64;
/// Open files that are no connections.
constexpr rlim_t other_files = 64;

/// How many connections there can be: so many as are wanted, or as the system has files for.
int connections_possible(int wanted) {
  const rlim_t files = static_cast<rlim_t>(wanted + beyond) + other_files;
  rlimit limit{};
  if (::getrlimit(RLIMIT_NOFILE, &limit) != 0) return wanted;
  if (limit.rlim_cur < files) {
    limit.rlim_cur = std::min(files, limit.rlim_max);
    ::setrlimit(RLIMIT_NOFILE, &limit);
  }
  if (limit.rlim_cur >= files) return wanted;
  return std::max(1, static_cast<int>(limit.rlim_cur) - beyond - static_cast<int>(other_files));
}

/// SIGINT and SIGTERM as something that can be read, for as long as it lives. Once one came, the next ends the program
/// at once.
class Signals {
public:
  Signals() {
    ::sigemptyset(&set_);
    ::sigaddset(&set_, SIGINT);
    ::sigaddset(&set_, SIGTERM);
    ::pthread_sigmask(SIG_BLOCK, &set_, &before_);
    told_ = OpenFile(::signalfd(-1, &set_, SFD_CLOEXEC | SFD_NONBLOCK));
  }
  ~Signals() { let_through(); }
  Signals(const Signals &) = delete;
  Signals &operator=(const Signals &) = delete;

  int readable() const { return told_.number(); }
  void let_through() {
    signalfd_siginfo taken{};
    while (::read(told_.number(), &taken, sizeof taken) > 0) {
    }
    ::pthread_sigmask(SIG_SETMASK, &before_, nullptr);
  }

private:
  sigset_t set_{};
  sigset_t before_{};
  OpenFile told_;
};

struct StopDaemon {
  void operator()(MHD_Daemon *daemon) const { MHD_stop_daemon(daemon); }
};

class Server {
public:
  explicit Server(const ServiceTold &service)
      : service_(service), bounds_(with_possible(service.bounds)), visits_(bounds_),
        workers_(bounds_.workers, service.answer), daemon_(daemon()) {}
  ~Server() { end_all(); }
  Server(const Server &) = delete;
  Server &operator=(const Server &) = delete;

  bool can_serve() const { return daemon_ != nullptr; }
  void run();

private:
  static Bounds with_possible(Bounds bounds) {
    bounds.connections = connections_possible(bounds.connections);
    return bounds;
  }

  std::unique_ptr<MHD_Daemon, StopDaemon> daemon();

  // What the library calls, which knows only functions of C.
  static void *path_came(void *server, const char *path, MHD_Connection *connection);
  static MHD_Result more_came(void *server, MHD_Connection *connection, const char *path, const char *method,
                              const char *version, const char *bytes, std::size_t *count, void **exchange);
  static void completed(void *server, MHD_Connection *connection, void **exchange, MHD_RequestTerminationCode how);
  static void connection_told(void *server, MHD_Connection *connection, void **, MHD_ConnectionNotificationCode what);

  MHD_Result head_came(Exchange &exchange, const char *method, const char *version);
  static void body_came(Exchange &exchange, std::string_view bytes);
  MHD_Result whole_came(Exchange &exchange);
  void accept_some();
  void hand_out();
  void end_all();
  int longest_poll() const;

  const ServiceTold &service_;
  Bounds bounds_;
  Visits visits_;
  std::set<Exchange *> being_answered_;
  Signals signals_; // before the threads, which are not to take them
  Workers workers_;
  std::unique_ptr<MHD_Daemon, StopDaemon> daemon_;
};

std::unique_ptr<MHD_Daemon, StopDaemon> Server::daemon() {
  constexpr unsigned way = MHD_USE_EPOLL | MHD_USE_NO_LISTEN_SOCKET | MHD_ALLOW_SUSPEND_RESUME;
  constexpr std::size_t memory_each = 32768;
  const auto silence = std::chrono::duration_cast<std::chrono::seconds>(bounds_.silence).count() + 1;
  return std::unique_ptr<MHD_Daemon, StopDaemon>(
      MHD_start_daemon(way, 0, nullptr, nullptr, &Server::more_came, this,                               //
                       MHD_OPTION_URI_LOG_CALLBACK, &Server::path_came, this,                            //
                       MHD_OPTION_NOTIFY_COMPLETED, &Server::completed, this,                            //
                       MHD_OPTION_NOTIFY_CONNECTION, &Server::connection_told, this,                     //
                       MHD_OPTION_CONNECTION_LIMIT, static_cast<unsigned>(bounds_.connections + beyond), //
                       MHD_OPTION_CONNECTION_MEMORY_LIMIT, memory_each,                                  //
                       MHD_OPTION_CONNECTION_TIMEOUT, static_cast<unsigned>(silence),                    //
                       MHD_OPTION_SIGPIPE_HANDLED_BY_APP, 1, MHD_OPTION_END));
}

void *Server::path_came(void *server, const char *path, MHD_Connection *connection) {
  try {
    static_cast<Server *>(server)->visits_.head_begins(connection);
    return new Exchange(connection, path);
  } catch (...) { // no memory: the connection is closed once its head has come
    return nullptr;
  }
}

MHD_Result Server::more_came(void *given, MHD_Connection *, const char *, const char *method, const char *version,
                             const char *bytes, std::size_t *count, void **exchange) {
  auto &server = *static_cast<Server *>(given);
  auto *const at = static_cast<Exchange *>(*exchange);
  if (at == nullptr) return MHD_NO;
  try {
    if (!std::exchange(at->begun, true)) return server.head_came(*at, method, version);
    if (*count == 0) return server.whole_came(*at);
    body_came(*at, {bytes, std::exchange(*count, 0)});
    return MHD_YES;
  } catch (...) { // no memory: the connection is closed
    return MHD_NO;
  }
}

void Server::completed(void *given, MHD_Connection *connection, void **exchange, MHD_RequestTerminationCode) {
  delete static_cast<Exchange *>(std::exchange(*exchange, nullptr));
  static_cast<Server *>(given)->visits_.now_waits(connection, Visit::Waits::for_next);
}

void Server::connection_told(void *given, MHD_Connection *connection, void **, MHD_ConnectionNotificationCode what) {
  auto &server = *static_cast<Server *>(given);
  if (what == MHD_CONNECTION_NOTIFY_CLOSED) {
    server.visits_.end(connection);
    return;
  }
  const int socket = MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD)->connect_fd;
  try {
    server.visits_.begin(connection, socket);
  } catch (...) { // no memory: nobody would see it wait too long
    ::shutdown(socket, SHUT_RDWR);
  }
}

MHD_Result Server::head_came(Exchange &exchange, const char *method, const char *version) {
  Admitted admitted;
  if (service_.admit(head_of(exchange, method, version), admitted) != cli::Ended::well)
    return MHD_NO; // no memory: the connection is closed
  const BodyLength length = body_length(exchange);
  const auto *const bytes = std::get_if<std::size_t>(&length);
  if (auto *const reply = std::get_if<Reply>(&admitted))
    exchange.reply = std::move(*reply);
  else if (bytes == nullptr)
    exchange.reply = line(MHD_HTTP_LENGTH_REQUIRED, "a request tells how long it is");
  else if (*bytes > bounds_.body)
    exchange.reply = line(MHD_HTTP_CONTENT_TOO_LARGE, "this is more than the 10 MB that a request may have");
  else
    exchange.request = std::get<Request>(std::move(admitted));
  exchange.closes = exchange.is_drained = exchange.reply.has_value();
  if (exchange.reply && (bytes == nullptr || *bytes == 0 || *bytes > bounds_.drained)) return send(exchange);
  if (*bytes > 0) visits_.now_waits(exchange.connection, Visit::Waits::for_body);
  return MHD_YES;
}

void Server::body_came(Exchange &exchange, std::string_view bytes) {
  if (exchange.is_drained) return;
  try {
    exchange.request.body += bytes;
  } catch (const std::bad_alloc &) {
    exchange.request.body = {};
    exchange.reply = line(MHD_HTTP_INTERNAL_SERVER_ERROR, "out of memory");
    exchange.is_drained = true;
  }
}

MHD_Result Server::whole_came(Exchange &exchange) {
  if (exchange.reply) return send(exchange);
  std::list<Work> work;
  work.push_back({&exchange, std::move(exchange.request), {}});
  being_answered_.insert(&exchange);
  visits_.now_waits(exchange.connection, Visit::Waits::for_answer);
  MHD_suspend_connection(exchange.connection);
  workers_.take(std::move(work));
  return MHD_YES;
}

/// What the workers have done goes back to its connections.
void Server::hand_out() {
  for (Work &work : workers_.done()) {
    auto *const exchange = static_cast<Exchange *>(work.of);
    exchange->reply = std::move(work.reply);
    being_answered_.erase(exchange);
    MHD_resume_connection(exchange->connection);
  }
}

void Server::accept_some() {
  for (int i = 0; i < beyond / 2; ++i) {
    const int socket = ::accept4(service_.socket, nullptr, nullptr, SOCK_CLOEXEC | SOCK_NONBLOCK);
    const bool no_more_files = socket < 0 && (errno == EMFILE || errno == ENFILE);
    if (no_more_files || (socket >= 0 && visits_.open() >= static_cast<std::size_t>(bounds_.connections)))
      visits_.end_longest_silent();
    if (socket < 0) return;
    const int at_once = 1;
    ::setsockopt(socket, IPPROTO_TCP, TCP_NODELAY, &at_once, sizeof at_once);
    // Its address is asked for, and told to nobody.
    sockaddr_in from{};
    from.sin_family = AF_INET;
    MHD_add_connection(daemon_.get(), socket, reinterpret_cast<const sockaddr *>(&from), sizeof from);
  }
}

/// How long the server may sleep, in ms, before it looks at what is late.
int Server::longest_poll() const {
  const auto least = std::min({bounds_.head, bounds_.whole_body, bounds_.silence, std::chrono::milliseconds(4000)});
  MHD_UNSIGNED_LONG_LONG wanted = 0;
  const auto ours = static_cast<int>(least.count() / 4);
  if (MHD_get_timeout(daemon_.get(), &wanted) != MHD_YES) return ours;
  return static_cast<int>(std::min(static_cast<MHD_UNSIGNED_LONG_LONG>(ours), wanted));
}

void Server::run() {
  const int library = MHD_get_daemon_info(daemon_.get(), MHD_DAEMON_INFO_EPOLL_FD)->epoll_fd;
  std::array<pollfd, 4> waited{pollfd{library, POLLIN, 0}, pollfd{service_.socket, POLLIN, 0},
                               pollfd{workers_.readable(), POLLIN, 0}, pollfd{signals_.readable(), POLLIN, 0}};
  Clock::time_point looked = Clock::now();
  if (!service_.begun()) return;
  while (!service_.is_over()) {
    if (::poll(waited.data(), waited.size(), longest_poll()) < 0 && errno != EINTR) return;
    if (waited[3].revents != 0) return;
    if (waited[1].revents != 0) accept_some();
    if (waited[2].revents != 0) hand_out();
    MHD_run(daemon_.get());
    if (Clock::now() - looked < std::chrono::milliseconds(50)) continue;
    visits_.end_late();
    looked = Clock::now();
  }
}

/// What a worker has begun is answered; the rest is told that there is no more.
void Server::end_all() {
  if (daemon_ == nullptr) return;
  signals_.let_through();
  workers_.stop();
  hand_out();
  for (Exchange *const exchange : std::exchange(being_answered_, {})) {
    exchange->reply = line(MHD_HTTP_SERVICE_UNAVAILABLE, "the program has ended");
    MHD_resume_connection(exchange->connection);
  }
  for (int i = 0; i < 8; ++i)
    MHD_run(daemon_.get());
  daemon_.reset();
}

} // namespace

} // namespace gatherwright::page

extern "C" [[gnu::visibility("default")]] gatherwright::cli::Ended
gatherwright_serve(const gatherwright::page::ServiceTold &service, std::optional<std::string> &why_not) {
  return gatherwright::cli::contained([&] {
    try {
      gatherwright::page::Server server(service);
      if (server.can_serve())
        server.run();
      else
        why_not = std::strerror(errno);
    } catch (const std::system_error &failed) {
      why_not = failed.code().message();
    }
  });
}
