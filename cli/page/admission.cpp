// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/admission.hpp"

#include "cli/page/secret.hpp"

#include <algorithm>

namespace gatherwright::page {

namespace {

Reply refused(int status, std::string_view why) {
  return {status, "text/plain; charset=utf-8", std::string(why) + "\n"};
}

bool is_json(std::string_view type) {
  static constexpr std::string_view json = "application/json";
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  return type.size() >= json.size() &&
         std::equal(json.begin(), json.end(), type.begin(), [&](char a, char b) { return a == lower(b); }) &&
         (type.size() == json.size() || type[json.size()] == ';' || type[json.size()] == ' ');
}

/// "/KEY/plan" in its two parts.
struct Path {
  std::string_view secret;
  std::optional<std::string_view> below; ///< none where no slash stands behind the secret
};

Path parts(std::string_view path) {
  if (path.starts_with('/')) path.remove_prefix(1);
  const std::size_t slash = path.find('/');
  if (slash == std::string_view::npos) return {path, std::nullopt};
  return {path.substr(0, slash), path.substr(slash + 1)};
}

bool is_sound(std::string_view path) {
  return path.starts_with('/') && path.find('\0') == std::string_view::npos &&
         path.find("..") == std::string_view::npos;
}

} // namespace

bool Admission::is_here(std::string_view host) const {
  const std::string port = ":" + std::to_string(port_);
  return host == "127.0.0.1" + port || host == "localhost" + port;
}

Reply Admission::lead_in(std::chrono::steady_clock::time_point now) {
  constexpr int see_other = 303;
  constexpr int gone = 410;
  if (ticket_->used) {
    ticket_came_again_ = true;
    return refused(gone, "This way in has been used. If that was not you, end gatherwright page and start it anew.");
  }
  ticket_->used = true;
  if (now - ticket_->given_out > Ticket::good_for)
    return refused(gone, "This way in was open for 30 seconds. Take the address that gatherwright page has printed, or "
                         "start it anew.");
  Reply reply{see_other, "text/plain; charset=utf-8", "\n"};
  reply.leads_to = "/" + key_ + "/";
  return reply;
}

Admitted Admission::admit(const Arrived &head, std::chrono::steady_clock::time_point now) {
  if (head.hosts.size() != 1 || !is_here(head.hosts.front()))
    return refused(403, "The page is at http://127.0.0.1:" + std::to_string(port_) + "/ and nowhere else.");
  if (!is_sound(head.path)) return refused(400, "This is no path of the page.");
  const Path path = parts(head.path);
  const bool has_key = is_secret(path.secret, key_);
  const bool has_ticket = ticket_ && is_secret(path.secret, ticket_->secret) && path.below == "";
  if (!has_key && !has_ticket) return refused(404, "There is nothing here.");
  const bool is_post = head.method == "POST";
  if (!is_post && head.method != "GET") return refused(405, "The page takes GET and POST.");
  if (has_ticket && is_post) return refused(405, "A way in is only looked at.");
  const bool is_ours = head.origins.size() == 1 && head.origins.front() == "http://" + head.hosts.front();
  if (!is_ours && (is_post || !head.origins.empty())) return refused(403, "Only the page itself may ask.");
  if (is_post && (head.types.size() != 1 || !is_json(head.types.front())))
    return refused(415, "The page takes application/json.");
  if (has_ticket) return lead_in(now);
  if (!path.below) {
    Reply reply{303, "text/plain; charset=utf-8", "\n"};
    reply.leads_to = "/" + key_ + "/";
    return reply;
  }
  return Request{head.method, std::string(*path.below), {}};
}

} // namespace gatherwright::page
