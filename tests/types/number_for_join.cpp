// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/told.hpp"

using namespace gatherwright;

const Join &join(const Job &job, JoinId id) {
  return job[id];
}

const Join &first_join(const Job &job) {
  return join(job, 0); // refused: a number is no join
}
