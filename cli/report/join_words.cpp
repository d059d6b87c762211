// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/join_words.hpp"

#include "cli/report/from_cut.hpp"
#include "cli/report/plan_words.hpp"
#include "cli/report/shown_marks.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/listed.hpp"
#include "cli/words/names.hpp"
#include "cli/words/notes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <unordered_map>

namespace gatherwright::report {

namespace {

using words::printable;
using words::to_one;

/// "1.18 to 2.70". A half goes up, also where rounding took a hair off it, so that like stretches read alike.
std::string span(double low, double high) {
  constexpr double hair = 1 + 1e-9;
  return fmt::format("{} to {}", words::ratio(low * hair), words::ratio(high * hair));
}

/// What the cloth takes of a stretch; one that has a most alone has it beside its figure.
std::string limits(const Segment &asked, const SegmentPlan &planned) {
  if (!has_least(asked.kind)) return "";
  return fmt::format("sits well from {}, best near {}", span(planned.limits.least, planned.limits.most),
                     words::ratio(planned.limits.ideal));
}

/// The limits of every gathered stretch, where they are the same for all.
std::string common_limits(const Join &asked, const JoinPlan &planned) {
  std::string common;
  for (std::size_t i = 0; i < planned.segments.size(); ++i) {
    const std::string own = limits(asked.segments.at(i), planned.segments[i]);
    if (own.empty()) continue;
    if (!common.empty() && own != common) return "";
    common = own;
  }
  return common;
}

/// How a stretch is worked and how full it comes out, without its name.
std::string fullness(const Job &job, const Segment &asked, const SegmentPlan &planned, bool limits_told) {
  const Tape tape = job.tape();
  const std::string_view worked = words::worked(asked.kind);
  if (!takes_fullness(asked.kind)) return fmt::format("{}, {}", worked, words::length(planned.band, tape));
  std::string text;
  if (!told_in_percent(asked.kind)) {
    text = fmt::format("{} {}", worked, to_one(planned.fullness));
  } else if (planned.long_length < planned.band) {
    text = fmt::format("{}, with less cloth than the edge it is sewn to", worked);
  } else {
    const words::Pair ease = words::ease_percents(planned.fullness, planned.limits.most);
    text = fmt::format("{} {} ({} at most)", worked, ease.measured, ease.limit);
  }
  if (planned.verdict != Verdict::within_limits) text += fmt::format(", {}", words::verdict(planned.verdict));
  if (planned.standing == Standing::only_just) text += ", only just within limits";
  text += fmt::format(", {} to lose", words::nearest_length(std::fmax(0, planned.long_length - planned.band), tape));
  if (const std::string own = limits(asked, planned); !limits_told && !own.empty()) text += "; " + own;
  if (words::decimals(planned.fullest, 2) != words::decimals(planned.slackest, 2))
    text += fmt::format("; {} along it", span(planned.slackest, planned.fullest));
  if (planned.give) text += fmt::format("; could come out {}", span(planned.give->front(), planned.give->back()));
  if (planned.gathers)
    text += fmt::format("; sewn in, the gathers stand out {}", words::height(planned.gathers->ridge, job.unit));
  if (is_folded(asked.kind)) {
    const Folds folds = planned.folds.value_or(Folds());
    const std::string apart = words::stitch(folds.pitch, job.unit);
    text += fmt::format("; {} folds {} deep, {}{}", folds.count, words::small_length(folds.depth, job.unit),
                        apart.ends_with("inch") ? "" : "one every ", apart);
  }
  return text;
}

/// Distances: inches for an inch tape, else millimetres.
std::string distances(const Job &job, const std::vector<double> &at) {
  const bool inches = is_imperial(job.unit);
  const Tape fine{Unit::in, Length{25.4 / 32}};
  std::vector<std::string> each;
  for (const double distance : at)
    each.push_back(inches ? words::nearest_length(distance, fine) : words::small_length(distance, job.unit));
  return words::listed(each);
}

/// "mark 0 to 7, 7 to 14 and 14 to 0, cut 110 cm each; 21 to 28, cut 90 cm": those in a row that are cut alike
/// together.
std::string thread_list(const Job &job, const GatheringPlan &gathering) {
  const auto cut = [&](const Thread &thread) { return words::length_up(thread.cut, job.tape()); };
  const auto &threads = gathering.threads;
  std::string text;
  for (auto first = threads.begin(); first != threads.end();) {
    const std::string length = cut(*first);
    std::vector<std::string> alike;
    auto next = first;
    for (; next != threads.end() && cut(*next) == length; ++next)
      alike.push_back(next->from == next->to ? fmt::format("{} all round", next->from)
                                             : fmt::format("{} to {}", next->from, next->to));
    text += fmt::format("{}{}, cut {}{}", first == threads.begin() ? "mark " : "; ", words::listed(alike), length,
                        alike.size() > 1 ? " each" : "");
    first = next;
  }
  return text;
}

std::string stretch_called(const Join &asked, std::size_t segment) {
  const std::string &name = asked.segments.at(segment).name;
  return name.empty() ? fmt::format("stretch {}", segment + 1) : printable(name);
}

/// Makes a sentence of what begins with a small letter.
std::string sentence(std::string text) {
  text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text + ".";
}

} // namespace

std::string made(const Join &asked) {
  if (asked.make == 1) return "";
  if (asked.mirrored && asked.make == 2) return "make 2, a mirrored pair";
  return fmt::format("make {}{}", asked.make, asked.mirrored ? ", in mirrored pairs" : "");
}

std::string edge_said(const Job &job, const Edge &asked, double mm) {
  const std::string name = words::edge_named(job, asked);
  const std::string length = words::length(mm, job.tape());
  return name.empty() ? length : fmt::format("{}, {}", printable(name), length);
}

std::string_view lies(GarmentSide side) {
  switch (side) {
  case GarmentSide::above:
    return "above the line as drawn";
  case GarmentSide::below:
    return "below the line as drawn";
  case GarmentSide::to_the_left:
    return "to the left of the line as drawn";
  case GarmentSide::to_the_right:
    return "to the right of the line as drawn";
  case GarmentSide::inside:
    return "inside the line as drawn";
  case GarmentSide::outside:
    return "outside the line as drawn";
  case GarmentSide::left_of_way:
    return "on the left of the line, going as it is drawn";
  case GarmentSide::right_of_way:
    break;
  }
  return "on the right of the line, going as it is drawn";
}

namespace {

/// " The long edge is what is drawn from 3 cm to 21 cm along its stitching line."; empty where it is all of it.
std::string part_said(const Edge &asked, WhichEdge edge) {
  const DrawnEdge *drawn = asked.drawn();
  if (!drawn || !drawn->part) return "";
  const auto &[from, to] = *drawn->part;
  return fmt::format(" The {} is what is drawn from {} to {} along its stitching line.", words::edge_called(edge),
                     printable(from.written()), printable(to.written()));
}

/// " Of the long edge the stitching runs below the line as drawn."; empty where no side is given.
std::string side_said(const Edge &asked, const std::optional<DrawnPlan> &planned, WhichEdge edge) {
  if (!planned || !planned->garment || !asked.drawn()) return "";
  return fmt::format(" Of the {} the {} {}.", words::edge_called(edge),
                     planned->allowance > 0 ? "stitching runs" : "garment lies", lies(*planned->garment));
}

} // namespace

std::string edges(const Job &job, int join, const JoinPlan &planned) {
  const Join &asked = job.joins.at(join);
  const bool has_plain = std::any_of(asked.segments.begin(), asked.segments.end(),
                                     [](const Segment &segment) { return !takes_fullness(segment.kind); });
  std::string whole; // of one stretch alone its own sentence says it
  if (planned.segments.size() > 1)
    whole = fmt::format(" {} {}{}.", has_plain ? "Plain parts included, it is" : "All in all it is",
                        to_one(planned.long_length / planned.band), asked.closed ? ", a ring" : "");
  else if (asked.closed)
    whole = " A ring.";
  return fmt::format("Long edge: {}. Band{}: {}.{}", edge_said(job, asked.long_edge, planned.long_length),
                     join == 0 ? ", the edge it is sewn to" : "", edge_said(job, asked.band, planned.band), whole) +
         part_said(asked.long_edge, WhichEdge::long_edge) + part_said(asked.band, WhichEdge::band) +
         side_said(asked.long_edge, planned.drawn_long, WhichEdge::long_edge) +
         side_said(asked.band, planned.drawn_band, WhichEdge::band);
}

StretchesSaid stretches(const Job &job, const Join &asked, const JoinPlan &planned) {
  struct Told {
    std::string how;
    std::vector<std::string> names;
  };
  const std::string common = common_limits(asked, planned);
  std::vector<Told> told;
  std::unordered_map<std::string, std::size_t> known;
  for (std::size_t i = 0; i < planned.segments.size(); ++i) {
    const std::string how = fullness(job, asked.segments.at(i), planned.segments[i], !common.empty());
    const auto [same, is_new] = known.emplace(how, told.size());
    if (is_new) told.push_back({how, {}});
    told[same->second].names.push_back(stretch_called(asked, i));
  }
  StretchesSaid said;
  const bool alone = planned.segments.size() == 1 && asked.segments.front().name.empty();
  for (const Told &each : told)
    said.stretches.push_back(
        alone ? sentence(each.how)
              : fmt::format("{}: {}{}.", words::listed(each.names), each.names.size() > 1 ? "each " : "", each.how));
  if (!common.empty()) said.in_this_cloth = fmt::format("In this cloth it {}.", common);
  return said;
}

bool limits_are_as_before(const Job &job, const Plan &plan, int join) {
  if (join == 0) return false;
  const std::string own = common_limits(job.joins.at(join), plan.joins.at(join));
  return !own.empty() && own == common_limits(job.joins.at(join - 1), plan.joins.at(join - 1));
}

std::string fullest(const Join &asked, const JoinPlan &planned) {
  const SegmentPlan *most_full = nullptr;
  Kind worked = Kind::gather;
  for (std::size_t i = 0; i < planned.segments.size(); ++i) {
    const Kind kind = asked.segments.at(i).kind;
    if (!takes_fullness(kind) || (most_full != nullptr && planned.segments[i].fullest <= most_full->fullest)) continue;
    most_full = &planned.segments[i];
    worked = kind;
  }
  if (most_full == nullptr) return "";
  const bool eased = told_in_percent(worked);
  const double most = most_full->limits.most;
  const words::Pair figures =
      eased ? words::ease_percents(most_full->fullest, most) : words::ratios(most_full->fullest, most);
  std::vector<std::string> names;
  for (std::size_t i = 0; i < planned.segments.size(); ++i)
    if (takes_fullness(asked.segments[i].kind) && planned.segments[i].limits.most == most &&
        planned.segments[i].fullest >= most_full->fullest * (1 - 1e-6))
      names.push_back(stretch_called(asked, i));
  const std::string place = planned.segments.size() == 1 ? "" : words::listed(names) + ", ";
  if (has_least(worked) && most_full->fullest < most_full->limits.least * (1 - 1e-9)) {
    const words::Pair scant = words::ratios(most_full->fullest, most_full->limits.least);
    return fmt::format("Fullest: {}{} to 1; less than the {} that reads as gathers.", place, scant.measured,
                       scant.limit);
  }
  const bool too_much = most_full->fullest > most * (1 + 1e-9);
  return fmt::format("Fullest: {}{}{}; {} {} {}.", place, figures.measured, eased ? " of ease" : " to 1",
                     too_much ? "more than the" : "up to", figures.limit + (too_much ? " that" : ""),
                     eased ? "works in without a fold" : "sits well");
}

std::string back_to_start(const Job &job, const Join &asked, const JoinPlan &planned, Pins told) {
  if (!asked.closed) return "";
  const ShownMarks shown = shown_marks(job, asked, planned, planned.marks, told);
  if (shown.half || (!shown.parts.empty() && shown.parts.back().to == planned.marks.size())) return "";
  return fmt::format("Then mark 0 again, at {} of the band and {} of the long edge.",
                     words::length(planned.band, job.tape()), words::length(planned.long_length, job.tape()));
}

std::string from_cut_edges(const Job &job, const std::vector<Mark> &marks) {
  const auto allowance = [&](MarkPlace Mark::*edge) -> std::string {
    const std::optional<double> ahead = cut_from_tape(marks, edge);
    return ahead && *ahead != 0 ? words::length(*ahead, job.tape()) : "";
  };
  const std::string band = allowance(&Mark::band);
  const std::string long_edge = allowance(&Mark::long_edge);
  if (band.empty() && long_edge.empty()) return "";
  std::string text = "Measuring from the cut end, add ";
  if (band == long_edge)
    text += band;
  else if (band.empty() || long_edge.empty())
    text += band.empty() ? long_edge + " on the long edge" : band + " on the band";
  else
    text += fmt::format("{} on the band and {} on the long edge", band, long_edge);
  return text + ".";
}

MirroredSaid mirrored(const Join &asked, const JoinPlan &planned) {
  const auto &marks = planned.marks;
  if (!planned.marks_mirrored) return {};
  const auto &other = *planned.marks_mirrored;
  const auto same_place = [](const Mark &a, const Mark &b) {
    return std::fabs(a.long_edge.tape - b.long_edge.tape) < 1e-6 && std::fabs(a.band.tape - b.band.tape) < 1e-6;
  };
  const auto same_name = [&](const Mark &a, const Mark &b) {
    const auto name = [&](const Mark &mark) {
      return words::mark_is_named(asked, mark) ? words::mark_called(asked, mark) : std::string();
    };
    return name(a) == name(b);
  };
  if (!reads_alike(asked, planned) && !std::equal(marks.begin(), marks.end(), other.begin(), other.end(), same_place))
    return {"The mirrored one, read from its own start:", true};
  return {std::equal(marks.begin(), marks.end(), other.begin(), same_name)
              ? "The mirrored one is marked the same."
              : "The mirrored one is marked at the same places, its marks in the other order.",
          false};
}

std::string row_places(const Job &job, const GatheringPlan &rows) {
  std::string text = distances(job, rows.at) + " from the cut edge";
  if (rows.from_seam.empty()) return text;
  const bool inside = rows.from_seam.front() < 0;
  std::vector<double> from_seam = rows.from_seam;
  for (double &distance : from_seam)
    distance = std::fabs(distance);
  return text + fmt::format(" ({} {} the stitching line)", distances(job, from_seam), inside ? "inside" : "from");
}

namespace {

/// "2 rows of gathering, 6 mm and 10 mm from the cut edge, 4 mm from hole to hole"
std::string rows_said(const Job &job, const GatheringPlan &rows) {
  return fmt::format("{} {} of gathering, {}, {} from hole to hole", rows.rows, rows.rows == 1 ? "row" : "rows",
                     row_places(job, rows), words::stitch(rows.stitch, job.unit));
}

} // namespace

bool rows_are_as_before(const Job &job, const Plan &plan, int join) {
  if (join == 0 || is_wrong_way_round(plan, join - 1)) return false;
  const auto &before = plan.joins.at(join - 1).gathering;
  const auto &rows = plan.joins.at(join).gathering;
  return before && rows && rows_said(job, *before) == rows_said(job, *rows);
}

std::vector<std::string> gathering(const Job &job, const Join &asked, const JoinPlan &planned, bool rows_as_before) {
  std::vector<std::string> said;
  if (planned.gathering) {
    const GatheringPlan &rows = *planned.gathering;
    const std::string run = rows_as_before
                                ? fmt::format("the {} as before, {} stitches{}", rows.rows == 1 ? "row" : "rows",
                                              rows.stitches, rows.rows == 1 ? "" : " each")
                                : fmt::format("{} ({} stitches a row)", rows_said(job, rows), rows.stitches);
    said.push_back(fmt::format("Run {}. Thread for each row: {}; {} in all{}.", run, thread_list(job, rows),
                               words::length_up(rows.thread, job.tape()), asked.make > 1 ? " for one piece" : ""));
  }
  if (planned.cord && words::is_cord_of_a_child(job, asked))
    said.emplace_back(
        "Draw it up in a casing on elastic whose ends are sewn fast, or gather it into a band instead: for "
        "a child no length of cord is given.");
  else if (planned.cord)
    said.push_back(fmt::format("Draw it up on a cord or elastic in a casing, cut {} to begin with.",
                               words::length_up(*planned.cord, job.tape())));
  return said;
}

std::string pins(const Join &asked, const JoinPlan &planned) {
  std::string text = fmt::format("Pins: {}, one a mark", planned.pins);
  if (asked.make > 1) text += fmt::format("; {} in all", static_cast<long long>(planned.pins) * asked.make);
  return text + ".";
}

} // namespace gatherwright::report
