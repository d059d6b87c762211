// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/notes.hpp"

#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

namespace gatherwright::words {

namespace {

constexpr std::string_view weight_assumed =
    "no weight of the cloth is given, so 150 g/m2 is taken; weigh it, or gather a test strip.";

std::string two_on_one_step(const Note &note) {
  return fmt::format("two marks of the {} fall on one step of the tape; set fewer pins, or take a finer tape.",
                     note.on_band ? "band" : "long edge");
}

std::string long_over_cloth(const Job &job, const Note &note) {
  return fmt::format("the long edge is wider than the cloth ({}): it takes {} widths, and each seam between them takes "
                     "its allowances.",
                     length(note.amount, job.tape()), decimals(note.value, 0));
}

std::string stitch_long(const Job &job, const Note &note) {
  return fmt::format("a gathering stitch of {} is a long one; a number without a unit is in {}.",
                     small_length(note.value), name(job.unit));
}

std::string folds_press(const Note &note) {
  return fmt::format("from {} on the folds press on each other, and the gathers stand no higher.", to_one(note.value));
}

constexpr std::string_view spread_past_most =
    "shared out as asked, some of it is fuller than sits well; it is kept to what can be drawn up at all.";

constexpr std::string_view spread_levelled =
    "shared out as asked, the fullest part would be more than sits well; it is "
    "levelled off there and the rest of the stretch takes what is over.";

std::string give_below_least(const Note &note) {
  const Pair figures = ratios(note.value, note.amount);
  return fmt::format("cut and marked within the tolerance it could come out at {} to 1, which is too scant ({} to 1 at "
                     "least).",
                     figures.measured, figures.limit);
}

std::string give_above_most(const Job &job, const Note &note) {
  const Segment *segment = note.segment < 0 ? nullptr : &job.joins.at(note.join).segments.at(note.segment);
  if (segment != nullptr && segment->kind == Kind::ease) {
    const Pair figures = ease_percents(note.value, note.amount);
    return fmt::format(
        "cut and marked within the tolerance it could come out at {} of ease, more than works in without "
        "a fold ({} at most).",
        figures.measured, figures.limit);
  }
  const Pair figures = ratios(note.value, note.amount);
  return fmt::format("cut and marked within the tolerance it could come out at {} to 1, which is too full ({} to 1 at "
                     "most).",
                     figures.measured, figures.limit);
}

std::string halves_by_folding(const Job &job, const Note &note) {
  const bool one_stretch = job.joins.at(note.join).segments.size() == 1;
  const std::string_view folded = one_stretch         ? "both edges"
                                  : note.segment >= 0 ? "this stretch of both edges"
                                                      : "each stretch that is not plain";
  return fmt::format("folding {} in halves, and the halves in halves again, finds the marks with no tape.", folded);
}

std::string length_off_tape(const Job &job, const Plan &plan, const Note &note) {
  const double is = plan.lengths.at(note.length).is;
  return fmt::format("the {} is left at {} {}, off the tape: no step of it keeps what must hold.",
                     printable(job.lengths.at(note.length).name), decimals(is / millimetres(job.unit), 4),
                     name(job.unit));
}

std::string certificate_weak(const Note &note) {
  if (note.value > 0)
    return fmt::format("as cut, what must hold is missed by up to {:.1g} of its own size; measure twice.", note.value);
  return "that no other choice is better could not be proved: how far this plan is from the best is not known.";
}

std::string rule_broken(const Job &job, const Note &note) {
  return fmt::format("the rule {} is broken; the rest is planned as it stands.", rule_called(job.rules.at(note.rule)));
}

std::string bare_lengths_long(const Job &job, const Note &note) {
  return fmt::format("an edge of {} is a long one; a number without a unit is in {}.",
                     nearest_length(note.value, job.tape()), name(job.unit));
}

std::string pair_not_mirrored(const Job &job, const Note &note) {
  return fmt::format("all {} are made alike, though this join differs end for end; a left and a right one want "
                     "\"mirrored\": true.",
                     job.joins.at(note.join).make);
}

std::string allowance(const Job &job, const Note &note, std::string_view how) {
  return fmt::format("the stitching line is {} {} than the {} you drew.", nearest_length(note.value, job.tape()), how,
                     note.on_band ? "band" : "long edge");
}

std::string most_sensitive(const Job &job, const Note &note) {
  return fmt::format("cut the {} with the most care: an error in it alters the fullness the most.",
                     printable(job.lengths.at(note.length).name));
}

std::string longer_stitch(const Note &note) {
  return fmt::format("the stitch is what keeps it from being drawn up; one of {} hole to hole would do.",
                     small_length(note.value));
}

constexpr std::string_view better_gauged = "as full as this it is better gauged (cartridge pleats) than gathered.";

std::string suppleness_unknown(const Note &note) {
  return fmt::format("how supple the cloth is, is not known; firm cloth takes a quarter less ease, {} % at most.",
                     trimmed(100 * (note.value - 1), 1));
}

std::string taken_from_job(const Job &job, const Note &note) {
  const Measure &measure = job.measures.at(static_cast<std::size_t>(note.value));
  return fmt::format("the measure {} is not this wearer's own but the job's, {}.", printable(measure.name),
                     length(measure.is.mm, job.tape()));
}

constexpr std::string_view rooms_left_out =
    "how far some lengths may move is not said: the job is too large for that to be worked out for all of them.";

constexpr std::string_view sensitivity_left_out =
    "which length wants the most care in cutting is not said: the job is too large for that to be worked out.";

std::string remedies_left_out(const Plan &plan) {
  return fmt::format("the job is too large for every change to be tried; {}.",
                     plan.remedies.empty() ? "none of those that were would put it right"
                                           : "there may be others that would put it right too");
}

constexpr std::string_view conflict_untried = "the job is too large to be tried without each of these in turn: they "
                                              "cannot all hold, but some of them may have no "
                                              "part in that.";

} // namespace

std::string note_says(const Job &job, const Plan &plan, const Note &note) {
  switch (note.kind) {
  case Note::Kind::weight_assumed:
    return std::string(weight_assumed);
  case Note::Kind::two_on_one_step:
    return two_on_one_step(note);
  case Note::Kind::long_over_cloth:
    return long_over_cloth(job, note);
  case Note::Kind::stitch_long:
    return stitch_long(job, note);
  case Note::Kind::folds_press:
    return folds_press(note);
  case Note::Kind::spread_past_most:
    return std::string(spread_past_most);
  case Note::Kind::spread_levelled:
    return std::string(spread_levelled);
  case Note::Kind::give_below_least:
    return give_below_least(note);
  case Note::Kind::give_above_most:
    return give_above_most(job, note);
  case Note::Kind::halves_by_folding:
    return halves_by_folding(job, note);
  case Note::Kind::length_off_tape:
    return length_off_tape(job, plan, note);
  case Note::Kind::certificate_weak:
    return certificate_weak(note);
  case Note::Kind::rule_broken:
    return rule_broken(job, note);
  case Note::Kind::bare_lengths_long:
    return bare_lengths_long(job, note);
  case Note::Kind::pair_not_mirrored:
    return pair_not_mirrored(job, note);
  case Note::Kind::allowance_longer:
    return allowance(job, note, "longer");
  case Note::Kind::allowance_shorter:
    return allowance(job, note, "shorter");
  case Note::Kind::most_sensitive:
    return most_sensitive(job, note);
  case Note::Kind::longer_stitch:
    return longer_stitch(note);
  case Note::Kind::better_gauged:
    return std::string(better_gauged);
  case Note::Kind::suppleness_unknown:
    return suppleness_unknown(note);
  case Note::Kind::rooms_left_out:
    return std::string(rooms_left_out);
  case Note::Kind::sensitivity_left_out:
    return std::string(sensitivity_left_out);
  case Note::Kind::remedies_left_out:
    return remedies_left_out(plan);
  case Note::Kind::conflict_untried:
    return std::string(conflict_untried);
  case Note::Kind::taken_from_job:
    break;
  }
  return taken_from_job(job, note);
}

std::string note_place(const Job &job, const Note &note) {
  switch (note.kind) {
  case Note::Kind::length_off_tape:
  case Note::Kind::certificate_weak:
  case Note::Kind::rule_broken:
  case Note::Kind::most_sensitive:
  case Note::Kind::taken_from_job:
    return "";
  default:
    return note.join < 0 ? "" : where(job, note.join, note.segment);
  }
}

std::string note_of(const std::vector<std::string> &places, std::string says) {
  if (!places.empty()) return fmt::format("{}: {}", fmt::join(places, "; "), says);
  if (says.front() >= 'a' && says.front() <= 'z') says.front() = static_cast<char>(says.front() - 'a' + 'A');
  return says;
}

std::string note(const Job &job, const Plan &plan, const Note &note) {
  const std::string place = note_place(job, note);
  return note_of(place.empty() ? std::vector<std::string>{} : std::vector{place}, note_says(job, plan, note));
}

long long pins_in_all(const Job &job, const Plan &plan) {
  long long pins = 0;
  for (std::size_t join = 0; join < plan.joins.size(); ++join)
    pins += static_cast<long long>(plan.joins[join].pins) * job.joins.at(join).make;
  return pins;
}

// EN 14682, 16 CFR 1120.3 and ASTM F1816 on cords; that pins are counted is common practice, no source; 16 CFR 1610 has
// the classes of flammable cloth.
std::string caution(const Job &job, const Plan &plan, Caution caution) {
  switch (caution) {
  case Caution::child_cord:
    return "For a child: no cord or drawstring at neck or hood (EN 14682; in the USA 16 CFR 1120.3, ASTM F1816). Local "
           "rules come first.";
  case Caution::cord_age_unknown:
    return "If this is for a child: no cord or drawstring at neck or hood (EN 14682; in the USA 16 CFR 1120.3, ASTM "
           "F1816). Local rules come first.";
  case Caution::pins:
    return fmt::format("Count the pins out: {} go in.", pins_in_all(job, plan));
  case Caution::flame:
    break;
  }
  return "Keep full sleeves of light or raised cloth away from flame (16 CFR 1610 has the classes) and from machinery.";
}

} // namespace gatherwright::words
