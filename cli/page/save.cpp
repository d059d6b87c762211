// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/save.hpp"

#include "cli/page/faults.hpp"
#include "cli/page/utf8.hpp"
#include "cli/report/json_text.hpp"
#include "cli/words/overloaded.hpp"

namespace gatherwright::page {

namespace {

using report::JsonText;

Reply saved(const Saved &saved) {
  JsonText json;
  json.open_object();
  json.text_field("read", saved.digest);
  json.text_field("name", saved.name);
  json.close();
  return {200, "application/json", json.take()};
}

Reply altered(const Altered &altered) {
  JsonText json;
  json.open_object();
  text_or_null(json, "text", altered.now ? std::optional(as_utf8(altered.now->text)) : std::nullopt);
  text_or_null(json, "read", altered.now ? std::optional(altered.now->digest) : std::nullopt);
  json.close();
  return {409, "application/json", json.take()};
}

Reply fault_of_name(int status, std::string what, std::string instead) {
  return {status, "application/json", faults_json({{0, "/name", {std::move(what), std::move(instead)}}})};
}

} // namespace

Reply reply_to_save(const SaveOutcome &outcome) {
  return std::visit(
      words::Overloaded{
          [](const Saved &it) { return saved(it); },
          [](const Altered &it) { return altered(it); },
          [](const NameTaken &it) {
            return fault_of_name(409, "there is a " + it.name + " already", "take another name");
          },
          [](const NoName &it) { return fault_of_name(200, it.why, "write a name such as smock"); },
          [](const CannotSave &it) {
            return Reply{500, "text/plain; charset=utf-8", it.name + " cannot be written: " + it.why + "\n"};
          },
      },
      outcome);
}

} // namespace gatherwright::page
