// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/admission.hpp"
#include "cli/page/last_heard.hpp"
#include "cli/page/secret.hpp"

#include <catch2/catch.hpp>

#include <set>
#include <variant>

using namespace gatherwright::page;
using namespace std::chrono_literals;

namespace {

constexpr int port = 4321;
const std::string here = "127.0.0.1:4321";
const std::string key = "0123456789abcdef0123456789abcdef01234567";
const std::string ticket = "fedcba9876543210fedcba9876543210fedcba98";
const std::chrono::steady_clock::time_point start{};

Arrived get(const std::string &path) {
  return {"GET", path, {here}, {}, {}};
}

Arrived post(const std::string &path) {
  return {"POST", path, {here}, {"http://" + here}, {"application/json"}};
}

Admitted admit(const Arrived &head) {
  return Admission(port, key).admit(head, start);
}

/// The path below the key of what is let in.
std::string let_in(const Arrived &head) {
  const Admitted admitted = admit(head);
  REQUIRE(std::holds_alternative<Request>(admitted));
  CHECK(std::get<Request>(admitted).method == head.method);
  CHECK(std::get<Request>(admitted).body.empty());
  return std::get<Request>(admitted).path;
}

int status(const Admitted &admitted) {
  REQUIRE(std::holds_alternative<Reply>(admitted));
  const Reply &reply = std::get<Reply>(admitted);
  CHECK(reply.type == "text/plain; charset=utf-8");
  CHECK(reply.body.ends_with('\n'));
  return reply.status;
}

int refused(const Arrived &head) {
  return status(admit(head));
}

} // namespace

TEST_CASE("who has the key is let in") {
  CHECK(let_in(get("/" + key + "/")).empty());
  CHECK(let_in(get("/" + key + "/job")) == "job");
  CHECK(let_in(get("/" + key + "/a/b?c")) == "a/b?c");
  CHECK(let_in(post("/" + key + "/plan")) == "plan");
  Arrived head = post("/" + key + "/plan");
  head.hosts = {"localhost:4321"};
  head.origins = {"http://localhost:4321"};
  CHECK(let_in(head) == "plan");
  head = get("/" + key + "/page.js");
  head.origins = {"http://" + here};
  CHECK(let_in(head) == "page.js");
  head.types = {"text/plain", "text/plain"}; // of a GET it is of no account
  CHECK(let_in(head) == "page.js");
}

TEST_CASE("a request names this machine and this port, once") {
  for (const std::vector<std::string> &hosts : {std::vector<std::string>{},
                                                {here, here},
                                                {"evil.invalid"},
                                                {"127.0.0.1"},
                                                {"127.0.0.1:4322"},
                                                {"LOCALHOST:4321"},
                                                {"[::1]:4321"},
                                                {"127.0.0.1:4321 "},
                                                {""},
                                                {"localhost.:4321"},
                                                {here, "evil.invalid"}}) {
    Arrived head = get("/" + key + "/");
    head.hosts = hosts;
    CHECK(refused(head) == 403);
    head.path = "/wrong/";
    CHECK(refused(head) == 403); // whether the key is right is not to be learned from elsewhere
  }
}

TEST_CASE("a request is of the page itself") {
  for (const std::string origin : {"http://evil.invalid", "null", "", "https://127.0.0.1:4321", "http://127.0.0.1:4322",
                                   "http://localhost:4321", "http://127.0.0.1:4321/", "127.0.0.1:4321"}) {
    Arrived head = post("/" + key + "/plan");
    head.origins = {origin};
    CHECK(refused(head) == 403);
    head = get("/" + key + "/job");
    head.origins = {origin};
    CHECK(refused(head) == 403);
  }
  Arrived head = post("/" + key + "/plan");
  head.origins = {};
  CHECK(refused(head) == 403);
  head.origins = {"http://" + here, "http://" + here};
  CHECK(refused(head) == 403);
}

TEST_CASE("what is posted says that it is JSON") {
  Arrived head = post("/" + key + "/plan");
  for (const std::vector<std::string> &types : {std::vector<std::string>{},
                                                {""},
                                                {"text/plain"},
                                                {"application/jsonp"},
                                                {"application/json", "application/json"},
                                                {"text/plain; application/json"}}) {
    head.types = types;
    CHECK(refused(head) == 415);
  }
  for (const std::string type : {"application/json", "Application/JSON", "application/json; charset=utf-8"}) {
    head.types = {type};
    CHECK(let_in(head) == "plan");
  }
}

TEST_CASE("there are two methods") {
  for (const std::string method : {"HEAD", "PUT", "OPTIONS", "get", "", "DELETE"}) {
    Arrived head = post("/" + key + "/plan");
    head.method = method;
    CHECK(refused(head) == 405);
  }
}

