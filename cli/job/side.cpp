// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/side.hpp"

#include "cli/job/fields.hpp"
#include "cli/job/values.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/nearest.hpp"

#include <fmt/format.h>

#include <array>
#include <utility>

namespace gatherwright::cli {

namespace {

/// Names are offered in place of misspelt ones; among more than this, looking for the nearest would take too long.
constexpr std::size_t most_names_offered = 500;

constexpr std::string_view such_a_part =
    R"(the name of a join, or a part of its edge: { "join": "sleeve into cuff", "edge": "band" })";

constexpr std::array<std::pair<std::string_view, WhichEdge>, 2> edges = {
    {{"long", WhichEdge::long_edge}, {"band", WhichEdge::band}}};

/// The nearest of some names; all of them where none is near.
std::string instead_of(std::string_view word, const std::vector<std::string> &names, std::string_view they) {
  if (const auto meant = nearest(word, names)) return "write " + quoted(*meant);
  std::string all;
  for (const std::string &name : names)
    all += (all.empty() ? "" : ", ") + quoted(name);
  return fmt::format("{} {}", they, all);
}

int last_mark(const Join &join) {
  return static_cast<int>(join.segments.size());
}

} // namespace

Sewable::Sewable(std::span<const Join> joins, std::vector<bool> marks_known, bool all_known)
    : joins_(joins), marks_known_(std::move(marks_known)), all_known_(all_known) {
  for (std::size_t i = 0; i < joins.size(); ++i) {
    const std::string &name = joins[i].name;
    if (name.empty() || !found_.emplace(name, static_cast<int>(i)).second) continue;
    if (offered_.size() < most_names_offered) offered_.push_back(name);
  }
}

std::optional<JoinId> Sewable::join(Reading &reading, const Value &value) const {
  const auto name = to_name(reading, value);
  if (!name) return std::nullopt;
  if (const auto found = found_.find(*name); found != found_.end()) return JoinId(found->second);
  if (all_known_)
    reading.fault(value, {"there is no join " + quoted(*name), instead_of(*name, offered_, "the joins are")});
  return std::nullopt;
}

const Sewable::Marks &Sewable::marks_of(JoinId join) {
  const auto [at, fresh] = marks_.try_emplace(join.at);
  Marks &marks = at->second;
  if (!fresh) return marks;
  const auto enter = [&marks](std::string_view name, int mark) {
    const auto [known, is_new] = marks.found.emplace(name, mark);
    if (!is_new && known->second != mark) marks.again.insert(name);
    if (is_new && marks.offered.size() < most_names_offered) marks.offered.emplace_back(name);
  };
  const Join &of = (*this)[join];
  enter("start", 0);
  for (int s = 0; s < last_mark(of); ++s)
    if (const std::string &name = of.segments[static_cast<std::size_t>(s)].to; !name.empty()) enter(name, s + 1);
  enter("end", last_mark(of));
  return marks;
}

std::optional<int> Sewable::mark(Reading &reading, const Value &value, JoinId join) {
  const auto name = to_name(reading, value);
  if (!name) return std::nullopt;
  const Marks &marks = marks_of(join);
  const std::string of_join = quoted((*this)[join].name);
  if (marks.again.contains(*name)) {
    reading.fault(value, {fmt::format("more than one mark of {} is called {}", of_join, quoted(*name)),
                          R"(give each "to" of its segments a name of its own)"});
    return std::nullopt;
  }
  if (const auto found = marks.found.find(*name); found != marks.found.end()) return found->second;
  if (marks_known_[static_cast<std::size_t>(join.at)])
    reading.fault(value, {fmt::format("there is no mark {} in {}", quoted(*name), of_join),
                          instead_of(*name, marks.offered, "its marks are")});
  return std::nullopt;
}

namespace {

/// What a mark is called.
std::string_view called(const Value *mark, std::string_view left_out) {
  return mark ? mark->text : left_out;
}

/// Reads from which mark a part goes to which. False where that is at fault.
bool read_marks(Reading &reading, const Fields &fields, Sewable &sewable, SidePart &part) {
  const Value *from = fields["from"];
  const Value *to = fields["to"];
  const auto mark = [&](const Value *value, std::string_view key, int left_out) -> std::optional<int> {
    if (value) return sewable.mark(reading, *value, part.join);
    return fields.meant(key) ? std::nullopt : std::optional(left_out);
  };
  const Join &join = sewable[part.join];
  const auto begins = mark(from, "from", 0);
  const auto ends = mark(to, "to", last_mark(join));
  if (!begins || !ends) return false;
  part.from = *begins;
  part.to = *ends;
  if (part.from < part.to) return true;
  reading.fault(to ? *to : *from,
                {fmt::format("{} does not come behind {} along the edge", quoted(called(to, "end")),
                             quoted(called(from, "start"))),
                 join.closed
                     ? "a part that passes the start of a ring is written as two: to its end, and from its start"
                     : "\"from\" is the mark that comes first"});
  return false;
}

void refuse_drawn(Reading &reading, const Value &value) {
  reading.fault(value, {"this edge is drawn, and the sides of a piece are straight",
                        "leave it out, and cut its piece by the drawing"});
}

bool is_drawn(const Join &join, WhichEdge edge) {
  return (edge == WhichEdge::band ? join.band : join.long_edge).drawn() != nullptr;
}

std::optional<SidePart> to_part_of_object(Reading &reading, const Value &value, Sewable &sewable) {
  static constexpr std::string_view keys[] = {"join", "edge", "from", "to", "at"};
  const Fields fields(reading, value, "a part of a side", keys);
  const Value *name = fields.required("join", "write which join is sewn there: \"join\": \"sleeve into cuff\"");
  const auto join = name ? sewable.join(reading, *name) : std::nullopt;
  SidePart part{.join = join.value_or(JoinId(0))};
  const Value *edge = fields["edge"];
  const auto which = edge ? to_choice(reading, *edge, edges) : std::nullopt;
  if (which) part.edge = *which;
  if (const Value *at = fields["at"]) {
    auto begins = to_formula(reading, *at);
    if (begins) judge_length(reading, *at, *begins, Least::at_least_0);
    part.at = std::move(begins).value_or(Formula());
  }
  if (!join) return std::nullopt;
  const bool edge_known = which || (!edge && !fields.meant("edge"));
  if (edge_known && is_drawn(sewable[part.join], part.edge)) refuse_drawn(reading, value);
  if (!read_marks(reading, fields, sewable, part)) return std::nullopt;
  return part;
}

std::optional<SidePart> to_part(Reading &reading, const Value &value, Sewable &sewable) {
  if (value.kind == Value::Kind::object) return to_part_of_object(reading, value, sewable);
  if (value.kind != Value::Kind::text) {
    refuse_kind(reading, value, std::string(such_a_part));
    return std::nullopt;
  }
  const auto join = sewable.join(reading, value);
  if (!join) return std::nullopt;
  if (is_drawn(sewable[*join], WhichEdge::long_edge)) refuse_drawn(reading, value);
  return SidePart{.join = *join, .to = last_mark(sewable[*join])};
}

} // namespace

std::vector<SidePart> to_side(Reading &reading, const Value &value, Sewable &sewable) {
  std::vector<SidePart> parts;
  const auto read = [&](const Value &each) {
    if (auto part = to_part(reading, each, sewable)) parts.push_back(*std::move(part));
  };
  if (value.kind != Value::Kind::list) {
    read(value);
    return parts;
  }
  for (const Value &each : reading.document.children(value)) {
    if (reading.faults.full()) return parts;
    read(each);
  }
  return parts;
}

} // namespace gatherwright::cli
