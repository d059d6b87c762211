// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/change_asked.hpp"

#include <array>
#include <limits>
#include <string>

namespace gatherwright::page {

namespace {

using Json = nlohmann::ordered_json;
using What = decltype(Change::what);

int whole(const Json &value, const char *key) {
  if (value.is_number_integer()) {
    const auto number = value.get<long long>();
    if (number >= std::numeric_limits<int>::min() && number <= std::numeric_limits<int>::max())
      return static_cast<int>(number);
  }
  throw BadBody(std::string("\"") + key + "\" is no whole number");
}

struct Way {
  const char *key;
  What (*read)(const Json &value, const char *key);
};

constexpr std::array ways{
    Way{"value", [](const Json &value, const char *) -> What { return SetValue{value.dump()}; }},
    Way{"insert", [](const Json &value, const char *) -> What { return Insert{value.dump()}; }},
    Way{"remove",
        [](const Json &value, const char *) -> What {
          if (value != true) throw BadBody("\"remove\" is true or not there");
          return Remove{};
        }},
    Way{"move", [](const Json &value, const char *key) -> What { return Move{whole(value, key)}; }},
    Way{"rename",
        [](const Json &value, const char *) -> What {
          if (!value.is_string()) throw BadBody("\"rename\" is no text");
          return Rename{value.get<std::string>()};
        }},
    Way{"slide", [](const Json &value, const char *key) -> What { return Slide{whole(value, key)}; }},
    Way{"remedy", [](const Json &value, const char *key) -> What { return TakeRemedy{whole(value, key)}; }},
    Way{"saving", [](const Json &value, const char *key) -> What { return TakeSaving{whole(value, key)}; }},
};

} // namespace

Change change_of(const Body &body) {
  std::optional<What> what;
  for (const Way &way : ways) {
    const Json *const value = body.member(way.key);
    if (value == nullptr) continue;
    if (what) throw BadBody("the body asks for more than one change");
    what = way.read(*value, way.key);
  }
  if (!what) throw BadBody("the body asks for no change");
  return {body.text("pointer"), *std::move(what)};
}

} // namespace gatherwright::page
