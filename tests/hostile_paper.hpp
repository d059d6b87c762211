// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/hostile_job.hpp"

#include <string>
#include <string_view>

/// Jobs that nobody sews, each hard for what is printed and drawn rather than for the solver, as text.
namespace gatherwright::hostile {

/// Joins within limits, each with so many marks, on edges of so many centimetres.
inline std::string joins_of_marks(int joins, int marks, int band = 100) {
  const std::string parts = R"(,"marks":{"parts":)" + std::to_string(marks - 1) + "}";
  return job("", "", listed(joins, [&](int i) {
               return join(i, std::to_string(2 * band) + " cm", std::to_string(band) + " cm", parts);
             }));
}

/// A letter, so many marks that combine with it, and the letters that are given.
inline std::string accented(int accents, std::string_view end = "") {
  std::string name = "e";
  for (int i = 0; i < accents; ++i)
    name += "\xcc\x81"; // U+0301
  return name.append(end);
}

/// One join within limits with a name in every place where a job may have one.
inline std::string named(const std::string &name) {
  const std::string quoted = "\"" + name + "\"";
  return "{\"title\":" + quoted + R"(,"fabric":{"weight":"165 g/m2"},"rules":[{"name":)" + quoted +
         R"(,"holds":"20 cm <= 30 cm"}],"joins":[{"name":)" + quoted +
         R"(,"long":"52 cm","band":"22 cm","segments":[)" + R"({"name":)" + quoted + R"(,"to":)" + quoted + "},{}]}]}";
}

/// Joins with names of so many letters, each of them another.
inline std::string joins_with_long_names(int joins, int letters) {
  return "{\"joins\":[" +
         listed(joins,
                [=](int i) {
                  std::string name(static_cast<std::size_t>(letters), 'n');
                  return "{\"name\":\"" + name.append(std::to_string(i)) + R"(","long":"52 cm","band":"22 cm"})";
                }) +
         "]}";
}

/// A path of so many curves, each a hump of 10 by 5 that is bent the other way than the one before.
inline std::string humps(int curves) {
  std::string path = "M 0 0";
  for (int i = 0; i < curves; ++i)
    path += i % 2 == 0 ? " q 5 10 10 0" : " q 5 -10 10 0";
  return path;
}

/// One join whose long edge is drawn in so many humps of millimetres, spread by the grain over so many segments.
inline std::string humps_by_grain(int curves, int segments, const std::string &kind = "gather") {
  const std::string wish = R"({"kind":")" + kind + R"(","spread":"grain"})";
  return R"({"unit":"mm","joins":[{"name":"frill","long":{"path":")" + humps(curves) + R"("},"band":)" +
         std::to_string(7 * curves) + R"(,"segments":[)" + listed(segments, [&](int) { return wish; }) + "]}]}";
}

} // namespace gatherwright::hostile
