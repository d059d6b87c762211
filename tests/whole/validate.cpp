// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/validate.hpp"
#include "tests/good_jobs.hpp"
#include "tests/told.hpp"

#include <vector>

using namespace gatherwright;
using namespace gatherwright::tests;

TEST_CASE("a job that was read has no fault, and the same job with other measures may") {
  const std::vector<Job> jobs = good_jobs();
  CHECK(jobs.size() > 20);
  int faulty = 0;
  for (const Job &job : jobs) {
    INFO(job.joins[0].name);
    for (const PlacedFault &fault : validate(job))
      FAIL_CHECK(path_of(fault.place) << ": " << fault.fault.what);
    Job of_nobody = job;
    for (Measure &measure : of_nobody.measures)
      measure.is = Length{0};
    faulty += validate(of_nobody).empty() ? 0 : 1;
  }
  CHECK(faulty > 0);
}

TEST_CASE("figures at the ends of what may be read, and a rule written twice, have no fault once read") {
  const Job job = job_of(R"json({ "unit": "yd", "title": "", "tape_step": "1/16 in",
    "fabric": { "weight": "1000000 g/m2", "width": "100000 m", "swatch": { "cut": "3 cm", "tight": "3 cm" } },
    "gathering": { "threads": [1, 1000], "count": "9 / nail", "rows": 1000, "tail": 0, "longest": "0.000001 mm" },
    "measures": { "wrist": 0 }, "lengths": { "f": { "aim": "least" }, "g": "wrist + 0 * f" },
    "rules": [ "f\t>= wrist", "f\t>= wrist" ],
    "joins": [ { "name": " ", "long": "1 ell + g", "band": "f", "make": 1000000, "marks": { "parts": 1000000 },
      "segments": [ { "limits": { "least": 1, "ideal": 1000, "most": 1000 }, "share": 1e-6,
                      "spread": { "shape": [[0, 0], [1e-9, 1e6], [1, 1e-6]] } } ] } ] })json");
  for (const PlacedFault &fault : validate(job))
    FAIL_CHECK(path_of(fault.place) << ": " << fault.fault.what);
}
