// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/drawn.hpp"

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

Outcome<edge::DrawnLine> draw(const DrawnEdge &drawn, bool closed) {
  Outcome<edge::DrawnLine> line = edge::DrawnLine::draw(
      {drawn.path, millimetres(drawn.path_unit), drawn.allowance.mm, side_of(drawn.garment), drawn.grain});
  if (!line || line->closed() == closed) return line;
  if (closed) return Fault{"the join is closed and this path is open", "end the path with z, or leave out \"closed\""};
  return Fault{"this path is closed and the join is not", "leave out the z, or write \"closed\": true"};
}

} // namespace

std::variant<DrawnEdges, std::vector<PlacedFault>> draw_edges(const Job &job) {
  DrawnEdges edges;
  std::vector<PlacedFault> faults;
  const bool any = std::any_of(job.joins.begin(), job.joins.end(),
                               [](const Join &join) { return join.long_edge.drawn || join.band.drawn; });
  if (!any) return edges;
  for (std::size_t j = 0; j < job.joins.size(); ++j) {
    const Join &join = job.joins[j];
    DrawnSides &sides = edges.emplace_back();
    const auto take = [&](const Edge &edge, std::optional<edge::DrawnLine> &into, std::string_view part) {
      if (!edge.drawn) return;
      Outcome<edge::DrawnLine> line = draw(*edge.drawn, join.closed);
      if (line)
        into = *std::move(line);
      else
        faults.push_back({{.join = static_cast<int>(j), .part = part}, line.fault()});
    };
    take(join.long_edge, sides.long_edge, "long");
    take(join.band, sides.band, "band");
  }
  if (!faults.empty()) return faults;
  return edges;
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
      of_join.mean_shear = [line = &*sides.long_edge](double from, double to) {
        return edge::mean(line->shear(from, to));
      };
    }
    if (sides.band) of_join.band = sides.band->stitching();
  }
  return lengths;
}

} // namespace gatherwright
