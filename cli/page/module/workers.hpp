// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/machine/open_file.hpp"
#include "cli/page/server.hpp"

#include <condition_variable>
#include <list>
#include <mutex>
#include <thread>
#include <vector>

namespace gatherwright::page {

/// A request on its way through a worker. `of` is whatever its sender knows it by.
struct Work {
  void *of = nullptr;
  Request request;
  Reply reply;
};

/// Threads that answer requests in the order in which they come. However an answer ends, there is a reply.
class Workers {
public:
  /// Throws std::system_error where the system gives no threads.
  Workers(int count, const std::function<cli::Ended(const Request &, Reply &)> &answer);
  /// Requests that no worker has begun are dropped; those begun are waited for.
  ~Workers();
  Workers(const Workers &) = delete;
  Workers &operator=(const Workers &) = delete;

  void take(std::list<Work> work);
  /// Can be read while there is work done that was not handed out.
  int readable() const { return done_told_.number(); }
  std::list<Work> done();
  /// What no worker has begun, which none will now.
  void stop();

private:
  void run();

  const std::function<cli::Ended(const Request &, Reply &)> &answer_;
  cli::OpenFile done_told_;
  std::mutex lock_;
  std::condition_variable to_do_told_;
  std::list<Work> to_do_; // lists, since moving from one to another needs no memory
  std::list<Work> done_;
  bool stopped_ = false;
  std::vector<std::jthread> threads_;
};

} // namespace gatherwright::page
