// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/module/exchanges.hpp"

#include <charconv>
#include <cstdint>
#include <string_view>

namespace gatherwright::page {

namespace {

bool is_called(std::string_view name, std::string_view wanted) {
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  if (name.size() != wanted.size()) return false;
  for (std::size_t i = 0; i < name.size(); ++i)
    if (lower(name[i]) != lower(wanted[i])) return false;
  return true;
}

struct Field {
  std::string_view name;
  std::string_view value;
};

template <class Each> void for_each_field(MHD_Connection *connection, Each each) {
  MHD_get_connection_values_n(
      connection, MHD_HEADER_KIND,
      [](void *given, MHD_ValueKind, const char *name, std::size_t name_size, const char *value,
         std::size_t value_size) {
        const Field field{{name, name_size}, value == nullptr ? "" : std::string_view(value, value_size)};
        try {
          (*static_cast<Each *>(given))(field);
        } catch (...) { // no memory: what is missing then keeps the request from being let in
          return MHD_NO;
        }
        return MHD_YES;
      },
      &each);
}

bool has_nul_within(const Exchange &exchange, const char *version) {
  const auto begins = reinterpret_cast<std::uintptr_t>(exchange.path_begins);
  const auto behind = reinterpret_cast<std::uintptr_t>(version);
  constexpr std::uintptr_t longest = 65536; // elsewhere the version is no neighbour of the path
  const std::uintptr_t ends = begins + exchange.path_as_sent.size();
  return behind > ends + 1 && behind - begins < longest;
}

} // namespace

Arrived head_of(const Exchange &exchange, const char *method, const char *version) {
  Arrived head{method, exchange.path_as_sent, {}, {}, {}};
  if (has_nul_within(exchange, version)) head.path += '\0'; // what stands behind it is lost
  for_each_field(exchange.connection, [&](const Field &field) {
    if (is_called(field.name, MHD_HTTP_HEADER_HOST)) head.hosts.emplace_back(field.value);
    if (is_called(field.name, MHD_HTTP_HEADER_ORIGIN)) head.origins.emplace_back(field.value);
    if (is_called(field.name, MHD_HTTP_HEADER_CONTENT_TYPE)) head.types.emplace_back(field.value);
  });
  return head;
}

BodyLength body_length(const Exchange &exchange) {
  int told = 0;
  bool sound = true;
  std::size_t length = 0;
  for_each_field(exchange.connection, [&](const Field &field) {
    if (is_called(field.name, MHD_HTTP_HEADER_TRANSFER_ENCODING)) sound = false;
    if (!is_called(field.name, MHD_HTTP_HEADER_CONTENT_LENGTH)) return;
    const char *const end = field.value.data() + field.value.size();
    const auto [read_to, failed] = std::from_chars(field.value.data(), end, length);
    sound = sound && ++told == 1 && failed == std::errc() && read_to == end;
  });
  if (!sound) return WithoutLength{};
  return length;
}

MHD_Result send(const Exchange &exchange) {
  const Reply &reply = *exchange.reply;
  // It is not altered: the library takes no text that it promises not to.
  auto *const body = const_cast<char *>(reply.body.data());
  MHD_Response *const response = MHD_create_response_from_buffer(reply.body.size(), body, MHD_RESPMEM_PERSISTENT);
  if (response == nullptr) return MHD_NO;
  bool whole = MHD_add_response_header(response, MHD_HTTP_HEADER_CONTENT_TYPE, reply.type.c_str()) == MHD_YES;
  for (const auto &[name, value] : every_head)
    whole = whole && MHD_add_response_header(response, name, value) == MHD_YES;
  if (reply.leads_to)
    whole = whole && MHD_add_response_header(response, MHD_HTTP_HEADER_LOCATION, reply.leads_to->c_str()) == MHD_YES;
  if (exchange.closes)
    whole = whole && MHD_add_response_header(response, MHD_HTTP_HEADER_CONNECTION, "close") == MHD_YES;
  const MHD_Result queued =
      whole ? MHD_queue_response(exchange.connection, static_cast<unsigned>(reply.status), response) : MHD_NO;
  MHD_destroy_response(response);
  return queued;
}

} // namespace gatherwright::page
