// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/notes.hpp"

#include "cli/words/cloths.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"
#include "cli/words/overloaded.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gatherwright::words {

namespace {

/// What a note says, by its alternative.
class Saying {
public:
  Saying(const Job &job, const Plan &plan) : job_(job), plan_(plan) {}

  std::string operator()(const note::WeightAssumed &) const;
  std::string operator()(const note::LeftOut &note) const;
  std::string operator()(const note::SharedStep &note) const;
  std::string operator()(const note::OverCloth &note) const;
  std::string operator()(const note::RowsInside &note) const;
  std::string operator()(const note::RangeTurned &note) const;
  std::string operator()(const note::MeasureFarOff &note) const;
  std::string operator()(const note::LongStitch &note) const;
  std::string operator()(const note::FoldsPress &note) const;
  std::string operator()(const note::SpreadLevelled &note) const;
  std::string operator()(const note::GivePasses &note) const;
  std::string operator()(const note::FoundByFolding &note) const;
  std::string operator()(const note::OffTape &note) const;
  std::string operator()(const note::Unproved &note) const;
  std::string operator()(const note::RuleBroken &note) const;
  std::string operator()(const note::LongBareNumber &note) const;
  std::string operator()(const note::PairNotMirrored &note) const;
  std::string operator()(const note::StitchingDiffers &note) const;
  std::string operator()(const note::Misread &note) const;
  std::string operator()(const note::GarmentOutside &note) const;
  std::string operator()(const note::SwatchBelieved &note) const;
  std::string operator()(const note::ShallowFolds &note) const;
  std::string operator()(const note::MostSensitive &note) const;
  std::string operator()(const note::StitchWouldDo &note) const;
  std::string operator()(const note::BetterGauged &note) const;
  std::string operator()(const note::SupplenessUnknown &note) const;
  std::string operator()(const note::TakenFromJob &note) const;
  std::string operator()(const note::NoAllowance &note) const;
  std::string operator()(const note::AllowancesDiffer &note) const;
  std::string operator()(const note::NotLaid &note) const;
  std::string operator()(const note::StockUnused &) const;
  std::string operator()(const note::StockUnproved &note) const;

private:
  std::string remedies_left_out() const;

