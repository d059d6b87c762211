// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/short_names.hpp"

#include "cli/words/columns.hpp"
#include "cli/words/names.hpp"
#include "gatherwright/cloths.hpp"
#include "gatherwright/text.hpp"

#include <algorithm>
#include <string>
#include <vector>

namespace gatherwright::report {

namespace {

bool is_too_long(std::string_view name) {
  // Fewer bytes than this can be neither too many characters nor too many that are stacked.
  if (name.size() <= most_stacked) return false;
  return is_printable_ascii(name) ? name.size() > most_told : told_bytes(name) < name.size();
}

std::string shortened(std::string_view name) {
  return std::string(name.substr(0, told_bytes(name))) + "…";
}

void shorten(std::string &name) {
  if (is_too_long(name)) name = shortened(name);
}

bool has_long_cloth(const Job &job) {
  return std::any_of(job.pieces.begin(), job.pieces.end(),
                     [](const Piece &piece) { return is_too_long(piece.fabric.name); });
}

/// Cloths whose names begin alike stay apart by their numbers: what is told of them finds them by their order.
void shorten_cloths(Job &job) {
  const std::vector<int> cloths = cloths_of(job).of_piece;
  for (std::size_t i = 0; i < job.pieces.size(); ++i) {
    SharedText &name = job.pieces[i].fabric.name;
    if (is_too_long(name)) name = shortened(name) + " (" + std::to_string(cloths.at(i) + 1) + ")";
  }
}

void shorten(Formula &formula) {
  std::string written = formula.written();
  shorten(written);
  formula = formula.written_as(std::move(written));
}

bool is_too_long(const Formula &formula) {
  return is_too_long(formula.written());
}

/// Of every name, and every formula, of a job that is told.
template <class AnyJob, class Visit> void visit_told(AnyJob &job, const Visit &visit) {
  const auto visit_if = [&visit](auto &formula) {
    if (formula) visit(*formula);
  };
  if (job.title) visit(*job.title);
  for (auto &measure : job.measures)
    visit(measure.name);
  for (auto &length : job.lengths) {
    visit(length.name);
    if (auto *free = std::get_if<FreeLength>(&length.is)) {
      visit_if(free->from);
      visit_if(free->to);
    }
  }
  for (auto &join : job.joins) {
    visit(join.name);
    for (auto &segment : join.segments) {
      visit(segment.name);
      visit(segment.to);
      visit_if(segment.long_edge);
      visit_if(segment.band);
    }
  }
  for (auto &piece : job.pieces)
    visit(piece.name);
}

/// One without a name of its own is called as it is written, also when that is shorter.
void shorten(Rule &rule) {
  const bool own_name = words::rule_is_named(rule);
  shorten(rule.holds.left);
  shorten(rule.holds.right);
  if (own_name)
    shorten(rule.name);
  else
    rule.name = words::rule_written(rule);
}

bool is_too_long(const Rule &rule) {
  return is_too_long(rule.name) || is_too_long(rule.holds.left) || is_too_long(rule.holds.right);
}

} // namespace

std::size_t told_bytes(std::string_view name) {
  std::size_t characters = 0;
  std::size_t stacked = 0;
  for (std::size_t at = 0; at < name.size();) {
    const std::size_t bytes = character_at(name, at).bytes;
    stacked = columns(name.substr(at, bytes)) == 0 ? stacked + 1 : 0;
    if (++characters > most_told || stacked > most_stacked) return at;
    at += bytes;
  }
  return name.size();
}

std::string short_name(std::string name) {
  shorten(name);
  return name;
}

std::optional<Job> with_short_names(const Job &job) {
  bool any = has_long_cloth(job) ||
             std::any_of(job.rules.begin(), job.rules.end(), [](const Rule &rule) { return is_too_long(rule); });
  visit_told(job, [&any](const auto &told) { any = any || is_too_long(told); });
  if (!any) return std::nullopt;
  std::optional<Job> short_named = job;
  visit_told(*short_named, [](auto &told) { shorten(told); });
  for (Rule &rule : short_named->rules)
    if (is_too_long(rule)) shorten(rule);
  if (has_long_cloth(job)) shorten_cloths(*short_named);
  return short_named;
}

} // namespace gatherwright::report
