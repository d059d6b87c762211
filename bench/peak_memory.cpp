// SPDX-License-Identifier: GPL-3.0-or-later
// usage: peak_memory JOINS LENGTHS. Plans joins that are tied and prints the most memory that the process has had
// resident, in kilobytes, as the kernel counts it.

#include "bench/tied_job.hpp"
#include "gatherwright/plan.hpp"

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>

int main(int count, char **arguments) {
  using namespace gatherwright;
  if (count != 3) return 2;
  const auto read = cli::read_job(bench::tied_job(std::atoi(arguments[1]), std::atoi(arguments[2])));
  if (!read || !plan(read->job)) return 1;
  std::ifstream status("/proc/self/status");
  for (std::string word; status >> word;)
    if (word == "VmHWM:" && status >> word) {
      std::puts(word.c_str());
      return 0;
    }
  return 1;
}
