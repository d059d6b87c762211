// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <random>
#include <string>

namespace gatherwright::tests {

/// A job with named lengths (some free, some derived), rules and joins of many shapes, within or without limits.
/// `chosen`: also joins in which a stretch could get too little of what the plan chooses, for its fade or at all.
inline std::string random_advice_job(std::mt19937_64 &random, bool chosen = false) {
  const auto whole = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
  const auto mm = [](int value) { return std::to_string(value) + " mm"; };
  const auto quoted = [](const std::string &text) { return "\"" + text + "\""; };
  std::string lengths = "\"a\": " + quoted(mm(whole(400, 1100))) + ", \"b\": " + quoted(mm(whole(200, 480))) +
                        ", \"c\": " + quoted("a / 2 + " + mm(whole(0, 200))) + ", \"p\": " + quoted(mm(whole(10, 60)));
  if (whole(0, 1))
    lengths += ", \"f\": {\"from\": " + quoted(mm(whole(200, 500))) + ", \"to\": " + quoted(mm(whole(600, 1200))) + "}";
  else
    lengths += ", \"f\": " + quoted(mm(whole(300, 900)));
  std::string rules;
  if (whole(0, 1)) rules = quoted("a + f <= " + mm(whole(1000, 2200)));
  if (whole(0, 2) == 0) rules += (rules.empty() ? "" : ", ") + quoted("b + 2 * p >= " + mm(whole(200, 500)));
  std::string joins;
  const int count = whole(1, 3);
  for (int j = 0; j < count; ++j) {
    static const char *const longs[] = {"a", "f", "c", "a"};
    const std::string long_edge = longs[whole(0, 3)];
    std::string segments;
    switch (whole(0, chosen ? 8 : 5)) {
    case 0:
      segments = R"({"kind": "gather"})";
      break;
    case 1:
      segments = R"({"kind": "flat", "long": "p"}, {"kind": "gather"}, {"kind": "gather"})";
      break;
    case 2:
      segments =
          R"({"kind": "gather", "band": "b / 3"}, {"kind": "gather", "share": 2}, {"kind": "ease", "band": "40 mm"})";
      break;
    case 3:
      segments = R"({"kind": "gather", "long": ")" + long_edge + R"( / 2"}, {"kind": "gather", "long": ")" + long_edge +
                 R"( / 2"})";
      break;
    case 5:
      segments = R"({"kind": "flat"}, {"kind": "gather", "long": ")" + long_edge + R"( / 2"})";
      break;
    case 6:
      segments = R"({"kind": "gather", "long": ")" + long_edge +
                 R"( / 2"}, {"kind": "flat"}, {"kind": "gather", "band": "b / 4"})";
      break;
    case 7:
      segments =
          R"({"kind": "gather", "long": ")" + long_edge +
          R"( / 3", "spread": {"fade": ["40 mm", "30 mm"]}}, {"kind": "flat"}, {"kind": "ease", "band": "b / 4"})";
      break;
    case 8:
      segments = R"({"kind": "gather", "long": ")" + long_edge +
                 R"( / 2", "spread": {"fade": ["60 mm", "60 mm"]}}, {"kind": "gather", "long": ")" + long_edge +
                 R"( / 2"})";
      break;
    default:
      segments =
          R"({"kind": "gather", "band": "b / 2", "spread": {"fade": ["30 mm", "40 mm"]}}, {"kind": "flat"}, {"kind": "gather", "band": "b / 4"})";
      break;
    }
    joins += (j ? ", " : "") + ("{\"name\": \"j" + std::to_string(j)) + "\", \"long\": " + quoted(long_edge) +
             ", \"band\": " + (whole(0, 3) ? quoted("b") : quoted(mm(whole(200, 500)))) + ", \"segments\": [" +
             segments + "]}";
  }
  return "{\"fabric\": {\"weight\": \"165 g/m2\"}, \"lengths\": {" + lengths + "}, \"rules\": [" + rules +
         "], \"joins\": [" + joins + "]}";
}

} // namespace gatherwright::tests
