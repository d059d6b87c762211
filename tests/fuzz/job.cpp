// SPDX-License-Identifier: GPL-3.0-or-later
// Reading a job from any bytes gives a job whose parts hold together, which can be planned or refused, or faults that
// can be printed; and the same each time.
#include "cli/job/job_lines.hpp"
#include "cli/job/read_job.hpp"
#include "cli/report/plan_json.hpp"
#include "cli/report/plan_text.hpp"
#include "cli/words/refusals.hpp"
#include "gatherwright/plan.hpp"
#include "gatherwright/validate.hpp"

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <nlohmann/json.hpp>

using namespace gatherwright;
using namespace gatherwright::cli;

namespace {

void demand(bool holds) {
  if (!holds) std::abort();
}

void check_formula(const Job &job, const Formula &formula) {
  demand(!formula.written().empty());
  for (const int symbol : symbols_of(formula))
    demand(symbol >= 0 && symbol < job.symbols());
}

void check_formula(const Job &job, const std::optional<Formula> &formula) {
  if (formula) check_formula(job, *formula);
}

void check_length(const Job &job, const NamedLength &length) {
  if (const Formula *fixed = length.fixed()) check_formula(job, *fixed);
  if (const FreeLength *free = length.free()) {
    check_formula(job, free->from);
    check_formula(job, free->to);
    if (const Formula *figure = free->figure()) check_formula(job, *figure);
  }
}

void check_edge(const Job &job, const Edge &edge) {
  if (const Formula *formula = edge.formula()) check_formula(job, *formula);
  if (const DrawnEdge *drawn = edge.drawn()) demand(!drawn->path.empty());
}

void check_piece(const Job &job, const PieceSpots &spots, const Piece &piece) {
  demand(!piece.name.empty() && piece.cut >= 1);
  check_formula(job, piece.across);
  check_formula(job, piece.along);
  for (const Side side : all_sides) {
    check_formula(job, piece.allowance[side]);
    demand(piece.sides[side].size() == spots.sides[side].size());
    for (const SidePart &part : piece.sides[side]) {
      const int last = static_cast<int>(job[part.join].segments.size());
      demand(0 <= part.from && part.from < part.to && part.to <= last && !job[EdgeAt(part.join, part.edge)].drawn());
      check_formula(job, part.at);
    }
  }
}

void check_job(const ReadJob &read) {
  const Job &job = read.job;
  const JobLines lines = lines_of(*read.document);
  demand(validate(job).empty());
  demand(!job.joins.empty() && job.joins.size() == lines.joins.size());
  demand(job.lengths.size() == lines.lengths.size() && job.rules.size() == lines.rules.size());
  demand(job.pieces.size() == lines.pieces.size());
  for (std::size_t p = 0; p < job.pieces.size(); ++p)
    check_piece(job, lines.pieces[p], job.pieces[p]);
  demand(job.tape_step.mm > 0 && job.gathering.stitch.mm > 0);
  for (const NamedLength &length : job.lengths)
    check_length(job, length);
  for (const Rule &rule : job.rules) {
    check_formula(job, rule.holds.left);
    check_formula(job, rule.holds.right);
  }
  for (const Join &join : job.joins) {
    demand(!join.name.empty() && join.make >= 1 && !join.segments.empty() && join.gathering.stitch.mm > 0);
    check_edge(job, join.long_edge);
    check_edge(job, join.band);
    for (const Segment &segment : join.segments) {
      check_formula(job, segment.long_edge);
      check_formula(job, segment.band);
      demand(segment.share > 0);
    }
  }
}

std::string lines_of_faults(const std::vector<InputFault> &faults, std::string_view text) {
  demand(!faults.empty() && faults.size() <= FaultList::most);
  std::string lines;
  for (const InputFault &fault : faults) {
    const std::string line = fault_line("job", fault);
    demand(fault.line >= 1 && fault.line <= 1 + std::count(text.begin(), text.end(), '\n'));
    demand(!fault.fault.what.empty() && line.find('\n') == std::string::npos);
    lines += line + '\n';
  }
  return lines;
}

void plan_and_write(const Job &job) {
  const PlanOutcome outcome = plan(job);
  if (!outcome) {
    demand(!outcome.fault().empty());
    for (const Refusal &refusal : outcome.fault())
      demand(!words::refusal(job, refusal).what.empty());
    return;
  }
  const Plan &made = *outcome;
  // No number that is none is JSON.
  demand(nlohmann::json::accept(report::plan_json(job, made)));
  demand(!report::plan_text(job, made, {}).empty());
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char *>(data), size);
  const auto read = read_job(text);
  const auto again = read_job(text);
  demand(static_cast<bool>(read) == static_cast<bool>(again));
  if (read) {
    check_job(*read);
    plan_and_write(read->job);
  } else {
    demand(lines_of_faults(read.fault(), text) == lines_of_faults(again.fault(), text));
  }
  return 0;
}
