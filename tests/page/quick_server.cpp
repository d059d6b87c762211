// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/admission.hpp"
#include "cli/page/listener.hpp"
#include "cli/page/module.hpp"

#include <chrono>
#include <iostream>
#include <new>
#include <stdexcept>
#include <string>
#include <thread>

// The module with little patience and little room, so that a hostile client need not wait long to see both end. It
// answers with what it was sent, waits where it is asked to, and throws where it is.

namespace {

using namespace gatherwright::page;
using namespace std::chrono_literals;

Reply answer(const Request &request) {
  if (request.path == "no-memory") throw std::bad_alloc();
  if (request.path == "fault") throw std::runtime_error("a fault");
  if (request.path == "nothing-of-the-kind") throw 5;
  if (request.path == "slow") std::this_thread::sleep_for(1s);
  if (request.path == "much") return {200, "text/plain", std::string(20'000'000, 'x')};
  return {200, "text/plain", request.method + " " + request.path + " " + request.body};
}

} // namespace

int main() {
  const auto module = gatherwright::page::module();
  const auto listener = listen_at(0);
  if (!module || !listener) return 3;
  const std::string key(40, 'a');
  Admission admission(listener->port, key);
  Service service{
      .socket = listener->socket.number(),
      .admit = [&](const Arrived &head) { return admission.admit(head, std::chrono::steady_clock::now()); },
      .answer = answer,
      .begun = [&] { std::cout << "http://127.0.0.1:" << listener->port << "/" << key << "/" << std::endl; }};
  service.bounds = {.connections = 40,
                    .workers = 2,
                    .body = 100'000,
                    .drained = 400'000,
                    .head = 700ms,
                    .whole_body = 1200ms,
                    .silence = 1500ms};
  std::optional<std::string> why_not;
  module->serve(service, why_not);
  return why_not ? 3 : 0;
}
