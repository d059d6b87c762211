// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/bindings.hpp"

#include "cli/words/cloths.hpp"
#include "cli/words/findings.hpp"
#include "cli/words/names.hpp"
#include "cli/words/refusals.hpp"

#include <fmt/format.h>

#include <string_view>
#include <utility>

namespace gatherwright::words {

namespace {

/// What something is of, by what it is at.
struct At {
  Bound &bound;

  void operator()(RuleId at) const { bound.rule = at; }
  void operator()(JoinId at) const { bound.join = at; }
  void operator()(LengthId at) const { bound.length = at; }
  void operator()(PieceId at) const { bound.piece = at; }
  void operator()(ClothId at) const { bound.cloth = at; }
  void operator()(MeasureId) const {}
  void operator()(SegmentAt at) const {
    bound.join = at.join;
    bound.segment = at.segment;
  }
  void operator()(EdgeAt at) const { bound.join = at.join; }
  void operator()(SideAt at) const { bound.piece = at.piece; }
  void operator()(PartAt at) const { bound.piece = at.side.piece; }
};

/// What is said of a condition that would not hold.
struct NotHeld {
  const Job &job;

  std::string operator()(const condition::Holds &rule) const {
    return fmt::format("{} would not hold.", rule_called(job[rule.at]));
  }

  std::string operator()(const condition::InRange &range) const {
    const bool from = range.end == condition::InRange::End::from;
    const FreeLength &free = *job[range.at].free();
    return fmt::format("The job keeps the {} to {} or {}.", printable(job[range.at].name),
                       printable((from ? free.from : free.to).value().written()), from ? "more" : "less");
  }

  std::string operator()(const condition::AddsUp &edge) const {
    return fmt::format("{}: its stretches would not add up to the {}.", where(job, edge.at.join),
                       edge_called(edge.at.edge));
  }

  std::string operator()(const condition::Flat &flat) const {
    return fmt::format("{}: sewn plain it would have to be as long on both edges.", where(job, flat.at));
  }

  std::string operator()(const condition::Given &given) const {
    return fmt::format("{}: the length that it is given on the {} would not be kept.", where(job, given.at),
                       edge_called(given.edge));
  }

  std::string operator()(const condition::NoWider &piece) const {
    return fmt::format("{} would be wider than its cloth.", where(job, piece.at));
  }

  std::string operator()(const condition::WithinStock &stock) const {
    const Cloth cloth = cloth_at(job, stock.at);
    return fmt::format("{}: the pieces would take more than the {} that there are.", cloth_called(cloth),
                       printable(cloth.stock.value().written));
  }
};

Bound bound_by(const Job &job, const BelowNothing &below) {
  Bound bound{fmt::format("The {} would come to less than nothing.", printable(job[below.at].name))};
  bound.length = below.at;
  return bound;
}

Bound bound_by(const Job &job, const Condition &condition) {
  Bound bound{std::visit(NotHeld{job}, condition)};
  std::visit([&](const auto &of) { At{bound}(of.at); }, condition);
  return bound;
}

Bound bound_by(const Job &job, const Finding &finding) {
  Bound bound{words::finding(job, finding)};
  std::visit([&](const auto &of) { At{bound}(of.at); }, finding);
  return bound;
}

Bound bound_by(const Job &job, const Refusal &refusal) {
  Bound bound{};
  const auto name = [&](const auto &at) {
    if constexpr (requires { at.at; }) At{bound}(at.at);
  };
  std::visit(name, place_of(refusal));
  std::string said = words::refusal(job, refusal).what;
  std::string place;
  if (bound.join)
    place = bound.segment ? where(job, SegmentAt(*bound.join, *bound.segment)) : where(job, *bound.join);
  else if (bound.piece)
    place = where(job, *bound.piece);
  else if (bound.length)
    place = printable(job[*bound.length].name);
  bound.says =
      place.empty() ? fmt::format("The job could not be planned: {}.", said) : fmt::format("{}: {}.", place, said);
  return bound;
}

} // namespace

Bound binding(const Job &job, const Binding &binding) {
  return std::visit([&](const auto &by) { return bound_by(job, by); }, binding);
}

} // namespace gatherwright::words
