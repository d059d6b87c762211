// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/long_form.hpp"

#include "cli/page/text/laid_out.hpp"

#include <utility>
#include <vector>

namespace gatherwright::page {

namespace {

bool counts(std::string_view step) {
  return step == "-" || place_of(step);
}

std::string pair_of(std::string_view key, std::string_view value) {
  return quoted_json(key) + ": " + std::string(value);
}

} // namespace

std::string made(Form form, std::span<const std::string> steps, const Source &value, const Room &room) {
  Room inner = room;
  if (steps.empty()) {
    inner.lines_within = room.lines_within || row_of(form).many;
    return laid_out(value, inner);
  }
  const std::string &step = steps.front();
  const FormRow &row = row_of(form);
  const Form inner_form = step_from(form, step);
  if (form == Form::side && counts(step)) return made(inner_form, steps.subspan(1), value, room);
  inner.own_line = room.own_line && row.many;
  if (inner.own_line) inner.indentation += room.step;
  std::string within = made(inner_form, steps.subspan(1), value, inner);
  const bool list = counts(step) && (row.list || (row.keys.empty() && !row.each));
  if (!list) within.insert(0, quoted_json(step) + ": ");
  if (form == Form::pair || form == Form::formulas) within += ", " + within;
  const std::string open = list ? "[" : "{";
  const std::string close = list ? "]" : "}";
  if (inner.own_line)
    return open + room.line_end + inner.indentation + within + room.line_end + room.indentation + close;
  return list ? open + within + close : open + " " + within + " " + close;
}

std::optional<std::string> long_form(Form form, std::string_view written, std::string_view step,
                                     std::string_view made) {
  const std::string is(written);
  const std::string put(made);
  if (form == Form::side && counts(step)) return "[" + (step == "0" ? put + ", " + is : is + ", " + put) + "]";
  if (form == Form::by_side && order_of(form, step)) {
    std::string sides;
    for (const FormKey &side : row_of(form).keys)
      sides += (sides.empty() ? "" : ", ") + pair_of(side.key, side.key == step ? made : written);
    return "{ " + sides + " }";
  }
  if (form == Form::spread || (form == Form::edge && step == "path") || (form == Form::length && step == "aim"))
    return "{ " + pair_of(step, made) + " }";
  // A length that is now to be found is to come near to what it was.
  if (form == Form::length && (step == "from" || step == "to"))
    return "{ " + pair_of(step, made) + ", " + pair_of("aim", written) + " }";
  const std::string_view short_for = row_of(form).short_for;
  if (short_for.empty()) return std::nullopt;
  const bool first = order_of(form, step).value_or(1000) < order_of(form, short_for).value_or(0);
  const std::string own = pair_of(short_for, written);
  const std::string other = pair_of(step, made);
  return "{ " + (first ? other + ", " + own : own + ", " + other) + " }";
}

} // namespace gatherwright::page
