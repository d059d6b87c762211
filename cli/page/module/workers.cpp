// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/module/workers.hpp"

#include <cerrno>
#include <cstdint>
#include <exception>
#include <system_error>
#include <utility>

#include <sys/eventfd.h>
#include <unistd.h>

namespace gatherwright::page {

namespace {

constexpr int failed = 500;

Reply reply_to(const Request &request, const std::function<cli::Ended(const Request &, Reply &)> &answer) {
  Reply reply;
  switch (answer(request, reply)) {
  case cli::Ended::well:
    break;
  case cli::Ended::without_memory:
    reply = {failed, "text/plain; charset=utf-8", "out of memory\n"};
    break;
  case cli::Ended::by_a_fault:
    reply = {failed, "text/plain; charset=utf-8", "stopped by a fault of its own; please report the job\n"};
    break;
  }
  return reply;
}

} // namespace

Workers::Workers(int count, const std::function<cli::Ended(const Request &, Reply &)> &answer)
    : answer_(answer), done_told_(::eventfd(0, EFD_CLOEXEC | EFD_NONBLOCK)) {
  if (!done_told_.is_open()) throw std::system_error(errno, std::generic_category());
  try {
    for (int i = 0; i < count; ++i)
      threads_.emplace_back([this] { run(); });
  } catch (...) {
    stop();
    throw;
  }
}

Workers::~Workers() {
  stop();
}

void Workers::stop() {
  {
    const std::lock_guard lock(lock_);
    stopped_ = true;
    to_do_.clear();
  }
  to_do_told_.notify_all();
  threads_.clear(); // ends when they have ended
}

void Workers::take(std::list<Work> work) {
  {
    const std::lock_guard lock(lock_);
    to_do_.splice(to_do_.end(), work);
  }
  to_do_told_.notify_one();
}

std::list<Work> Workers::done() {
  std::uint64_t count = 0;
  [[maybe_unused]] const ssize_t got = ::read(done_told_.number(), &count, sizeof count);
  const std::lock_guard lock(lock_);
  return std::exchange(done_, {});
}

void Workers::run() {
  std::unique_lock lock(lock_);
  for (;;) {
    to_do_told_.wait(lock, [&] { return stopped_ || !to_do_.empty(); });
    if (stopped_) return;
    std::list<Work> work;
    work.splice(work.end(), to_do_, to_do_.begin());
    lock.unlock();
    work.front().reply = reply_to(work.front().request, answer_);
    work.front().request = {};
    lock.lock();
    done_.splice(done_.end(), work);
    const std::uint64_t one = 1;
    [[maybe_unused]] const ssize_t written = ::write(done_told_.number(), &one, sizeof one);
  }
}

} // namespace gatherwright::page