  const Job &job_;
  const Plan &plan_;
};

std::string Saying::operator()(const note::WeightAssumed &) const {
  return "no weight of the cloth is given, so 150 g/m2 is taken; weigh it, or gather a test strip.";
}

std::string Saying::operator()(const note::LeftOut &note) const {
  using What = note::LeftOut::What;
  switch (note.what) {
  case What::rooms:
    return "how far some lengths may move, or what would not hold beyond that, is not said: the job is too large for "
           "that to be worked out for all of them.";
  case What::sensitivity:
    return "which length wants the most care in cutting is not said: the job is too large for that to be worked out.";
  case What::remedies:
    return remedies_left_out();
  case What::savings:
    return "which lengths would save cloth is not said of all: the job is too large for that to be worked out.";
  case What::conflict:
    break;
  }
  return "the job is too large to be tried without each of these in turn: they cannot all hold, but some of them may "
         "have no part in that.";
}

std::string Saying::remedies_left_out() const {
  return fmt::format("the job is too large for every change to be tried; {}.",
                     plan_.remedies.empty() ? "none of those that were would put it right"
                                            : "there may be others that would put it right too");
}

std::string Saying::operator()(const note::SharedStep &note) const {
  return fmt::format("two marks of the {} fall on one step of the tape; set fewer pins, or take a finer tape.",
                     edge_called(note.at.edge));
}

std::string Saying::operator()(const note::OverCloth &note) const {
  const std::string width = length(note.cloth_width, job_.tape());
  if (!note.widths)
    return fmt::format(
        "the long edge is wider than the cloth ({}), and the allowances of a seam leave nothing of that.", width);
  const std::string allowances = note.allowance > 0
                                     ? fmt::format("each seam between them takes twice {}, which is counted in",
                                                   length(note.allowance, job_.tape()))
                                     : "their seams, which an \"allowance\" would count in, come on top";
  return fmt::format("the long edge takes {} widths of the cloth ({}); {}.", decimals(*note.widths, 0), width,
                     allowances);
}

std::string Saying::operator()(const note::RowsInside &note) const {
  return fmt::format("an allowance of {} is too narrow for the rows: those inside the garment come out again when the "
                     "seam is sewn.",
                     nearest_length(note.allowance, job_.tape()));
}

std::string Saying::operator()(const note::RangeTurned &note) const {
  const FreeLength &range = *job_[note.at].free();
  return fmt::format("{} runs from {} to {}, which is less: are they swapped?", printable(job_[note.at].name),
                     printable(range.from->written()), printable(range.to->written()));
}

std::string Saying::operator()(const note::MeasureFarOff &note) const {
  const Measure &measure = job_[note.at];
  return fmt::format(
      "{} of {} is far from what bodies have ({} to {} in a survey of grown people): is that the measure, "
      "and its unit?",
      printable(measure.name), length(measure.is.mm, job_.tape()), nearest_length(note.least, job_.tape()),
      nearest_length(note.greatest, job_.tape()));
}

std::string Saying::operator()(const note::LongStitch &note) const {
  return fmt::format("a gathering stitch of {} is a long one; a number without a unit is in {}.",
                     small_length(note.stitch, job_.unit), name(job_.unit));
}

std::string Saying::operator()(const note::FoldsPress &note) const {
  return fmt::format("from {} on the folds press on each other, and the gathers stand no higher.",
                     to_one(note.fullness));
}

std::string Saying::operator()(const note::SpreadLevelled &note) const {
  return note.level == note::SpreadLevelled::At::packed
             ? "shared out as asked, some of it is fuller than sits well; it is kept to what can be drawn up at all."
             : "shared out as asked, the fullest part would be more than sits well; it is levelled off there and the "
               "rest of the stretch takes what is over.";
}

std::string Saying::operator()(const note::GivePasses &note) const {
  constexpr std::string_view could = "cut and marked within the tolerance it could come out at";
  const bool too_much = note.limit == note::GivePasses::Limit::most;
  if (too_much && told_in_percent(job_[note.at].kind)) {
    const Pair figures = ease_percents(note.fullness, note.allowed);
    return fmt::format("{} {} of ease, more than works in without a fold ({} at most).", could, figures.measured,
                       figures.limit);
  }
  const Pair figures = ratios(note.fullness, note.allowed);
  return fmt::format("{} {} to 1, which is {} ({} to 1 at {}).", could, figures.measured,
                     too_much ? "too full" : "too scant", figures.limit, too_much ? "most" : "least");
}

std::string Saying::operator()(const note::FoundByFolding &note) const {
  const auto folded = [this](JoinId join, std::string_view in_part) {
    return job_[join].segments.size() == 1 ? "both edges" : in_part;
  };
  const std::string_view what =
      std::visit(Overloaded{[&](JoinId at) { return folded(at, "each stretch that is not plain"); },
                            [&](SegmentAt at) { return folded(at.join, "this stretch of both edges"); }},
                 note.at);
  return fmt::format("folding {} in halves, and the halves in halves again, finds the marks with no tape.", what);
}

std::string Saying::operator()(const note::OffTape &note) const {
  const double is = plan_.lengths.at(note.at.at).is.value();
  return fmt::format("the {} is left at {} {}, off the tape: no step of it keeps what must hold.",
                     printable(job_[note.at].name), decimals(is / millimetres(job_.unit), 4), name(job_.unit));
}

std::string Saying::operator()(const note::Unproved &note) const {
  if (note.missed)
    return fmt::format("as cut, what must hold is missed by up to {:.1g} of its own size; measure twice.",
                       *note.missed);
  return "that no other choice is better could not be proved: how far this plan is from the best is not known.";
}

std::string Saying::operator()(const note::RuleBroken &note) const {
  return fmt::format("the rule {} is broken; the rest is planned as it stands.", rule_called(job_[note.at]));
}

std::string Saying::operator()(const note::LongBareNumber &note) const {
  return fmt::format("an edge of {} is a long one; a number without a unit is in {}.",
                     nearest_length(note.length, job_.tape()), name(job_.unit));
}

std::string Saying::operator()(const note::PairNotMirrored &note) const {
  return fmt::format("all {} are made alike, though this join differs end for end; a left and a right one want "
                     "\"mirrored\": true.",
                     job_[note.at].make);
}

std::string Saying::operator()(const note::StitchingDiffers &note) const {
  return fmt::format("the stitching line is {} {} than the {} you drew.",
                     nearest_length(std::fabs(note.by), job_.tape()), note.by < 0 ? "shorter" : "longer",
                     edge_called(note.at.edge));
}

std::string Saying::operator()(const note::Misread &note) const {
  return fmt::format(
      "the points of the {} were measured: if each is 1 mm off, and each in its worst direction, the line "
      "you drew is up to {} longer or shorter.",
      edge_called(note.at.edge), small_length(note.by, job_.unit));
}

std::string Saying::operator()(const note::GarmentOutside &note) const {
  const DrawnEdge *drawn = job_[note.at].drawn();
  const bool left = drawn && drawn->garment == Garment::left;
  return fmt::format(
      "the {} is an arch like a sleeve cap's, and with \"garment\": \"{}\" the garment lies outside it, so "
      "that the allowance falls outside the piece; is it \"{}\" that is meant?",
      edge_called(note.at.edge), left ? "left" : "right", left ? "right" : "left");
}

/// "59 % higher"
std::string by_how_much(double believed, double other) {
  const double share = believed / other - 1;
  return fmt::format("{} % {}", decimals(std::fabs(100 * share), 0), share < 0 ? "lower" : "higher");
}

std::string Saying::operator()(const note::SwatchBelieved &note) const {
  const Fabric &fabric = note.at ? job_[*note.at].fabric : job_.fabric;
  const bool measured = fabric.thickness || fabric.bending_length;
  return fmt::format(
      "the test strip is believed, not the weight: by the strip it sits well from {} to {}, by {}{} from "
      "{} to {} (the least is {}, the most {}).",
      decimals(note.least, 2), decimals(note.most, 2), weight(note.weight),
      measured ? " and what else is measured of the cloth" : " alone", decimals(note.least_by_weight, 2),
      decimals(note.most_by_weight, 2), by_how_much(note.least, note.least_by_weight),
      by_how_much(note.most, note.most_by_weight));
}

std::string Saying::operator()(const note::ShallowFolds &note) const {
  return fmt::format(
      "{} folds, only {} deep: was this stitch counted for gathering? Gauging wants a longer one (common "
      "practice, no source); give the join a \"gathering\" of its own.",
      note.folds, small_length(note.depth, job_.unit));
}

std::string Saying::operator()(const note::MostSensitive &note) const {
  return fmt::format("cut the {} with the most care: an error in it alters the fullness the most.",
                     printable(job_[note.at].name));
}

std::string Saying::operator()(const note::StitchWouldDo &note) const {
  return fmt::format("the stitch is what keeps it from being drawn up; one of {} hole to hole would do.",
                     small_length(note.stitch, job_.unit));
}

std::string Saying::operator()(const note::BetterGauged &) const {
  return "as full as this it is better gauged (cartridge pleats) than gathered.";
}

std::string Saying::operator()(const note::SupplenessUnknown &note) const {
  return fmt::format("how supple the cloth is, is not known; firm cloth takes a quarter less ease, {} % at most.",
                     trimmed(100 * (note.firm - 1), 1));
}

std::string Saying::operator()(const note::TakenFromJob &note) const {
  const Measure &measure = job_[note.at];
  return fmt::format("the measure {} is not this wearer's own but the job's, {}.", printable(measure.name),
                     length(measure.is.mm, job_.tape()));
}

std::string Saying::operator()(const note::NoAllowance &note) const {
  constexpr std::size_t most_named = 8;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < std::min(note.at.size(), most_named); ++i)
    names.push_back(where(job_, note.at[i]));
  if (note.at.size() > most_named) names.push_back(fmt::format("{} more", note.at.size() - most_named));
  return fmt::format(
      "sides of {} are cut without an allowance, since none is given; write an \"allowance\" for the job "
      "or the piece, if only 0.",
      fmt::join(names, ", "));
}

