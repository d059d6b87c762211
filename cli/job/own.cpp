// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/own.hpp"

namespace gatherwright::cli {

namespace {

template <class Value> void take_if_left_out(std::optional<Value> &own, const std::optional<Value> &jobs) {
  if (!own) own = jobs;
}

/// What is taken over from the same cloth alone.
void take_what_is_of_the_cloth(GivenFabric &cloth, const GivenFabric &jobs) {
  take_if_left_out(cloth.name, jobs.name);
  take_if_left_out(cloth.weight, jobs.weight);
  take_if_left_out(cloth.thickness, jobs.thickness);
  take_if_left_out(cloth.bending_length, jobs.bending_length);
  take_if_left_out(cloth.shrinks, jobs.shrinks);
  take_if_left_out(cloth.swatch, jobs.swatch);
  take_if_left_out(cloth.selvedge, jobs.selvedge);
  take_if_left_out(cloth.shrinkage, jobs.shrinkage);
  take_if_left_out(cloth.sold_by, jobs.sold_by);
  take_if_left_out(cloth.stock, jobs.stock);
}

} // namespace

GivenFabric laid_over(const GivenFabric &own, const GivenFabric &jobs) {
  GivenFabric cloth = own;
  take_if_left_out(cloth.width, jobs.width);
  if (!own.weight) take_what_is_of_the_cloth(cloth, jobs);
  return cloth;
}

GivenFabric cut_over(const GivenFabric &own, const GivenFabric &jobs) {
  GivenFabric cloth = own;
  take_if_left_out(cloth.width, jobs.width);
  take_if_left_out(cloth.sold_by, jobs.sold_by);
  const bool named_otherwise = own.name && *own.name != jobs.name.value_or("");
  if (!own.weight && !named_otherwise) take_what_is_of_the_cloth(cloth, jobs);
  return cloth;
}

GivenGathering laid_over(const GivenGathering &own, const GivenGathering &jobs) {
  GivenGathering gathering = own;
  if (!own.stitch) {
    take_if_left_out(gathering.threads, jobs.threads);
    take_if_left_out(gathering.count_per_mm, jobs.count_per_mm);
  }
  if (!own.stitch && !own.threads && !own.count_per_mm) {
    gathering.stitch = jobs.stitch;
    gathering.on_face = jobs.on_face;
  }
  take_if_left_out(gathering.rows, jobs.rows);
  take_if_left_out(gathering.tail, jobs.tail);
  take_if_left_out(gathering.longest, jobs.longest);
  return gathering;
}

Fabric fabric_of(const GivenFabric &given) {
  return {.name = given.name.value_or(""),
          .weight = given.weight,
          .width = given.width,
          .thickness = given.thickness,
          .bending_length = given.bending_length,
          .shrinks = given.shrinks.value_or(false),
          .swatch = given.swatch,
          .selvedge = given.selvedge,
          .shrinkage = given.shrinkage,
          .sold_by = given.sold_by,
          .stock = given.stock};
}

Gathering gathering_of(const GivenGathering &given) {
  Gathering gathering;
  gathering.stitch_given = given.stitch || given.threads;
  if (given.stitch) {
    gathering.stitch = *given.stitch;
    gathering.on_face = given.on_face;
  } else if (given.threads && given.count_per_mm) {
    const auto [taken_up, passed] = *given.threads;
    gathering.threads = CountedThreads{taken_up, passed, *given.count_per_mm};
    gathering.stitch = Length{(taken_up + passed) / 2 / *given.count_per_mm};
  }
  gathering.rows = given.rows;
  gathering.tail = given.tail.value_or(gathering.tail);
  gathering.longest = given.longest.value_or(gathering.longest);
  return gathering;
}

} // namespace gatherwright::cli
