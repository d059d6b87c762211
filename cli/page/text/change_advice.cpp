// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/change_advice.hpp"

#include "cli/job/read_job.hpp"
#include "cli/page/faults.hpp"
#include "cli/page/text/change_length.hpp"
#include "cli/page/text/change_value.hpp"
#include "cli/page/text/edit.hpp"
#include "cli/page/text/scan.hpp"
#include "cli/page/text/way.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"
#include "gatherwright/cloths.hpp"

#include <fmt/format.h>

#include <array>
#include <utility>
#include <vector>

namespace gatherwright::page {

using cli::Value;

namespace {

/// One change of the text after another.
class Steps {
public:
  explicit Steps(std::string_view text) : text_(std::string(text)) {}

  template <class Next> void then(Next &&next) { text_ = text_.and_then(std::forward<Next>(next)); }

  void set(const std::string &pointer, const std::string &json) {
    then([&](const std::string &text) { return with_value(text, pointer, json); });
  }
  void clear(const std::string &pointer) { set(pointer, "null"); }

  Changed done() && { return std::move(text_); }

private:
  Changed text_;
};

std::string join_at(JoinId join) {
  return fmt::format("/joins/{}", join.at);
}

std::string segment_at(SegmentAt at) {
  return fmt::format("{}/segments/{}", join_at(at.join), at.segment);
}

const Value &value_at(const Source &source, const std::string &pointer) {
  return *way_to(source, *steps_of(pointer)).value;
}

/// What stands at two places, each in that of the other.
Changed with_swapped(const std::string &text, const std::string &one, const std::string &other) {
  const auto source = source_of(text);
  if (!source) return source.fault();
  std::array<Extent, 2> at{source->at(value_at(*source, one)), source->at(value_at(*source, other))};
  if (at[0].begin > at[1].begin) std::swap(at[0], at[1]);
  const auto written = [&](const Extent &extent) { return text.substr(extent.begin, extent.end - extent.begin); };
  return edited(text, {{at[0].begin, at[0].end, written(at[1])}, {at[1].begin, at[1].end, written(at[0])}});
}

/// The "long" of a segment told as its "band".
Changed with_long_as_band(const std::string &text, const std::string &segment) {
  const auto source = source_of(text);
  if (!source) return source.fault();
  const std::size_t key = source->at(value_at(*source, segment + "/long")).key;
  return edited(text, {{key, past_quotes(text, key), "\"band\""}});
}

bool is_written(const std::string &text, const std::string &pointer) {
  const auto source = source_of(text);
  const auto steps = steps_of(pointer);
  return source && steps && way_to(*source, *steps).taken == steps->size();
}

/// Does to the text what the solver's advice did to the job when it tried the change.
struct Taking {
  const Job &job;
  std::string_view text;

  Changed operator()(const change::Swap &change) const {
    return with_swapped(std::string(text), join_at(change.at) + "/long", join_at(change.at) + "/band");
  }

  /// Of a length to be found the end of its range that keeps it from there.
  Changed operator()(const change::ToLength &change) const {
    const NamedLength &length = job[change.at];
    const std::string_view key = length.fixed() ? "is" : change.by < 0 ? "from" : "to";
    return with_length_at(text, fmt::format("/lengths/{}/{}", length.name, key), change.to, job.tape());
  }

  Changed operator()(const change::ToEdge &change) const {
    const std::string pointer = fmt::format("{}/{}/length", join_at(change.at.join), words::edge_key(change.at.edge));
    return with_length_at(text, pointer, change.to, job.tape());
  }

  /// Wherever it is said of the cloth of these pieces how much there is.
  Changed operator()(const change::ToClothLength &change) const {
    const std::vector<int> of_piece = cloths_of(job).of_piece;
    Steps steps(text);
    for (std::size_t piece = 0; piece < of_piece.size(); ++piece) {
      if (of_piece[piece] != change.at.at) continue;
      const std::string own = fmt::format("/pieces/{}/fabric/stock", piece);
      steps.then([&](const std::string &changed) {
        return with_length_at(changed, is_written(changed, own) ? own : "/fabric/stock", change.to, job.tape());
      });
    }
    return std::move(steps).done();
  }

  Changed operator()(const change::ToWeight &change) const {
    return with_value(text, "/fabric/weight", quoted_json(words::weight(change.to)));
  }

  /// There is one stitch: counted threads, which say it too, go.
  Changed operator()(const change::ToStitch &change) const {
    const std::string gathering = join_at(change.at) + "/gathering";
    Steps steps(text);
    steps.set(gathering + "/stitch", quoted_json(words::small_length(change.to, job.unit)));
    steps.clear(gathering + "/threads");
    steps.clear(gathering + "/count");
    return std::move(steps).done();
  }

  Changed operator()(const change::ToKind &change) const {
    const Segment &segment = job[change.at];
    const std::string at = segment_at(change.at);
    Steps steps(text);
    steps.set(at + "/kind", quoted_json(name(change.becomes)));
    steps.clear(at + "/limits");
    if (!may_be_spread(change.becomes)) steps.clear(at + "/spread");
    if (change.becomes == Kind::ease && !segment.band && segment.long_edge)
      steps.then([&](const std::string &changed) { return with_long_as_band(changed, at); });
    return std::move(steps).done();
  }
};

} // namespace

namespace {

/// A job and its plan, with all advice.
struct Planned {
  cli::ReadJob read;
  Plan plan;
};

Outcome<Planned, Faults> planned(std::string_view text, const cli::Beside &beside) {
  auto read = cli::read_job(text, beside);
  if (!read) return std::move(read).fault();
  PlanOutcome plan = gatherwright::plan(read->job);
  if (plan) return Planned{*std::move(read), *std::move(plan)};
  return placed_faults(*read, plan.fault());
}

/// Takes up one of what a plan offers.
template <class Offered> Changed with_offered(std::string_view text, const Planned &planned,
                                              const std::vector<Offered> &offered, int number, std::string_view called,
                                              const auto &change_of) {
  if (number >= 0 && number < static_cast<int>(offered.size()))
    return with_advice(text, planned.read.job, change_of(offered[static_cast<std::size_t>(number)]));
  return Faults{
      {planned.read.document->root().line,
       "",
       {fmt::format("there is no {} {} in a plan that has {}", called, number, offered.size()), "count them from 0"}}};
}

} // namespace

Changed with_advice(std::string_view text, const Job &job, const gatherwright::Change &change) {
  return std::visit(Taking{job, text}, change);
}

Changed with_advice(std::string_view text, const Job &job, const Saving &saving) {
  const NamedLength &length = job[saving.at];
  return with_length_at(text, fmt::format("/lengths/{}/{}", length.name, length.fixed() ? "is" : "aim"), saving.to,
                        job.tape());
}

Changed with_remedy(std::string_view text, int number, const cli::Beside &beside) {
  return planned(text, beside).and_then([&](const Planned &planned) {
    return with_offered(text, planned, planned.plan.remedies, number, "remedy",
                        [](const Remedy &remedy) -> const gatherwright::Change & { return remedy.change; });
  });
}

Changed with_saving(std::string_view text, int number, const cli::Beside &beside) {
  return planned(text, beside).and_then([&](const Planned &planned) {
    return with_offered(text, planned, planned.plan.savings, number, "saving",
                        [](const Saving &saving) -> const Saving & { return saving; });
  });
}

} // namespace gatherwright::page