std::string Saying::operator()(const note::AllowancesDiffer &note) const {
  return fmt::format("its allowance is {}, and that of the seam {} is {}; cut edge to cut edge the two would not lie "
                     "on each other.",
                     nearest_length(note.of_side, job_.tape()), where(job_, job_[note.at].join),
                     nearest_length(note.of_join, job_.tape()));
}

std::string Saying::operator()(const note::NotLaid &note) const {
  const std::string cloth = cloth_called(cloth_of(job_[note.first].fabric, job_.unit));
  using Why = note::NotLaid::Why;
  switch (note.why) {
  case Why::no_width:
    return fmt::format(
        "how wide {} lies is not known, so its pieces have sizes and marks but no layout, and how much to "
        "buy is not said; give the fabric its \"width\".",
        cloth);
  case Why::too_wide:
    return fmt::format("nothing goes into the width of {}, so nothing is laid on it.", cloth);
  case Why::lost:
    break;
  }
  return fmt::format("the pieces of {} are too unlike in size to be laid together.", cloth);
}

std::string Saying::operator()(const note::StockUnused &) const {
  return "it is said how much there is of the cloth, and no piece is cut from it.";
}

std::string Saying::operator()(const note::StockUnproved &note) const {
  return fmt::format("the lengths are the best that were found within what there is of {}; that no others are better "
                     "could not be proved.",
                     cloth_called(cloth_at(job_, note.at)));
}

