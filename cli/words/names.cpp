// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/names.hpp"

#include "cli/words/characters.hpp"

#include <fmt/format.h>

namespace gatherwright::words {

namespace {

bool turns_or_hides(char32_t code) {
  return code < 0x20 || (code >= 0x7f && code < 0xa0) || code == 0x61c || code == 0x200e || code == 0x200f ||
         (code >= 0x2028 && code <= 0x202e) || (code >= 0x2060 && code <= 0x206f) || code == 0xfeff;
}

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

std::string printable(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const Character character = character_at(text, at);
    if (!character.valid)
      out += fmt::format("\\x{:02x}", static_cast<unsigned char>(text[at]));
    else if (turns_or_hides(character.code))
      out += fmt::format("\\u{:04x}", static_cast<std::uint32_t>(character.code));
    else
      out += text.substr(at, character.bytes);
    at += character.bytes;
  }
  return out;
}

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

std::string_view kind(Kind kind) {
  switch (kind) {
  case Kind::gather:
    return "gather";
  case Kind::gauge:
    return "gauge";
  case Kind::draw:
    return "draw";
  case Kind::ease:
    return "ease";
  case Kind::flat:
    break;
  }
  return "flat";
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

std::string segment_called(const Join &join, int segment) {
  const std::string &name = join.segments.at(segment).name;
  return name.empty() ? std::to_string(segment + 1) : name;
}

std::string where(const Job &job, int join, int segment) {
  const Join &sewn = job.joins.at(join);
  std::string text = printable(sewn.name);
  if (segment < 0) return text;
  const std::string &name = sewn.segments.at(segment).name;
  if (!name.empty()) return text + ", " + printable(name);
  return sewn.segments.size() == 1 ? text : fmt::format("{}, stretch {}", text, segment + 1);
}

std::string mark_called(const Join &join, const Mark &mark) {
  if (!mark.reference) return "";
  const int last = static_cast<int>(join.segments.size()) - 1;
  // The start of a ring is the end of its last stretch.
  const int ended = mark.ends_segment < 0 && join.closed ? last : mark.ends_segment;
  if (ended < 0) return "start";
  if (const std::string &to = join.segments.at(ended).to; !to.empty()) return to;
  if (ended == last) return join.closed ? "start" : "end";
  return "end of " + (join.segments[ended].name.empty() ? "stretch " : std::string()) + segment_called(join, ended);
}

bool mark_is_named(const Join &join, const Mark &mark) {
  if (!mark.reference) return false;
  const int last = static_cast<int>(join.segments.size()) - 1;
  const int ended = mark.ends_segment < 0 && join.closed ? last : mark.ends_segment;
  return ended >= 0 && (ended < last || !join.segments.at(ended).to.empty());
}

std::string rule_written(const Rule &rule) {
  return fmt::format("{} {} {}", rule.holds.left.written, relation(rule.holds.relation), rule.holds.right.written);
}

bool rule_is_named(const Rule &rule) {
  return without_spaces(rule.name) != without_spaces(rule_written(rule));
}

std::string rule_called(const Rule &rule) {
  const std::string written = rule_written(rule);
  return printable(rule_is_named(rule) ? fmt::format("{} ({})", rule.name, written) : written);
}

std::string edge_named(const Job &job, const Edge &edge) {
  if (edge.length.steps.size() != 1 || edge.length.steps.front().code != Formula::Code::symbol) return "";
  const int symbol = edge.length.steps.front().symbol;
  const int measures = static_cast<int>(job.measures.size());
  if (symbol < measures) return job.measures.at(symbol).name;
  if (symbol < job.symbol_of_cloth_width()) return job.lengths.at(symbol - measures).name;
  return "cloth_width";
}

} // namespace gatherwright::words
