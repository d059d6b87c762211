// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/findings.hpp"

#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

namespace gatherwright::words {

namespace {

/// What each edge alone would have to be. The two bounds round to the side that holds.
std::string alone(const Job &job, const Finding &finding, bool too_much) {
  const Tape tape = job.tape();
  std::string text;
  if (finding.long_alone)
    text += too_much ? fmt::format(" With the band as it is the long edge could be {} at most",
                                   length_down(*finding.long_alone, tape))
                     : fmt::format(" With the band as it is the long edge would have to be {} at least",
                                   length_up(*finding.long_alone, tape));
  if (finding.band_alone) {
    text += finding.long_alone ? "; with" : " With";
    text += too_much ? fmt::format(" the long edge as it is the band would have to be {} at least",
                                   length_up(*finding.band_alone, tape))
                     : fmt::format(" the long edge as it is the band could be {} at most",
                                   length_down(*finding.band_alone, tape));
  }
  return text.empty() ? text : text + ".";
}

const Segment *segment_of(const Job &job, const Finding &finding) {
  return finding.segment < 0 ? nullptr : &job.joins.at(finding.join).segments.at(finding.segment);
}

std::string too_scant(const Job &job, const Finding &finding) {
  const Segment *segment = segment_of(job, finding);
  const Pair figures = ratios(finding.measured, finding.limit);
  const bool own = segment != nullptr && segment->limits.least.has_value();
  const bool gauged = segment != nullptr && segment->kind == Kind::gauge;
  const std::string_view against = own      ? "less than you allow here"
                                   : gauged ? "too scant to be gauged"
                                            : "too scant to read as gathers in this cloth";
  return fmt::format("{}: {} to 1 is {} ({} to 1 at least).", where(job, finding.join, finding.segment),
                     figures.measured, against, figures.limit) +
         alone(job, finding, false);
}

std::string too_full(const Job &job, const Finding &finding) {
  const Segment *segment = segment_of(job, finding);
  const Pair figures = ratios(finding.measured, finding.limit);
  const bool own = segment != nullptr && segment->limits.most.has_value();
  return fmt::format("{}: {} to 1 is more than {} ({} to 1 at most).", where(job, finding.join, finding.segment),
                     figures.measured, own ? "you allow here" : "this cloth takes", figures.limit) +
         alone(job, finding, true);
}

std::string ease_too_full(const Job &job, const Finding &finding) {
  const Segment *segment = segment_of(job, finding);
  const Pair figures = ease_percents(finding.measured, finding.limit);
  const bool own = segment != nullptr && segment->limits.most.has_value();
  return fmt::format("{}: {} of ease is more than {} ({} at most).", where(job, finding.join, finding.segment),
                     figures.measured, own ? "you allow here" : "works in without a fold", figures.limit) +
         alone(job, finding, true);
}

std::string past_packed(const Job &job, const Finding &finding) {
  const Segment *segment = segment_of(job, finding);
  const bool eased = segment != nullptr && segment->kind == Kind::ease;
  const Pair figures = eased ? ease_percents(finding.measured, finding.limit) : ratios(finding.measured, finding.limit);
  const std::string_view of = eased ? "of ease" : "to 1";
  return fmt::format("{}: {} {} cannot be drawn up: drawn up tight, this cloth comes to {} {} with a {} stitch.",
                     where(job, finding.join, finding.segment), figures.measured, of, figures.limit,
                     eased ? "of it" : "to 1", small_length(job.joins.at(finding.join).gathering.stitch.mm)) +
         alone(job, finding, true);
}

std::string less_than_band(const Job &job, const Finding &finding) {
  const Pair figures = lengths(finding.measured, finding.limit, job.tape());
  return fmt::format("{}: there is less cloth ({}) than the edge it is sewn to ({}).",
                     where(job, finding.join, finding.segment), figures.measured, figures.limit) +
         alone(job, finding, false);
}

std::string swapped(const Job &job, const Finding &finding) {
  const Pair figures = lengths(finding.measured, finding.limit, job.tape());
  return fmt::format("{}: the long edge ({}) is shorter than the edge it is sewn to ({}). The other way round it would "
                     "be within limits: are long and band swapped?",
                     where(job, finding.join, finding.segment), figures.measured, figures.limit);
}

std::string flat_unequal(const Job &job, const Finding &finding) {
  const Pair figures = lengths(finding.measured, finding.limit, job.tape());
  return fmt::format("{}: a plain stretch must be as long on both edges; it is {} on the long edge and {} on the band.",
                     where(job, finding.join, finding.segment), figures.measured, figures.limit);
}

std::string rule_broken(const Job &job, const Finding &finding) {
  const Rule &rule = job.rules.at(finding.rule);
  const Pair figures = lengths(finding.measured, finding.limit, job.tape());
  const std::string_view against = rule.holds.relation == Relation::at_most    ? "more than"
                                   : rule.holds.relation == Relation::at_least ? "less than"
                                                                               : "not";
  return fmt::format("{} does not hold: {} is {} {}.", rule_called(rule), figures.measured, against, figures.limit);
}

/// "Make the cuff 23.4 cm instead of 22 cm (1.4 cm longer)."
std::string make_it(const std::string &what, const Job &job, const Remedy &remedy) {
  const Tape tape = job.tape();
  const double by = remedy.by;
  const double is = remedy.to - by;
  return fmt::format("Make {} {} instead of {} ({} {}).", what, length(remedy.to, tape), length(is, tape),
                     nearest_length(by < 0 ? -by : by, tape), by < 0 ? "shorter" : "longer");
}

/// A free length changes by an end of its range.
std::string length_remedy(const Job &job, const Remedy &remedy) {
  const NamedLength &changed = job.lengths.at(remedy.length);
  const std::string called = printable(changed.name);
  if (!changed.free) return make_it("the " + called, job, remedy);
  const std::string end = length(remedy.to - remedy.by, job.tape());
  return remedy.by < 0 ? fmt::format("Let the {} be as short as {}; the job now keeps it to {} or more.", called,
                                     length(remedy.to, job.tape()), end)
                       : fmt::format("Let the {} be as long as {}; the job now keeps it to {} or less.", called,
                                     length(remedy.to, job.tape()), end);
}

std::string weight_remedy(const Remedy &remedy) {
  return fmt::format("Take a {} cloth: {}, where this one is {}.", remedy.by < 0 ? "lighter" : "heavier",
                     weight(remedy.to), weight(remedy.to - remedy.by));
}

std::string stitch_remedy(const Job &job, const Remedy &remedy) {
  const std::string of_join =
      job.joins.size() > 1 ? fmt::format(" for {}", where(job, remedy.edge_join, -1)) : std::string();
  return fmt::format("Take a {} stitch{}: {} hole to hole instead of {}.", remedy.by < 0 ? "shorter" : "longer",
                     of_join, small_length(remedy.to), small_length(remedy.to - remedy.by));
}

/// What a stretch that is worked otherwise must change besides, as the trial of it did.
std::string goes_with_kind(const Segment &segment, Kind becomes) {
  const bool limits = segment.limits.least || segment.limits.ideal || segment.limits.most;
  const bool spread = becomes == Kind::gauge && segment.spread.form != SpreadWish::Form::even;
  if (limits || spread)
    return fmt::format(" Leave out its {}{}{}.", limits ? "own limits" : "", limits && spread ? " and its " : "",
                       spread ? "spread" : "");
  if (becomes == Kind::ease && segment.band.steps.empty())
    return fmt::format(" Give its {} as \"band\" instead of \"long\".", printable(segment.long_edge.written));
  return "";
}

std::string kind_remedy(const Job &job, const Remedy &remedy) {
  const std::string stretch = where(job, remedy.edge_join, remedy.segment);
  const Segment &segment = job.joins.at(remedy.edge_join).segments.at(remedy.segment);
  const char *const how = remedy.becomes == Kind::gauge    ? "gauge it (cartridge pleats, each fold sewn by itself)"
                          : remedy.becomes == Kind::gather ? "gather it"
                                                           : "ease it in";
  return fmt::format("{}: {}; it is now {}.{}", stretch, how, worked(segment.kind),
                     goes_with_kind(segment, remedy.becomes));
}

std::string change_sentence(const Job &job, const Remedy &remedy) {
  switch (remedy.kind) {
  case Remedy::Kind::length:
    return length_remedy(job, remedy);
  case Remedy::Kind::long_edge:
    return make_it(fmt::format("the long edge of {}", where(job, remedy.edge_join, -1)), job, remedy);
  case Remedy::Kind::band:
    return make_it(fmt::format("the band of {}", where(job, remedy.edge_join, -1)), job, remedy);
  case Remedy::Kind::cloth_weight:
    return weight_remedy(remedy);
  case Remedy::Kind::stitch:
    return stitch_remedy(job, remedy);
  case Remedy::Kind::kind:
    break;
  }
  return kind_remedy(job, remedy);
}

/// "JOIN / SEGMENT"
std::string stretch_path(const Job &job, const Condition &condition) {
  const Join &join = job.joins.at(condition.join);
  return fmt::format("{} / {}", join.name, segment_called(join, condition.segment));
}

} // namespace

std::string finding(const Job &job, const Finding &finding) {
  switch (finding.kind) {
  case Finding::Kind::too_scant:
    return too_scant(job, finding);
  case Finding::Kind::too_full:
    return too_full(job, finding);
  case Finding::Kind::ease_too_full:
    return ease_too_full(job, finding);
  case Finding::Kind::past_packed:
    return past_packed(job, finding);
  case Finding::Kind::less_than_band:
    return less_than_band(job, finding);
  case Finding::Kind::swapped:
    return swapped(job, finding);
  case Finding::Kind::flat_unequal:
    return flat_unequal(job, finding);
  case Finding::Kind::rule_broken:
    break;
  }
  return rule_broken(job, finding);
}

std::string remedy(const Job &job, const Remedy &remedy) {
  std::string text = change_sentence(job, remedy);
  if (remedy.join >= 0 && job.joins.size() > 1)
    text += fmt::format(" That puts {} right.", where(job, remedy.join, -1));
  return text;
}

std::string remedy_change(const Job &job, const Remedy &remedy) {
  switch (remedy.kind) {
  case Remedy::Kind::length:
    return job.lengths.at(remedy.length).name;
  case Remedy::Kind::long_edge:
    return job.joins.at(remedy.edge_join).name + ": long edge";
  case Remedy::Kind::band:
    return job.joins.at(remedy.edge_join).name + ": band";
  case Remedy::Kind::cloth_weight:
    return "cloth weight";
  case Remedy::Kind::stitch:
    return "stitch";
  case Remedy::Kind::kind:
    break;
  }
  return "kind";
}

std::string remedy_value(const Job &job, const Remedy &remedy) {
  switch (remedy.kind) {
  case Remedy::Kind::length:
  case Remedy::Kind::long_edge:
  case Remedy::Kind::band:
    return named_reading(Length{remedy.to}, job.tape());
  case Remedy::Kind::cloth_weight:
    return weight(remedy.to);
  case Remedy::Kind::stitch:
    return small_length(remedy.to);
  case Remedy::Kind::kind:
    break;
  }
  return std::string(kind(remedy.becomes));
}

std::string condition(const Job &job, const Condition &condition) {
  switch (condition.kind) {
  case Condition::Kind::rule:
    return job.rules.at(condition.rule).name;
  case Condition::Kind::from:
    return fmt::format("{} from {}", job.lengths.at(condition.length).name,
                       job.lengths.at(condition.length).from.written);
  case Condition::Kind::to:
    return fmt::format("{} to {}", job.lengths.at(condition.length).name, job.lengths.at(condition.length).to.written);
  case Condition::Kind::long_adds_up:
    return job.joins.at(condition.join).name + ": the long edge adds up";
  case Condition::Kind::band_adds_up:
    return job.joins.at(condition.join).name + ": the band adds up";
  case Condition::Kind::flat:
    return stretch_path(job, condition) + ": flat";
  case Condition::Kind::long_given:
    return fmt::format("{}: long {}", stretch_path(job, condition),
                       job.joins[condition.join].segments[condition.segment].long_edge.written);
  case Condition::Kind::band_given:
    break;
  }
  return fmt::format("{}: band {}", stretch_path(job, condition),
                     job.joins[condition.join].segments[condition.segment].band.written);
}

std::string conflict(const Job &job, const Plan &plan) {
  std::string text = "These cannot all hold: ";
  for (std::size_t i = 0; i < plan.conflict.size(); ++i)
    text += (i == 0 ? "" : "; ") + printable(condition(job, plan.conflict[i]));
  text += ".";
  if (plan.conflict_apart > 0)
    text += fmt::format(" They are {} apart.", nearest_length(plan.conflict_apart, job.tape()));
  return text;
}

} // namespace gatherwright::words
