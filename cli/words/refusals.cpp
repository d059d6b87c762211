// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/refusals.hpp"

#include "cli/words/cloths.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"
#include "gatherwright/text.hpp"

#include <fmt/format.h>

namespace gatherwright::words {

namespace {

/// A name as a fault tells it: of one that is too long the beginning, so that the end of the sentence is found.
std::string cut_short(const std::string &name) {
  constexpr std::size_t longest = 200;
  return name.size() <= longest ? name : std::string(clipped(name, longest)) + "…";
}

std::string segment(const Join &join, int segment) {
  const std::string &name = join.segments[segment].name;
  return name.empty() ? std::to_string(segment + 1) : cut_short(name);
}

std::string in_millimetres(double length) {
  return trimmed(length, 1) + " mm";
}

Fault told(const Job &, const PlacedFault &fault) {
  return fault.fault;
}

Fault told(const Job &, const refusal::Undrawable &edge) {
  using Why = refusal::Undrawable::Why;
  switch (edge.why) {
  case Why::open:
    return {"the join is closed and this path is open", "end the path with z, or leave out \"closed\""};
  case Why::closed:
    return {"this path is closed and the join is not", "leave out the z, or write \"closed\": true"};
  case Why::too_many_pieces:
    return {fmt::format("with this path the drawn edges have more than {} lines and curves", edge.most),
            "draw them with fewer"};
  case Why::too_many_bends:
    return {fmt::format("the edges to be eased or spread by the grain bend too often: their shear has more than {} "
                        "pieces",
                        edge.most),
            "draw them with fewer curves, or spread it \"even\""};
  case Why::no_side:
    return {"an allowance with nothing to say on which side the garment lies", "\"garment\": \"left\" or \"right\""};
  case Why::no_inside:
    return {"the drawn edge is open and has no inside", "\"left\" or \"right\", or close the path with Z"};
  case Why::encloses_nothing:
    return {"the drawn edge encloses nothing", "\"left\" or \"right\""};
  case Why::allowance_too_large:
    break;
  }
  return {fmt::format("an allowance of {} is beyond any edge", in_millimetres(edge.allowance)), "a smaller one"};
}

Fault told(const Job &job, const refusal::NoPart &part) {
  const auto said = [&](double mm) { return length(mm, job.tape()); };
  const std::string most = length_down(part.stitching, job.tape());
  if (part.from >= part.to)
    return {fmt::format("a part from {} to {} has no length", said(part.from), said(part.to)),
            "the nearer place first, and then one further along, up to " + most};
  return {fmt::format("the part ends {} along, and the stitching line is {} long", said(part.to), said(part.stitching)),
          "a place up to " + most};
}

Fault told(const Job &, const refusal::NoStitchingLine &line) {
  using Why = refusal::NoStitchingLine::Why;
  const std::string place = in_millimetres(line.along) + " along the drawn edge";
  const std::string allowance = "an allowance of " + in_millimetres(line.allowance);
  switch (line.why) {
  case Why::meets_itself:
    return {"the drawn edge crosses or touches itself, " + place, "an edge that does not, where there is an allowance"};
  case Why::too_tight:
    return {allowance + " does not fit inside the curve or corner " + place,
            "a smaller allowance, or a rounder edge there"};
  case Why::doubles_back:
    return {"the edge turns right round " + place + ", and the stitching line cannot follow it",
            "a point with some angle to it"};
  case Why::falls_apart:
    return {allowance + " leaves the stitching line in pieces, about " + place,
            "a smaller allowance, or a wider neck there"};
  case Why::runs_across:
    return {"the stitching line runs over itself or the cut edge " + place,
            "a smaller allowance, or the garment on the other side"};
  case Why::nothing_left:
    return {allowance + " leaves nothing of the drawn edge to stitch along",
            "a smaller allowance, or the garment on the other side"};
  case Why::too_tangled:
    break;
  }
  return {"the drawn edge is too tangled for a stitching line", "fewer crossings"};
}

std::string more_than(const refusal::TooMuch &much) {
  using Of = refusal::TooMuch::Of;
  constexpr std::int64_t million = 1'000'000;
  switch (much.of) {
  case Of::numbers:
    return fmt::format("so many segments and lengths to be found meet in this job that more than {} million numbers "
                       "would have to be kept",
                       much.most / million);
  case Of::lengths:
    return fmt::format("more than {} lengths to be found hang together in this job", much.most);
  case Of::conditions:
    return fmt::format("more than {} conditions of this job come to bind at once", much.most);
  case Of::steps:
    break;
  }
  return fmt::format("this job takes more than {} million steps to work out", much.most / million);
}

Fault told(const Job &, const refusal::TooMuch &much) {
  return {more_than(much), "fix some of its lengths, or plan it in parts"};
}

std::string edge_of(const Job &job, WhichEdge edge, JoinId join) {
  return (edge == WhichEdge::band ? "the band of " : "the long edge of ") + job[join].name;
}

std::string stretch(const Job &job, WhichEdge edge, SegmentAt at) {
  return edge_of(job, edge, at.join) + ", segment " + segment(job[at.join], at.segment);
}

std::string said(const Job &job, const condition::Holds &rule) {
  return "the rule " + job[rule.at].name;
}

std::string said(const Job &job, const condition::InRange &range) {
  return "where " + job[range.at].name + (range.end == condition::InRange::End::from ? " begins" : " ends");
}

std::string said(const Job &job, const condition::AddsUp &edge) {
  return edge_of(job, edge.at.edge, edge.at.join);
}

std::string said(const Job &job, const condition::Flat &flat) {
  return stretch(job, WhichEdge::long_edge, flat.at);
}

std::string said(const Job &job, const condition::Given &given) {
  return stretch(job, given.edge, given.at);
}

std::string said(const Job &job, const condition::NoWider &piece) {
  return "the width of the cloth for the piece " + job[piece.at].name;
}

std::string said(const Job &job, const condition::WithinStock &stock) {
  return "how much there is of " + cloth_called(cloth_at(job, stock.at));
}

Fault told(const Job &job, const refusal::Indistinct &indistinct) {
  const char *const instead = "leave one of them out, or make them differ clearly";
  if (!indistinct.conditions)
    return {"what must hold cannot be told apart: some conditions say nearly the same, but not quite", instead};
  const auto name = [&](const auto &condition) { return said(job, condition); };
  const auto &[first, second] = *indistinct.conditions;
  return {std::visit(name, first) + " and " + std::visit(name, second) +
              " say nearly the same, but not quite: what must hold cannot be told apart",
          instead};
}

Fault told(const Job &job, const refusal::NoBand &none) {
  if (const auto *join = std::get_if<JoinId>(&none.of))
    return {"the band of " + cut_short(job[*join].name) + " comes out as nothing", "give it a length"};
  const SegmentAt at = std::get<SegmentAt>(none.of);
  return {"no band is left for " + cut_short(job[at.join].name) + ", segment " + segment(job[at.join], at.segment),
          "make its band longer, the others shorter, or leave it out"};
}

Fault told(const Job &job, const refusal::Unsettled &loose) {
  std::string names;
  for (const int s : loose.segments)
    names += (names.empty() ? "" : ", ") + segment(job[loose.at], s);
  return {cut_short(job[loose.at].name) + ": nothing settles how long these segments are: " + names,
          "give one of them a long or a band"};
}

Fault told(const Job &job, const refusal::TooManyMarks &marks) {
  const std::string name = cut_short(job[marks.at].name);
  if (!marks.in_all)
    return {fmt::format("{} would get more than {} marks", name, marks.most), "set them further apart"};
  return {fmt::format("up to {} the job would get more than {} marks in all, those of mirrored pieces counted too",
                      name, marks.most),
          "set them further apart, or plan fewer joins in one job"};
}

Fault told(const Job &job, const refusal::FadeTooLong &fade) {
  const Tape tape = job.tape();
  return {"the fade takes " + named_reading({fade.fade}, tape) + " of a band of " + named_reading({fade.band}, tape),
          "fade over no more than the segment's band"};
}

Fault told(const Job &, const refusal::NoShear &) {
  return {"this stretch lies wholly along the threads and shears nowhere", "spread it \"even\""};
}

Fault told(const Job &job, const refusal::NoSize &none) {
  return {fmt::format("the piece {} comes out {} {}", cut_short(job[none.at].name),
                      none.is < 0 ? "less than nothing" : "nothing", none.across ? "wide" : "long"),
          "let it come to a size above 0"};
}

Fault told(const Job &job, const refusal::TooManyOnSides &marks) {
  return {fmt::format("up to this part of the piece {} the sides of pieces would get more than {} marks",
                      cut_short(job[marks.at.side.piece].name), marks.most),
          "set them further apart, or sew each edge to fewer sides"};
}

Fault told(const Job &job, const refusal::BeforeTheSide &part) {
  return {fmt::format("this part of the piece {} comes to begin {} before the side does",
                      cut_short(job[part.at.side.piece].name), nearest_length(-part.is, job.tape())),
          "let \"at\" come to 0 or more"};
}

} // namespace

Fault refusal(const Job &job, const Refusal &refusal) {
  return std::visit([&](const auto &why) { return told(job, why); }, refusal);
}

} // namespace gatherwright::words