TEST_CASE("a path with a NUL or two dots is refused, with the key or without") {
  for (const std::string &path :
       {std::string("/") + key + "/..", "/../" + key + "/", "/" + key + "/a..b",
        "/" + key + "/job" + std::string(1, '\0'), std::string("\0/", 2), std::string(), key + "/"})
    CHECK(refused(get(path)) == 400);
}

TEST_CASE("wrong keys are all answered alike") {
  std::set<std::string> said;
  std::string last_wrong = key;
  last_wrong.back() = '8';
  for (const std::string &wrong :
       {std::string(), std::string("x"), last_wrong, key.substr(1), key + "0", std::string(key.size(), '0'), ticket,
        std::string(5000, '0'), std::string("%30") + key.substr(1)}) {
    for (const std::string &path :
         {"/" + wrong, "/" + wrong + "/", "/" + wrong + "/job", "/" + wrong + "/" + key + "/"}) {
      for (Arrived head : {get(path), post(path)}) {
        CHECK(refused(head) == 404);
        said.insert(std::get<Reply>(admit(head)).body);
        head.method = "PUT"; // nor does anything else tell
        head.types = {"text/plain"};
        CHECK(refused(head) == 404);
      }
    }
  }
  CHECK(said.size() == 1);
}

TEST_CASE("without its last slash the key leads to the page") {
  const Admitted admitted = admit(get("/" + key));
  CHECK(status(admitted) == 303);
  CHECK(std::get<Reply>(admitted).leads_to == "/" + key + "/");
}

TEST_CASE("a ticket leads in once") {
  Admission admission(port, key);
  CHECK(status(admission.admit(get("/" + ticket + "/"), start)) == 404);
  admission.give_out({ticket, start});
  Arrived head = get("/" + ticket + "/");
  head.hosts = {"evil.invalid"};
  CHECK(status(admission.admit(head, start)) == 403);
  CHECK(status(admission.admit(post("/" + ticket + "/"), start)) == 405);
  CHECK(status(admission.admit(get("/" + ticket + "/job"), start)) == 404);
  CHECK(status(admission.admit(get("/" + ticket), start)) == 404);
  const Admitted led = admission.admit(get("/" + ticket + "/"), start + 30s);
  CHECK(status(led) == 303);
  CHECK(std::get<Reply>(led).leads_to == "/" + key + "/");
  CHECK_FALSE(admission.ticket_came_again());
  const Admitted again = admission.admit(get("/" + ticket + "/"), start + 30s);
  CHECK(status(again) == 410);
  CHECK_FALSE(std::get<Reply>(again).leads_to);
  CHECK(admission.ticket_came_again());
  CHECK(std::holds_alternative<Request>(admission.admit(get("/" + key + "/"), start + 99s)));
}

TEST_CASE("a ticket leads in within 30 seconds") {
  Admission admission(port, key);
  admission.give_out({ticket, start});
  const Admitted late = admission.admit(get("/" + ticket + "/"), start + 30s + 1ms);
  CHECK(status(late) == 410);
  CHECK_FALSE(std::get<Reply>(late).leads_to);
  CHECK_FALSE(admission.ticket_came_again());
}

TEST_CASE("a secret is 160 bits that nobody can foresee") {
  std::set<std::string> secrets;
  std::set<char> digits;
  for (int i = 0; i < 1000; ++i) {
    const std::string secret = new_secret();
    CHECK(secret.size() == 40);
    CHECK(secret.find_first_not_of("0123456789abcdef") == std::string::npos);
    digits.insert(secret.begin(), secret.end());
    secrets.insert(secret);
  }
  CHECK(secrets.size() == 1000);
  CHECK(digits.size() == 16);
}

TEST_CASE("a secret is that alone which is the same in every place") {
  CHECK(is_secret(key, key));
  for (std::size_t i = 0; i < key.size(); ++i) {
    std::string other = key;
    other[i] = 'x';
    CHECK_FALSE(is_secret(other, key));
    CHECK_FALSE(is_secret(key.substr(0, i), key));
  }
  CHECK_FALSE(is_secret("", key));
}

TEST_CASE("a page opened from the menu ends 15 minutes after the last word of it") {
  LastHeard last(start);
  CHECK_FALSE(last.is_long_ago(start + 15min));
  CHECK(last.is_long_ago(start + 15min + 1ms));
  last.heard(start + 15min);
  CHECK_FALSE(last.is_long_ago(start + 30min));
  CHECK(last.is_long_ago(start + 30min + 1ms));
}
