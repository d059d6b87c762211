// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/tapes.hpp"

#include "cli/report/plan_words.hpp"
#include "cli/words/figures.hpp"
#include "gatherwright/formula.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace gatherwright::page {

namespace {

using report::JsonText;
using report::Key;

/// What each symbol of a formula stands for in this plan: measures, lengths, the cloth's width.
std::vector<Affine> values_in(const Job &job, const Plan &plan) {
  std::vector<Affine> values;
  for (const Measure &measure : job.measures)
    values.push_back({measure.is.mm, {}});
  for (const LengthPlan &length : plan.lengths)
    values.push_back({length.is.value_or(0), {}});
  values.push_back({job.fabric.width ? job.fabric.width->mm : 0, {}});
  return values;
}

/// What is within a millionth of a step is on it, as everywhere on the tape.
constexpr double near = 1e-6;
double up(double steps) {
  return std::ceil(steps - near);
}
double down(double steps) {
  return std::floor(steps + near);
}

/// What the job asks of a length, in steps; nothing where that is no figure.
struct AskedFor {
  std::optional<double> from, to, aim;
};

AskedFor asked_for(const NamedLength &length, const std::vector<Affine> &values, double step) {
  const FreeLength *const free = length.free();
  if (free == nullptr) return {};
  const auto steps = [&](const Formula *formula) -> std::optional<double> {
    if (formula == nullptr) return std::nullopt;
    const auto value = evaluate(*formula, values);
    return value ? std::optional(value->constant / step) : std::nullopt;
  };
  return {steps(free->from ? &*free->from : nullptr), steps(free->to ? &*free->to : nullptr), steps(free->figure())};
}

/// Both ends of a part of the tape, in steps.
using Ends = std::array<std::optional<double>, 2>;

Ends tape_of(double is, double pin, const AskedFor &asked) {
  double first = asked.from ? up(*asked.from) : std::floor(std::min(pin, is) / 2);
  double last = asked.to ? down(*asked.to) : std::ceil(std::max(pin, is) * 1.5);
  first = std::min(first, pin);
  last = std::max({last, pin, first + 1});
  return {first, last};
}

std::optional<Ends> room_of(const LengthPlan &planned, double step) {
  if (!planned.room) return std::nullopt;
  const auto &[low, high] = *planned.room;
  return Ends{low ? std::optional(up(*low / step)) : std::nullopt,
              high ? std::optional(down(*high / step)) : std::nullopt};
}

void write_ends(JsonText &json, Key name, const Ends &ends) {
  json.key(name);
  json.open_array();
  for (const std::optional<double> &end : ends) {
    if (end)
      json.number(*end);
    else
      json.null();
  }
  json.close();
}

void write_read_off(JsonText &json, std::vector<double> places, const Tape &tape) {
  std::sort(places.begin(), places.end());
  places.erase(std::unique(places.begin(), places.end()), places.end());
  json.key("reads");
  json.open_object();
  for (const double place : places)
    json.text_field(fmt::format("{:.0f}", place), words::place(place * tape.step.mm, tape));
  json.close();
}

void write_tape(JsonText &json, const Job &job, const LengthPlan &planned, const AskedFor &asked) {
  const double step = job.tape_step.mm;
  const double is = std::round(*planned.is / step);
  const double pin = asked.aim ? std::round(*asked.aim) : is;
  const Ends ends = tape_of(is, pin, asked);
  const auto room = room_of(planned, step);
  std::vector<double> places{*ends[0], *ends[1]};
  json.open_object(JsonText::Lay::one_line);
  write_ends(json, "ends", ends);
  json.number_field("pin", pin);
  json.number_field("is", is);
  if (room) {
    write_ends(json, "room", *room);
    for (const std::optional<double> &end : *room)
      if (end) places.push_back(*end);
  }
  write_read_off(json, std::move(places), job.tape());
  if (const std::string says = report::room(job, planned); !says.empty()) json.text_field("says", says);
  json.close();
}

} // namespace

void write_tapes(JsonText &json, const Job &job, const Plan &plan) {
  const std::vector<Affine> values = values_in(job, plan);
  json.open_object();
  for (std::size_t i = 0; i < job.lengths.size(); ++i) {
    const LengthPlan &planned = plan.lengths.at(i);
    if (!planned.is) continue;
    json.key(job.lengths[i].name);
    write_tape(json, job, planned, asked_for(job.lengths[i], values, job.tape_step.mm));
  }
  json.close();
}

void write_rules(JsonText &json, const Job &job, const Plan &plan) {
  json.open_array();
  for (const report::RuleSaid &rule : report::rules_said(job, plan)) {
    json.open_object(JsonText::Lay::one_line);
    json.integer_field("rule", static_cast<long long>(rule.at));
    json.text_field("says", rule.sides);
    json.close();
  }
  json.close();
}

} // namespace gatherwright::page
