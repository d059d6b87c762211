// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/change_value.hpp"

#include "cli/page/text/edit.hpp"
#include "cli/page/text/laid_out.hpp"
#include "cli/page/text/long_form.hpp"
#include "cli/page/text/new_name.hpp"
#include "cli/page/text/scan.hpp"
#include "cli/page/text/way.hpp"
#include "cli/words/quoted.hpp"

#include <fmt/format.h>

#include <optional>
#include <span>

namespace gatherwright::page {

using cli::quoted;
using cli::Value;

namespace {

/// A text that was read, and the steps of a pointer into it.
struct At {
  Source source;
  std::vector<std::string> steps;
  std::string_view pointer;
};

Outcome<At, Faults> at(std::string_view text, std::string_view pointer) {
  auto source = source_of(text);
  if (!source) return std::move(source).fault();
  auto steps = steps_of(pointer);
  if (!steps) return fault_at(source->document.root(), pointer, steps.fault());
  return At{*std::move(source), *std::move(steps), pointer};
}

Outcome<Source, Faults> value_of(const At &at, std::string_view json) {
  auto value = source_of(json);
  if (value) return *std::move(value);
  const Fault fault = value.fault().front().fault;
  return fault_at(*way_to(at.source, at.steps).value, at.pointer, fault);
}

Faults nothing_there(const At &at, const Way &way) {
  return fault_at(*way.value, at.pointer, {"there is nothing at " + quoted(at.pointer), "choose what is in the job"});
}

std::string replaced(const Source &source, const Value &value, std::string_view written) {
  const Extent &extent = source.at(value);
  return edited(source.text, {{extent.begin, extent.end, std::string(written)}});
}

/// The room of what takes the place of a value.
Room room_of(const Source &source, const Value &value) {
  const Extent &extent = source.at(value);
  return {std::string(indentation_at(source.text, extent.begin)), begins_line(source.text, extent.key), false,
          indentation_step(source), std::string(line_end_of(source.text))};
}

/// Where the form has a new key: behind what comes before it there, else before what comes behind.
int place_for(const Source &source, const Value &object, Form form, std::string_view key) {
  const int count = source.document.count(object);
  const auto order = order_of(form, key);
  if (!order) return count;
  std::optional<std::pair<int, int>> before; // order, place
  std::optional<std::pair<int, int>> behind;
  for (const Value &child : source.document.children(object)) {
    const auto other = order_of(form, child.key);
    if (!other) continue;
    if (*other < *order && (!before || *other > before->first)) before = {*other, child.place};
    if (*other > *order && (!behind || *other < behind->first)) behind = {*other, child.place};
  }
  if (before) return before->second + 1;
  return behind ? behind->second : count;
}

std::string put_in(const Source &source, const Value &container, int place, Form form, const std::string &step,
                   std::span<const std::string> rest, const Source &value) {
  const Room room = room_at(source, container, place, row_of(form).many);
  const std::string within = made(step_from(form, step), rest, value, room);
  const std::string key = container.kind == Value::Kind::object ? quoted_json(step) + ": " : "";
  return with_member(source, container, place, room, key + within);
}

/// What the next step of the way does not find.
Changed add(const At &at, const Way &way, const Source &value) {
  const std::string &step = at.steps[way.taken];
  const std::span<const std::string> rest = std::span(at.steps).subspan(way.taken + 1);
  const Value &in = *way.value;
  const bool to_list = way.form == Form::side && (step == "-" || place_of(step));
  if (in.kind == Value::Kind::object && !to_list) {
    if (way.form == Form::measures || way.form == Form::lengths)
      if (auto fault = fault_of_new_name(at.source, step)) return fault_at(in, at.pointer, *fault);
    return put_in(at.source, in, place_for(at.source, in, way.form, step), way.form, step, rest, value);
  }
  if (in.kind == Value::Kind::list) {
    const int count = at.source.document.count(in);
    if (step == "-" || place_of(step) == count) return put_in(at.source, in, count, way.form, step, rest, value);
    return fault_at(in, at.pointer,
                    {fmt::format("there is no place {} in a list of {}", quoted(step), count),
                     fmt::format("write a whole number from 0 to {}", count)});
  }
  const Room room = room_of(at.source, in);
  const std::string within =
      made(step_from(way.form, step), rest, value, {room.indentation, false, false, room.step, room.line_end});
  if (const auto whole = way.by_short ? std::nullopt : long_form(way.form, at.source.written(in), step, within))
    return replaced(at.source, in, *whole);
  return fault_at(in, at.pointer,
                  {"what stands here has no " + quoted(step), "write an object in braces in its place"});
}

/// Takes away what is there.
Changed take_away(const At &at, const Way &way) {
  if (way.by_short) return replaced(at.source, *way.value, "{}");
  if (way.value->parent < 0) return fault_at(*way.value, at.pointer, {"this is the job itself", "choose a part of it"});
  return without_member(at.source, parent_of(at.source, *way.value), way.value->place);
}

/// A field is cleared: what holds nothing any more goes too, as far as a job may be without it.
Changed clear(const At &at) {
  const Way way = way_to(at.source, at.steps);
  if (way.taken < at.steps.size()) return std::string(at.source.text);
  Changed taken = take_away(at, way);
  if (!taken || at.steps.empty()) return taken;
  const auto left = source_of(*taken);
  if (!left) return left.fault();
  std::string_view pointer = at.pointer;
  for (int step = way.only_part ? 2 : 1; step > 0; --step)
    pointer = pointer.substr(0, pointer.rfind('/'));
  const std::vector<std::string> outer = *steps_of(pointer);
  const Way holder = way_to(*left, outer);
  const bool empty =
      holder.taken == outer.size() && is_container(*holder.value) && left->written(*holder.value).size() == 2;
  return empty && row_of(holder.form).optional ? with_value(*taken, pointer, "null") : taken;
}

bool is_null(const Source &value) {
  return value.document.root().kind == Value::Kind::null;
}

} // namespace

Changed with_value(std::string_view text, std::string_view pointer, std::string_view json) {
  const auto place = at(text, pointer);
  if (!place) return place.fault();
  const auto value = value_of(*place, json);
  if (!value) return value.fault();
  if (is_null(*value)) return clear(*place);
  const Way way = way_to(place->source, place->steps);
  if (way.taken < place->steps.size()) return add(*place, way, *value);
  return replaced(place->source, *way.value, made(way.form, {}, *value, room_of(place->source, *way.value)));
}

Changed with_inserted(std::string_view text, std::string_view pointer, std::string_view json) {
  const auto place = at(text, pointer);
  if (!place) return place.fault();
  const auto value = value_of(*place, json);
  if (!value) return value.fault();
  const Way way = way_to(place->source, place->steps);
  if (way.taken < place->steps.size()) return add(*place, way, *value);
  const Source &source = place->source;
  if (way.only_part) {
    const Room room{"", false, false, "", ""};
    return replaced(source, *way.value,
                    *long_form(Form::side, source.written(*way.value), "0", laid_out(*value, room)));
  }
  if (way.value->parent >= 0 && !way.by_short) {
    const Value &list = parent_of(source, *way.value);
    const std::vector<std::string> outer(place->steps.begin(), place->steps.end() - 1);
    if (list.kind == Value::Kind::list)
      return put_in(source, list, way.value->place, way_to(source, outer).form, place->steps.back(), {}, *value);
  }
  return fault_at(*way.value, pointer,
                  {place->steps.empty() ? "there is a job already" : quoted(place->steps.back()) + " is there already",
                   "choose another name"});
}

Changed with_removed(std::string_view text, std::string_view pointer) {
  const auto place = at(text, pointer);
  if (!place) return place.fault();
  const Way way = way_to(place->source, place->steps);
  if (way.taken < place->steps.size()) return nothing_there(*place, way);
  return take_away(*place, way);
}

Changed with_moved(std::string_view text, std::string_view pointer, int to) {
  const auto place = at(text, pointer);
  if (!place) return place.fault();
  const Way way = way_to(place->source, place->steps);
  if (way.taken < place->steps.size() || way.value->parent < 0) return nothing_there(*place, way);
  if (way.by_short || way.only_part) {
    if (to == 0) return std::string(text);
    return fault_at(*way.value, pointer, {"it stands alone", "move it to place 0"});
  }
  const Value &container = parent_of(place->source, *way.value);
  const int count = place->source.document.count(container);
  if (to < 0 || to >= count)
    return fault_at(*way.value, pointer,
                    {fmt::format("there is no place {} among {}", to, count),
                     fmt::format("write a whole number from 0 to {}", count - 1)});
  if (to == way.value->place) return std::string(text);
  return with_member_moved(place->source, container, way.value->place, to);
}

} // namespace gatherwright::page
