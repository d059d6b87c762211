// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/told.hpp"

using namespace gatherwright;

const NamedLength &length(const Job &job, LengthId id) {
  return job[id];
}

const NamedLength &length_of_join(const Job &job, JoinId id) {
  return length(job, id); // refused: a join is no length
}
