// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/admission.hpp"
#include "cli/page/browser.hpp"
#include "cli/page/last_heard.hpp"
#include "cli/page/listener.hpp"
#include "cli/page/module.hpp"
#include "cli/page/requests.hpp"
#include "cli/page/secret.hpp"
#include "cli/planned.hpp"
#include "cli/start_jobs.hpp"

#include "cli/words/names.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <thread>

#include <unistd.h>

namespace gatherwright::cli {

namespace {

using std::chrono::steady_clock;

enum class Open { automatic, always, never };

struct Asked {
  std::uint16_t port = 0;
  Open open = Open::automatic;
};

Outcome<Asked, std::vector<std::string>> read_options(const PageRequest &request) {
  Asked asked;
  std::vector<std::string> faults;
  if (request.port) {
    const std::string &port = *request.port;
    const auto [end, failed] = std::from_chars(port.data(), port.data() + port.size(), asked.port);
    if (failed != std::errc() || end != port.data() + port.size())
      faults.push_back(option_fault(name_of<&PageRequest::port>, quoted(port) + " is no port",
                                    "write a whole number from 0 to 65535; 0 takes a free one"));
  }
  const std::string open = request.open.value_or("auto");
  if (open == "always")
    asked.open = Open::always;
  else if (open == "never")
    asked.open = Open::never;
  else if (open != "auto")
    faults.push_back(option_fault(name_of<&PageRequest::open>, "it is auto, always or never", "write --open auto"));
  if (request.job == "-")
    faults.push_back(option_fault(name_of<&PageRequest::job>,
                                  "the page writes the job too, which standard input "
                                  "does not take",
                                  "name a file"));
  if (!faults.empty()) return faults;
  return asked;
}

/// Why the page cannot show what stands in the job's file, if it cannot. It need not be there, nor be right.
std::optional<Answer> cannot_show(const std::string &path, const page::JobFile &file) {
  try {
    const auto now = file.read();
    if (!now || (is_utf8(now->text) && now->text.size() <= longest_text)) return std::nullopt;
  } catch (const page::CannotReadJob &fault) {
    return machine_fault(words::printable(path) + " cannot be read: " + fault.what());
  }
  const auto read = read_file(path);
  if (read) return std::nullopt;
  return read.fault();
}

std::vector<page::Start> starts() {
  std::vector<page::Start> starts;
  for (const StartJob &job : start_jobs())
    starts.push_back({job.name, job.summary, job.text});
  return starts;
}

/// The page while it is served, and whom it tells what.
class Served {
public:
  Served(const Asked &asked, const page::Listener &at, page::Desk desk, const Voice &voice)
      : asked_(asked), at_(at), desk_(desk), voice_(voice), key_(page::new_secret()), admission_(at.port, key_),
        ends_by_itself_(asked.open == Open::always && ::isatty(STDIN_FILENO) != 1), last_(steady_clock::now()) {}

  page::Service service() {
    page::Service service{.socket = at_.socket.number(),
                          .admit = [this](const page::Arrived &head) { return admit(head); },
                          .answer = [this](const page::Request &request) { return page::answer(request, desk_); },
                          .begun = [this] { tell_where(); },
                          .is_over = [this] { return ends_by_itself_ && last_.is_long_ago(steady_clock::now()); }};
    service.bounds.workers = std::clamp(static_cast<int>(std::thread::hardware_concurrency()), 1, most_workers);
    return service;
  }

  /// What is still to be said of where it is, where nothing was said at once.
  std::string held() const { return voice_.say ? "" : address(key_) + "\n"; }

private:
  static constexpr int most_workers = 64;

  std::string address(const std::string &secret) const {
    return fmt::format("http://127.0.0.1:{}/{}/", at_.port, secret);
  }

  void tell_where() {
    if (voice_.say) voice_.say(address(key_) + "\n");
    if (asked_.open == Open::never || (asked_.open == Open::automatic && !page::has_display())) return;
    const std::string ticket = page::new_secret();
    admission_.give_out({ticket, steady_clock::now()});
    if (!page::open_in_browser(address(ticket)) && voice_.tell)
      voice_.tell("gatherwright: there is no xdg-open to open the page with; open the address above in a browser\n");
  }

  page::Admitted admit(const page::Arrived &head) {
    const bool told = admission_.ticket_came_again();
    page::Admitted admitted = admission_.admit(head, steady_clock::now());
    if (std::holds_alternative<page::Request>(admitted)) last_.heard(steady_clock::now());
    if (!told && admission_.ticket_came_again() && voice_.tell)
      voice_.tell("gatherwright: the way in that the browser was given was used twice; if the page did not open for "
                  "you, somebody else has it: end this with Ctrl-C\n");
    return admitted;
  }

  const Asked &asked_;
  const page::Listener &at_;
  page::Desk desk_;
  const Voice &voice_;
  std::string key_;
  page::Admission admission_;
  bool ends_by_itself_; ///< opened from the menu
  page::LastHeard last_;
};

} // namespace

Answer answer(const PageRequest &request, const Voice &voice) {
  const auto asked = read_options(request);
  if (!asked) return unusable(asked.fault());
  const auto module = page::module();
  if (!module) return machine_fault(module.fault().what + "; " + module.fault().instead);
  page::JobFile file(request.job, module->digest);
  if (request.job)
    if (auto fault = cannot_show(*request.job, file)) return *std::move(fault);
  const auto listener = page::listen_at(asked->port);
  if (!listener) return machine_fault(fmt::format("port {} cannot be had: {}", asked->port, listener.fault().why));
  const std::vector<page::Start> offered = starts();
  Served served(*asked, *listener, {file, offered}, voice);
  std::optional<std::string> why_not;
  module->serve(served.service(), why_not);
  if (why_not) return machine_fault("the page cannot be served: " + *why_not);
  return {Status::within_limits, served.held(), {}};
}

} // namespace gatherwright::cli
