// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/change_length.hpp"

#include "cli/job/read_job.hpp"
#include "cli/page/text/added_quantity.hpp"
#include "cli/page/text/change_value.hpp"
#include "cli/page/text/length_written.hpp"
#include "cli/page/text/way.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/plan.hpp"

#include <cmath>

namespace gatherwright::page {

using cli::quoted;
using cli::Value;

namespace {

/// So many steps on from the step nearest to a length; half way, from the lower.
double steps_on(double mm, int steps, Length step) {
  return (std::ceil(mm / step.mm - 0.5 - 1e-6) + steps) * step.mm;
}

/// A number or a text spelt as what stood there; nothing for a text that is not there.
std::string spelt_as(double mm, const Tape &tape, const Value *before) {
  if (before && before->kind == Value::Kind::number) return number_written(mm, tape.unit);
  return quoted_json(length_written(mm, tape, before ? before->text : std::string_view()));
}

/// A formula with the quantity in it moved.
std::string with_quantity(std::string_view formula, const AddedQuantity &quantity, double mm, const Tape &tape) {
  const std::string_view before = formula.substr(quantity.begin, quantity.end - quantity.begin);
  const std::string written = length_written(std::fabs(mm), tape, before);
  std::string result(formula.substr(0, quantity.sign));
  if (quantity.between)
    result += mm < 0 ? '-' : '+';
  else if (mm < 0)
    result += '-';
  if (quantity.signed_before) {
    const std::string_view gap = formula.substr(quantity.sign + 1, quantity.begin - quantity.sign - 1);
    if (quantity.between) result += gap;
  }
  result += written;
  result += formula.substr(quantity.end);
  return result;
}

/// A length of a job that was read, to be moved.
class Slider {
public:
  Slider(std::string_view text, std::string_view pointer, const Value &entry, const Job &job, int steps)
      : text_(text), pointer_(pointer), entry_(entry), job_(job), tape_(job.tape()), steps_(steps) {}

  Changed given(const Value &is, std::string_view at) const {
    if (const auto quantity = lone(is)) return moved_to(*quantity, at, &is);
    if (const auto added = added_quantity(is.text, tape_.unit)) return moved_in(is, *added, at);
    return fault(
        {quoted(entry_.key) + " is worked out as " + quoted(is.text) + ", with not one length added to the rest",
         "change the formula, or what it is made of"});
  }

  /// What is aimed at, or what it was planned to be.
  Changed to_find(const Value *aim, LengthId id) const {
    const std::string at = std::string(pointer_) + "/aim";
    const FreeLength &free = *job_[id].free();
    if (free.figure()) {
      if (const auto quantity = lone(*aim)) return moved_to(*quantity, at, aim);
      if (const auto added = added_quantity(aim->text, tape_.unit)) return moved_in(*aim, *added, at);
    }
    const PlanOutcome planned = plan(job_, {.advice = false, .layouts = false});
    const auto is = planned ? planned->lengths[static_cast<std::size_t>(id.at)].is : std::nullopt;
    if (!is) return fault({"there is no plan from which to move " + quoted(entry_.key), "write its \"aim\""});
    if (!free.figure()) return moved_to(*is, at, nullptr);
    std::vector<Affine> values;
    for (const Measure &measure : job_.measures)
      values.push_back({measure.is.mm, {}});
    for (const LengthPlan &length : planned->lengths)
      values.push_back({length.is.value_or(0), {}});
    values.push_back({job_.fabric.width ? job_.fabric.width->mm : 0, {}});
    const auto aimed = evaluate(*free.figure(), values);
    return moved_to(aimed ? aimed->constant : *is, at, nullptr);
  }

private:
  /// What is one quantity and nothing else.
  std::optional<double> lone(const Value &value) const {
    const auto length = read_length(value.text, tape_.unit);
    return length ? std::optional(length->mm) : std::nullopt;
  }

  Changed moved_to(double from, std::string_view at, const Value *before) const {
    const double to = steps_on(from, steps_, tape_.step);
    if (!(to > 0)) return fault({quoted(entry_.key) + " would come to nothing", "move it by fewer steps"});
    if (!(to <= 1e9)) return fault({quoted(entry_.key) + " would be over 1000 km", "move it by fewer steps"});
    return with_value(text_, at, spelt_as(to, tape_, before));
  }

  Changed moved_in(const Value &value, const AddedQuantity &quantity, std::string_view at) const {
    const double to = steps_on(quantity.mm, steps_, tape_.step);
    if (!(std::fabs(to) <= 1e9)) return fault({"what is added would be over 1000 km", "move it by fewer steps"});
    return with_value(text_, at, quoted_json(with_quantity(value.text, quantity, to, tape_)));
  }

  Faults fault(Fault fault) const { return fault_at(entry_, pointer_, std::move(fault)); }

  std::string_view text_;
  std::string_view pointer_;
  const Value &entry_;
  const Job &job_;
  Tape tape_;
  int steps_;
};

} // namespace

Changed with_slid(std::string_view text, std::string_view pointer, int steps, const cli::Beside &beside) {
  const auto source = source_of(text);
  if (!source) return source.fault();
  const auto way_steps = steps_of(pointer);
  if (!way_steps) return fault_at(source->document.root(), pointer, way_steps.fault());
  const Way way = way_to(*source, *way_steps);
  const bool is_length = way.taken == way_steps->size() && way.form == Form::length && !way.by_short;
  if (!is_length) return fault_at(*way.value, pointer, {"there is no length at " + quoted(pointer), "choose a length"});
  const auto read = cli::read_job(text, beside);
  if (!read) return read.fault();
  const LengthId id(way.value->place); // a job without faults has no key twice
  const Slider slider(text, pointer, *way.value, read->job, steps);
  if (read->job[id].free()) return slider.to_find(source->document.child(*way.value, "aim"), id);
  const Value *is = source->document.child(*way.value, "is");
  return slider.given(is ? *is : *way.value, std::string(pointer) + "/is");
}

Changed with_length_at(std::string_view text, std::string_view pointer, double mm, const Tape &tape) {
  const auto source = source_of(text);
  if (!source) return source.fault();
  const auto steps = steps_of(pointer);
  if (!steps) return fault_at(source->document.root(), pointer, steps.fault());
  const Way way = way_to(*source, *steps);
  const Value *before = way.taken == steps->size() ? way.value : nullptr;
  return with_value(text, pointer, spelt_as(mm, tape, before));
}

} // namespace gatherwright::page
