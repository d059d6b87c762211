// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/made_job.hpp"
#include "tests/where.hpp"

#include <fstream>
#include <iterator>
#include <string>

/// Jobs whose worksheets are looked at, each with its plan.
namespace sheet_jobs {

struct Planned {
  gatherwright::Job job;
  gatherwright::Plan plan;
};

inline Planned planned(std::string_view text) {
  Planned made{gatherwright::tests::job_of(text), {}};
  made.plan = gatherwright::tests::plan_of(made.job, {.profile = true, .outlines = true});
  return made;
}

inline Planned planned_file(const std::string &path) {
  std::ifstream file(path, std::ios::binary);
  REQUIRE(file);
  return planned(std::string(std::istreambuf_iterator<char>(file), {}));
}

inline Planned smock() {
  return planned_file(in_project("docs/examples/porters-smock.json"));
}

inline Planned worked(const std::string &name) {
  return planned_file(test_data("worked/" + name + ".job.json"));
}

/// A neck far too full for its cloth that falls away at both ends, and too much ease; the title would be a script.
inline constexpr std::string_view too_full_text = R"({
  "title": "<script>alert(1)</script>\"&'",
  "fabric": { "weight": "165 g/m2" },
  "lengths": { "neck_edge": "150 cm", "collar": "42 cm" },
  "joins": [
    { "name": "neck <b>into</b> collar", "long": "neck_edge", "band": "collar", "segments": [
      { "name": "left", "kind": "flat", "long": "2 cm" },
      { "name": "all", "spread": { "fade": ["6 cm", "6 cm"] } },
      { "name": "right", "kind": "flat", "long": "2 cm", "to": "]]>" } ] },
    { "name": "cap", "long": "40 cm", "band": "36 cm", "segments": [{ "kind": "ease" }] } ] })";

} // namespace sheet_jobs
