// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/names.hpp"

#include <fmt/format.h>

namespace gatherwright::words {

namespace {

std::string_view relation(Relation relation) {
  switch (relation) {
  case Relation::at_most:
    return "<=";
  case Relation::at_least:
    return ">=";
  case Relation::equal:
    break;
  }
  return "=";
}

std::string without_spaces(std::string text) {
  std::erase(text, ' ');
  return text;
}

} // namespace

std::string_view verdict(Verdict verdict) {
  switch (verdict) {
  case Verdict::within_limits:
    return "within limits";
  case Verdict::too_scant:
    return "too scant";
  case Verdict::too_full:
    return "too full";
  case Verdict::rule_broken:
    return "rule broken";
  case Verdict::cannot_be_gathered:
    return "cannot be gathered";
  case Verdict::rules_conflict:
    break;
  }
  return "rules conflict";
}

std::string_view standing(Standing standing) {
  return standing == Standing::only_just ? "only just" : "well";
}

std::string verdict(Verdict of, std::optional<Standing> within) {
  if (!within) return std::string(verdict(of));
  return fmt::format("{}, {}", verdict(of), *within == Standing::only_just ? "only just" : "well inside them");
}

std::string_view worked(Kind kind) {
  switch (kind) {
  case Kind::gather:
    return "gathered";
  case Kind::gauge:
    return "gauged";
  case Kind::draw:
    return "drawn up";
  case Kind::ease:
    return "eased in";
  case Kind::flat:
    break;
  }
  return "plain";
}

std::string_view edge_called(WhichEdge edge) {
  return edge == WhichEdge::band ? "band" : "long edge";
}

std::string_view edge_key(WhichEdge edge) {
  return edge == WhichEdge::band ? "band" : "long";
}

std::string segment_called(const Join &join, int segment) {
  const std::string &name = join.segments.at(segment).name;
  return name.empty() ? std::to_string(segment + 1) : name;
}

std::string where(const Job &job, JoinId join) {
  return printable(job[join].name);
}

std::string where(const Job &job, SegmentAt segment) {
  const std::string join = where(job, segment.join);
  const std::string &name = job[segment].name;
  if (!name.empty()) return join + ", " + printable(name);
  return job[segment.join].segments.size() == 1 ? join : fmt::format("{}, stretch {}", join, segment.segment + 1);
}

std::string_view side_called(Side side) {
  switch (side) {
  case Side::top:
    return "top";
  case Side::bottom:
    return "bottom";
  case Side::left:
    return "left";
  case Side::right:
    break;
  }
  return "right";
}

std::string where(const Job &job, PieceId piece) {
  return printable(job[piece].name);
}

std::string where(const Job &job, SideAt side) {
  return fmt::format("{}, {}", where(job, side.piece), side_called(side.side));
}

std::string cloth_called(const Cloth &cloth) {
  return cloth.name.empty() ? "the cloth" : printable(cloth.name);
}

namespace {

int last_segment(const Join &join) {
  return static_cast<int>(join.segments.size()) - 1;
}

/// The segment that a reference mark ends. The start of a ring is the end of its last stretch.
std::optional<int> ended_by(const Join &join, const Mark &mark) {
  return !mark.ends_segment && join.closed ? last_segment(join) : mark.ends_segment;
}

} // namespace

std::string mark_called(const Join &join, const Mark &mark) {
  if (!mark.reference) return "";
  const std::optional<int> ended = ended_by(join, mark);
  if (!ended) return "start";
  const Segment &segment = join.segments.at(*ended);
  if (!segment.to.empty()) return segment.to;
  if (*ended == last_segment(join)) return join.closed ? "start" : "end";
  return "end of " + (segment.name.empty() ? "stretch " : std::string()) + segment_called(join, *ended);
}

bool mark_is_named(const Join &join, const Mark &mark) {
  if (!mark.reference) return false;
  const std::optional<int> ended = ended_by(join, mark);
  return ended && (*ended < last_segment(join) || !join.segments.at(*ended).to.empty());
}

std::string rule_written(const Rule &rule) {
  return fmt::format("{} {} {}", rule.holds.left.written(), relation(rule.holds.relation), rule.holds.right.written());
}

bool rule_is_named(const Rule &rule) {
  return without_spaces(rule.name) != without_spaces(rule_written(rule));
}

std::string rule_called(const Rule &rule) {
  const std::string written = rule_written(rule);
  return printable(rule_is_named(rule) ? fmt::format("{} ({})", rule.name, written) : written);
}

std::string edge_named(const Job &job, const Edge &edge) {
  const Formula *formula = edge.formula();
  if (formula == nullptr || formula->steps().size() != 1) return "";
  const auto &[code, value, symbol] = formula->steps().front();
  if (code != Formula::Code::symbol) return "";
  if (const auto length = job.length_of(symbol)) return job[*length].name;
  return symbol == job.symbol_of_cloth_width() ? "cloth_width" : job[MeasureId(symbol)].name;
}

} // namespace gatherwright::words
