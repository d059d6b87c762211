// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/way.hpp"

namespace gatherwright::page {

using cli::Value;

bool is_container(const Value &value) {
  return value.kind == Value::Kind::object || value.kind == Value::Kind::list;
}

const Value *member_at(const Source &source, const Value &list, int place) {
  for (const Value &child : source.document.children(list))
    if (child.place == place) return &child;
  return nullptr;
}

const Value &parent_of(const Source &source, const Value &value) {
  return (&source.document.root())[value.parent];
}

Faults fault_at(const Value &value, std::string_view pointer, Fault fault) {
  return {{value.line, std::string(pointer), cli::with_short_halves(std::move(fault))}};
}

namespace {

const Value *next_on(const Source &source, const Value &value, const std::string &step) {
  if (value.kind == Value::Kind::object) return source.document.child(value, step);
  const auto place = value.kind == Value::Kind::list ? place_of(step) : std::nullopt;
  return place ? member_at(source, value, *place) : nullptr;
}

} // namespace

Way way_to(const Source &source, const std::vector<std::string> &steps) {
  Way way{.value = &source.document.root()};
  for (; way.taken < steps.size(); ++way.taken) {
    const std::string &step = steps[way.taken];
    const Value *next = way.by_short ? nullptr : next_on(source, *way.value, step);
    const bool only_part = !next && way.form == Form::side && way.value->kind != Value::Kind::list && step == "0";
    const bool by_short =
        !next && !only_part && !is_container(*way.value) && !step.empty() && step == row_of(way.form).short_for;
    if (!next && !only_part && !by_short) break;
    way.form = step_from(way.form, step);
    way.by_short = by_short;
    way.only_part = only_part;
    if (next) way.value = next;
  }
  return way;
}

} // namespace gatherwright::page