/// The place that a note is said of, by its alternative; empty for one of the whole job.
struct Placing {
  const Job &job;

  std::string operator()(const note::WeightAssumed &) const { return ""; }
  std::string operator()(const note::LeftOut &) const { return ""; }
  std::string operator()(const note::SharedStep &note) const { return where(job, note.at.join); }
  std::string operator()(const note::OverCloth &note) const { return where(job, note.at); }
  std::string operator()(const note::RowsInside &note) const { return where(job, note.at); }
  std::string operator()(const note::RangeTurned &) const { return ""; }
  std::string operator()(const note::MeasureFarOff &) const { return ""; }
  std::string operator()(const note::LongStitch &note) const { return note.at ? where(job, *note.at) : ""; }
  std::string operator()(const note::FoldsPress &note) const { return where(job, note.at); }
  std::string operator()(const note::SpreadLevelled &note) const { return where(job, note.at); }
  std::string operator()(const note::GivePasses &note) const { return where(job, note.at); }
  std::string operator()(const note::FoundByFolding &note) const {
    return std::visit(
        Overloaded{[this](JoinId at) { return where(job, at); }, [this](SegmentAt at) { return where(job, at); }},
        note.at);
  }
  std::string operator()(const note::OffTape &) const { return ""; }
  std::string operator()(const note::Unproved &) const { return ""; }
  std::string operator()(const note::RuleBroken &) const { return ""; }
  std::string operator()(const note::LongBareNumber &note) const { return where(job, note.at); }
  std::string operator()(const note::PairNotMirrored &note) const { return where(job, note.at); }
  std::string operator()(const note::StitchingDiffers &note) const { return where(job, note.at.join); }
  std::string operator()(const note::Misread &note) const { return where(job, note.at.join); }
  std::string operator()(const note::GarmentOutside &note) const { return where(job, note.at.join); }
  std::string operator()(const note::SwatchBelieved &note) const { return note.at ? where(job, *note.at) : ""; }
  std::string operator()(const note::ShallowFolds &note) const { return where(job, note.at); }
  std::string operator()(const note::MostSensitive &) const { return ""; }
  std::string operator()(const note::StitchWouldDo &note) const { return where(job, note.at); }
  std::string operator()(const note::BetterGauged &note) const { return where(job, note.at); }
  std::string operator()(const note::SupplenessUnknown &note) const { return where(job, note.at); }
  std::string operator()(const note::TakenFromJob &) const { return ""; }
  std::string operator()(const note::NoAllowance &) const { return ""; }
  std::string operator()(const note::AllowancesDiffer &note) const { return where(job, note.at.side); }
  std::string operator()(const note::NotLaid &) const { return ""; }
  std::string operator()(const note::StockUnused &) const { return ""; }
  std::string operator()(const note::StockUnproved &) const { return ""; }
};

} // namespace

