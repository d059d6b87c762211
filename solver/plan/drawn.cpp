// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/drawn.hpp"

#include <algorithm>
#include <utility>

namespace gatherwright {

namespace {

std::optional<edge::Garment> side_of(const std::optional<Garment> &garment) {
  if (!garment) return std::nullopt;
  switch (*garment) {
  case Garment::left:
    return edge::Garment::left;
  case Garment::right:
    return edge::Garment::right;
  case Garment::inside:
    return edge::Garment::inside;
  case Garment::outside:
    break;
  }
  return edge::Garment::outside;
}

Outcome<edge::DrawnLine> draw(const DrawnEdge &drawn, bool closed, std::size_t pieces_before) {
  Outcome<edge::DrawnLine> line = edge::DrawnLine::draw({drawn.path, millimetres(drawn.path_unit), drawn.allowance.mm,
                                                         side_of(drawn.garment), drawn.grain, pieces_before});
  if (!line || line->closed() == closed) return line;
  if (closed) return Fault{"the join is closed and this path is open", "end the path with z, or leave out \"closed\""};
  return Fault{"this path is closed and the join is not", "leave out the z, or write \"closed\": true"};
}

/// Pieces of shear along the long edges of a job, some 24 to a strongly bent curve: they take a second to reckon.
constexpr std::size_t most_shear_pieces = 100'000;

Fault too_many_bends() {
  return {"the edges to be eased or spread by the grain bend too often: their shear has more than " +
              std::to_string(most_shear_pieces) + " pieces",
          "draw them with fewer curves, or spread it \"even\""};
}

/// How much can be eased in goes by the shear, and what is spread by the grain.
bool asks_for_shear(const Join &join) {
  return std::any_of(join.segments.begin(), join.segments.end(), [](const Segment &segment) {
    return segment.kind == Kind::ease || std::holds_alternative<AlongGrain>(segment.spread);
  });
}

} // namespace

std::variant<DrawnEdges, std::vector<PlacedFault>> draw_edges(const Job &job) {
  DrawnEdges edges;
  std::vector<PlacedFault> faults;
  const bool any = std::any_of(job.joins.begin(), job.joins.end(),
                               [](const Join &join) { return join.long_edge.drawn() || join.band.drawn(); });
  if (!any) return edges;
  std::size_t pieces = 0;
  std::size_t shear_left = most_shear_pieces;
  for (std::size_t j = 0; j < job.joins.size(); ++j) {
    const Join &join = job.joins[j];
    DrawnSides &sides = edges.emplace_back();
    const auto refuse = [&](WhichEdge which, Fault fault) {
      faults.push_back({place::InEdge{EdgeAt(JoinId(static_cast<int>(j)), which)}, std::move(fault)});
    };
    const auto take = [&](const Edge &edge, std::optional<edge::DrawnLine> &into, WhichEdge which) {
      if (!edge.drawn()) return;
      Outcome<edge::DrawnLine> line = draw(*edge.drawn(), join.closed, pieces);
      if (!line) return refuse(which, line.fault());
      pieces += line->pieces();
      into = *std::move(line);
    };
    take(join.long_edge, sides.long_edge, WhichEdge::long_edge);
    take(join.band, sides.band, WhichEdge::band);
    if (sides.long_edge && asks_for_shear(join) && !sides.long_edge->expect_shear(shear_left)) {
      refuse(WhichEdge::long_edge, too_many_bends());
      return faults; // the next would take as long to find so
    }
  }
  if (!faults.empty()) return faults;
  return edges;
}

DrawnEdges ready_to_ease(const Job &job, const DrawnEdges &edges) {
  DrawnEdges ready = edges;
  std::size_t left = most_shear_pieces;
  const auto is_flat = [](const Segment &segment) { return !takes_fullness(segment.kind); };
  for (std::size_t j = 0; j < ready.size(); ++j) {
    const auto &segments = job.joins[j].segments;
    if (ready[j].long_edge && std::any_of(segments.begin(), segments.end(), is_flat))
      ready[j].long_edge->expect_shear(left);
  }
  return ready;
}

DrawnPlan drawn_edge(const edge::DrawnLine &line, bool with_outline) {
  constexpr double within = 0.02; // millimetres
  DrawnPlan drawn{line.cut_edge(), line.stitching(), std::nullopt};
  if (with_outline) {
    edge::DrawnLine::Outline outline = line.outline(within);
    drawn.outline = Outline{std::move(outline.cut_edge), std::move(outline.stitching)};
  }
  return drawn;
}

std::vector<allot::DrawnLengths> lengths_of(const DrawnEdges &edges) {
  std::vector<allot::DrawnLengths> lengths;
  for (const DrawnSides &sides : edges) {
    allot::DrawnLengths &of_join = lengths.emplace_back();
    if (sides.long_edge) {
      of_join.long_edge = sides.long_edge->stitching();
      of_join.mean_shear = [line = &*sides.long_edge](double from, double to) { return line->mean_shear(from, to); };
    }
    if (sides.band) of_join.band = sides.band->stitching();
  }
  return lengths;
}

} // namespace gatherwright
