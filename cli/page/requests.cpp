// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/requests.hpp"

#include "cli/page/assets.hpp"
#include "cli/page/body.hpp"
#include "cli/page/change_asked.hpp"
#include "cli/page/faults.hpp"
#include "cli/page/papers.hpp"
#include "cli/page/patterns.hpp"
#include "cli/page/plan_answer.hpp"
#include "cli/page/save.hpp"
#include "cli/page/utf8.hpp"
#include "cli/page/wearers.hpp"
#include "cli/report/json_text.hpp"

#include <algorithm>
#include <array>

namespace gatherwright::page {

namespace {

using report::JsonText;

Reply line(int status, std::string_view says) {
  return {status, "text/plain; charset=utf-8", std::string(says) + "\n"};
}

Reply json_reply(JsonText &json, int status = 200) {
  return {status, "application/json", json.take()};
}

Reply asset(std::string_view name) {
  for (const Asset &each : assets())
    if (each.name == name) return {200, std::string(type_of(name)), std::string(each.text)};
  return line(404, "The page has no such part.");
}

Reply job(const Request &, const Desk &desk) {
  const std::optional<OnDisk> now = desk.file.read();
  JsonText json;
  json.open_object();
  text_or_null(json, "name", desk.file.name());
  json.text_field("text", now ? as_utf8(now->text) : "");
  text_or_null(json, "read", now ? std::optional(now->digest) : std::nullopt);
  json.close();
  return json_reply(json);
}

Reply starts(const Request &, const Desk &desk) {
  JsonText json;
  json.open_array();
  for (const Start &start : desk.starts) {
    json.open_object();
    json.text_field("name", start.name);
    json.text_field("summary", start.summary);
    json.text_field("text", start.text);
    json.close();
  }
  json.close();
  return json_reply(json);
}

Reply alive(const Request &, const Desk &desk) {
  JsonText json;
  json.open_object();
  text_or_null(json, "read", desk.file.digest());
  json.close();
  return json_reply(json);
}

/// None where no sheet is wanted.
std::optional<Width> width_of(const Body &body) {
  const auto width = body.text_if_any("width");
  if (!width) return std::nullopt;
  if (width == "wide") return Width::wide;
  if (width == "narrow") return Width::narrow;
  throw BadBody("\"width\" is wide or narrow");
}

/// To who asks for a change and what comes of it at once: the change cannot be made.
Reply refused(const std::vector<cli::InputFault> &faults) {
  JsonText json;
  json.open_object();
  json.truth_field("refused", true);
  write_faults(json, faults);
  json.close();
  return json_reply(json);
}

Reply plan_asked(const Request &request, const Desk &desk) {
  const Body body(request.body);
  PlanAsked asked{.width = width_of(body), .beside = desk.file.beside()};
  if (const auto *const given = body.member("have")) {
    if (!given->is_object()) throw BadBody("\"have\" is no object");
    for (const auto &[fragment, digest] : given->items())
      if (digest.is_string()) asked.have.emplace(fragment, digest.get_ref<const std::string &>());
  }
  if (const auto *const seen = body.member("seen")) {
    if (!seen->is_array()) throw BadBody("\"seen\" is no list");
    asked.seen.emplace();
    for (const auto &fragment : *seen)
      if (fragment.is_string()) asked.seen->insert(fragment.get<std::string>());
  }
  if (const auto *const held = body.member("held")) {
    if (!held->is_boolean()) throw BadBody("\"held\" is true or false");
    asked.held = held->get<bool>();
  }
  if (body.member("pointer") == nullptr) return {200, "application/json", plan_answer(body.text("text"), asked)};
  const auto text = changed(body.text("text"), change_of(body), desk.file.beside());
  if (!text) return refused(text.fault());
  asked.text_told = true;
  return {200, "application/json", plan_answer(*text, asked)};
}

Reply patterns(const Request &, const Desk &) {
  return {200, "application/json", patterns_answer()};
}

Reply change_asked(const Request &request, const Desk &desk) {
  const Body body(request.body);
  const auto text = changed(body.text("text"), change_of(body), desk.file.beside());
  if (!text) return faults_told(text.fault());
  JsonText json;
  json.open_object();
  json.text_field("text", *text);
  json.close();
  return json_reply(json);
}

Reply save_asked(const Request &request, const Desk &desk) {
  const Body body(request.body);
  return reply_to_save(desk.file.save({body.text("text"), body.text_if_any("read"), body.text_if_any("name")}));
}

Reply strips_asked(const Request &request, const Desk &desk) {
  return strips_file(Body(request.body), desk.file.beside());
}

Reply sheet_asked(const Request &request, const Desk &desk) {
  return sheet_file(Body(request.body), desk.file.beside());
}

Reply layout_asked(const Request &request, const Desk &desk) {
  return layout_file(Body(request.body), desk.file.beside());
}

Reply cast_asked(const Request &request, const Desk &desk) {
  return wearers_told(Body(request.body), desk.file.beside());
}

struct Route {
  std::string_view method;
  std::string_view path;
  Reply (*answer)(const Request &, const Desk &);
};

constexpr std::array routes{
    Route{"GET", "job", job},
    Route{"GET", "starts", starts},
    Route{"GET", "alive", alive},
    Route{"GET", "patterns", patterns},
    Route{"POST", "plan", plan_asked},
    Route{"POST", "change", change_asked},
    Route{"POST", "save", save_asked},
    Route{"POST", "strips", strips_asked},
    Route{"POST", "sheet", sheet_asked},
    Route{"POST", "layout", layout_asked},
    Route{"POST", "cast", cast_asked},
};

Reply routed(const Request &request, const Desk &desk) {
  const auto found =
      std::find_if(routes.begin(), routes.end(), [&](const Route &each) { return each.path == request.path; });
  if (found != routes.end() && found->method == request.method) return found->answer(request, desk);
  if (found != routes.end()) return line(405, "This is asked for by " + std::string(found->method) + ".");
  if (request.method != "GET") return line(404, "The page has no such part.");
  return asset(request.path.empty() ? "index.html" : request.path);
}

} // namespace

Reply answer(const Request &request, const Desk &desk) {
  try {
    return routed(request, desk);
  } catch (const BadBody &fault) {
    return line(400, fault.what());
  } catch (const CannotReadJob &fault) {
    return line(500, desk.file.name().value_or("the job") + " cannot be read: " + fault.what());
  }
}

} // namespace gatherwright::page