std::string note_says(const Job &job, const Plan &plan, const Note &note) {
  return std::visit(Saying(job, plan), note);
}

std::string note_place(const Job &job, const Note &note) {
  return std::visit(Placing{job}, note);
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

std::string pins_counted(long long pins) {
  return fmt::format("Count the pins out: {} go in.", pins);
}

bool is_cord_of_a_child(const Job &job, const Join &join) {
  return job.wearer_age && *job.wearer_age < caution::child_below && join.use != Use::curtain;
}

namespace {

/// "neck on its drawstring; sleeve into cuff"; of very many the first.
std::string joins_named(const Job &job, const std::vector<JoinId> &joins) {
  constexpr std::size_t most_named = 8; // a caution stands on every page
  std::vector<std::string> names;
  for (std::size_t i = 0; i < std::min(joins.size(), most_named); ++i)
    names.push_back(where(job, joins[i]));
  if (joins.size() > most_named) names.push_back(fmt::format("{} more", joins.size() - most_named));
  return fmt::format("{}", fmt::join(names, "; "));
}

// EN 14682, 16 CFR 1120.3 and ASTM F1816.
std::string cord_says(const Job &job, const caution::Cord &cord) {
  const bool at_waist = cord.where == caution::Cord::Where::waist;
  const std::string rule =
      at_waist ? fmt::format(
                     "no long free ends at the waist (in the USA, on outerwear, {} outside the casing at most with it "
                     "at its widest, nothing tied to the ends, and the cord sewn fast at its middle: 16 CFR 1120.3, "
                     "ASTM F1816)",
                     is_imperial(job.unit) ? "3 in" : "75 mm")
               : "no cord or drawstring at neck or hood (EN 14682; in the USA 16 CFR 1120.3, ASTM F1816)";
  return fmt::format(
      "{}: {}. Drawn up {}: {}. Elastic whose ends are sewn fast in the casing, or a band, does instead. "
      "Local rules come first.",
      cord.of_a_child ? "For a child" : "If this is for a child", rule, at_waist ? "there" : "here",
      joins_named(job, cord.joins));
}

} // namespace

// That pins are counted is common practice, no source; 16 CFR 1610 has the classes of flammable cloth.
std::string caution(const Job &job, const Plan &plan, const Caution &caution) {
  return std::visit(Overloaded{[&](const caution::Cord &cord) { return cord_says(job, cord); },
                               [&](const caution::Pins &) { return pins_counted(pins_in_all(job, plan)); },
                               [](const caution::Flame &) {
                                 return std::string(
                                     "Keep full sleeves of light or raised cloth away from flame (16 CFR 1610 has the "
                                     "classes) and from machinery.");
                               }},
                    caution);
}

} // namespace gatherwright::words
