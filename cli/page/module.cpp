// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/module.hpp"

#include <exception>

namespace gatherwright::page {

void Module::serve(const Service &service, std::optional<std::string> &why_not) const {
  std::exception_ptr thrown;
  const auto goes_on = [&thrown](auto work) noexcept {
    try {
      return work();
    } catch (...) {
      thrown = std::current_exception();
      return false;
    }
  };
  const ServiceTold told{
      .socket = service.socket,
      .admit = [&](const Arrived &head,
                   Admitted &admitted) { return cli::contained([&] { admitted = service.admit(head); }); },
      .answer = [&](const Request &request,
                    Reply &reply) { return cli::contained([&] { reply = service.answer(request); }); },
      .begun = [&] { return goes_on([&] { return service.begun(), true; }); },
      .is_over = [&] { return !goes_on([&] { return !service.is_over(); }); },
      .bounds = service.bounds};
  const cli::Ended ended = serve_(told, why_not);
  if (thrown) std::rethrow_exception(thrown);
  cli::throw_unless_well(ended);
}

Outcome<Module> module() {
  const auto loaded = cli::load_module(module_file);
  if (loaded) {
    auto *const serve = loaded->function<Serve>(serve_name);
    auto *const digest = loaded->function<Digest>(digest_name);
    if (serve != nullptr && digest != nullptr) return Module{serve, digest};
  }
  return Fault{"the module that serves the page cannot be loaded: " + (loaded ? module_file : loaded.fault().why),
               "install the program whole"};
}

} // namespace gatherwright::page
