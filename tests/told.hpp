// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/told.hpp"

#include <algorithm>
#include <cstddef>
#include <set>
#include <string>
#include <type_traits>
#include <variant>
#include <vector>

/// What a plan tells, looked through by what it is.
namespace gatherwright::tests {

/// The first of them that is a `Told`; null where none is.
template <class Told, class... Any> const Told *find(const std::vector<std::variant<Any...>> &told) {
  for (const auto &each : told)
    if (const Told *found = std::get_if<Told>(&each)) return found;
  return nullptr;
}

/// The first change that is a `Changed`; null where none is.
template <class Changed> const Changed *find(const std::vector<Remedy> &remedies) {
  for (const Remedy &remedy : remedies)
    if (const Changed *found = std::get_if<Changed>(&remedy.change)) return found;
  return nullptr;
}

/// How many of them are a `Told`.
template <class Told, class... Any> int count(const std::vector<std::variant<Any...>> &told) {
  return static_cast<int>(
      std::count_if(told.begin(), told.end(), [](const auto &each) { return std::holds_alternative<Told>(each); }));
}

/// How many notes say that this was left out.
inline int count(const std::vector<Note> &notes, note::LeftOut::What what) {
  return static_cast<int>(std::count_if(notes.begin(), notes.end(), [what](const Note &note) {
    const auto *left_out = std::get_if<note::LeftOut>(&note);
    return left_out && left_out->what == what;
  }));
}

/// Whether every alternative is among them.
template <class... Any> bool every_alternative(const std::vector<std::variant<Any...>> &told) {
  std::set<std::size_t> met;
  for (const auto &each : told)
    met.insert(each.index());
  return met.size() == sizeof...(Any);
}

/// What a finding tells of each edge alone. Throws where it is of a rule.
inline const finding::EdgesAlone &alone_of(const Finding &finding) {
  if (const auto *past = std::get_if<finding::PastLimit>(&finding)) return past->alone;
  return std::get<finding::LessThanBand>(finding).alone;
}

/// Whether a finding is that a segment passes this limit of its.
inline bool is_past(const Finding &finding, finding::PastLimit::Limit limit) {
  const auto *past = std::get_if<finding::PastLimit>(&finding);
  return past && past->limit == limit;
}

/// Whether two changes are of the same thing and to the same.
inline bool same_change(const Change &one, const Change &other) {
  if (one.index() != other.index()) return false;
  return std::visit(
      [&other](const auto &change) {
        using Changed = std::decay_t<decltype(change)>;
        const auto &second = std::get<Changed>(other);
        if constexpr (std::is_same_v<Changed, change::Swap>)
          return change.at == second.at;
        else if constexpr (std::is_same_v<Changed, change::ToWeight>)
          return change.to == second.to;
        else if constexpr (std::is_same_v<Changed, change::ToKind>)
          return change.at == second.at && change.becomes == second.becomes;
        else
          return change.at == second.at && change.to == second.to;
      },
      one);
}

/// A place as a path: "join 0, segment 1, spread".
struct PlaceAsPath {
  static std::string numbered(const char *what, int number) { return what + (" " + std::to_string(number)); }

  std::string operator()(const place::WholeJob &at) const {
    static constexpr const char *parts[] = {"",       "title",     "unit",      "tape step",    "allowance",
                                            "fabric", "gathering", "tolerance", "wearer's age", "pieces"};
    return parts[static_cast<std::size_t>(at.part)];
  }
  std::string operator()(const place::InMeasure &at) const { return numbered("measure", at.at.at); }
  std::string operator()(const place::InLength &at) const {
    static constexpr const char *parts[] = {"", ", is", ", from", ", to", ", aim"};
    return numbered("length", at.at.at) + parts[static_cast<std::size_t>(at.part)];
  }
  std::string operator()(const place::InRule &at) const { return numbered("rule", at.at.at); }
  std::string operator()(const place::InJoin &at) const {
    static constexpr const char *parts[] = {"",      ", name",   ", make",     ", marks", ", allowance",
                                            ", use", ", fabric", ", gathering"};
    return numbered("join", at.at.at) + parts[static_cast<std::size_t>(at.part)];
  }
  std::string operator()(const place::InEdge &at) const {
    static constexpr const char *parts[] = {"", ", allowance", ", ends", ", part"};
    return numbered("join", at.at.join.at) + (at.at.edge == WhichEdge::band ? ", band" : ", long") +
           parts[static_cast<std::size_t>(at.part)];
  }
  std::string operator()(const place::InSegment &at) const {
    static constexpr const char *parts[] = {"",       ", long", ", band",  ", spread", ", name",
                                            ", kind", ", to",   ", share", ", limits"};
    return numbered("join", at.at.join.at) + numbered(", segment", at.at.segment) +
           parts[static_cast<std::size_t>(at.part)];
  }
  static std::string of_side(SideAt at) {
    static constexpr const char *sides[] = {", top", ", bottom", ", left", ", right"};
    return numbered("piece", at.piece.at) + sides[static_cast<std::size_t>(at.side)];
  }
  std::string operator()(const place::InPiece &at) const {
    static constexpr const char *parts[] = {"", ", name", ", cut", ", across", ", along", ", fabric"};
    return numbered("piece", at.at.at) + parts[static_cast<std::size_t>(at.part)];
  }
  std::string operator()(const place::InAllowance &at) const { return of_side(at.at) + ", allowance"; }
  std::string operator()(const place::InSidePart &at) const {
    static constexpr const char *parts[] = {"", ", from", ", to", ", at"};
    return of_side(at.at.side) + numbered(", part", at.at.part) + parts[static_cast<std::size_t>(at.part)];
  }
};

inline std::string path_of(const Place &place) {
  return std::visit(PlaceAsPath{}, place);
}

} // namespace gatherwright::tests
