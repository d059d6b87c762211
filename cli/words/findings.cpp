// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/findings.hpp"

#include "cli/words/amounts.hpp"
#include "cli/words/cloths.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"
#include "cli/words/overloaded.hpp"

#include <fmt/format.h>

#include <cmath>

namespace gatherwright::words {

namespace {

/// What each edge alone would have to be. The two bounds round to the side that holds.
std::string told_alone(const Tape &tape, const finding::EdgesAlone &alone, bool too_much) {
  std::string text;
  if (alone.long_edge)
    text += too_much ? fmt::format(" With the band as it is the long edge could be {} at most",
                                   length_down(*alone.long_edge, tape))
                     : fmt::format(" With the band as it is the long edge would have to be {} at least",
                                   length_up(*alone.long_edge, tape));
  if (alone.band) {
    text += alone.long_edge ? "; with" : " With";
    text +=
        too_much
            ? fmt::format(" the long edge as it is the band would have to be {} at least", length_up(*alone.band, tape))
            : fmt::format(" the long edge as it is the band could be {} at most", length_down(*alone.band, tape));
  }
  return text.empty() ? text : text + ".";
}

std::string too_scant(const Segment &segment, const finding::PastLimit &finding) {
  const Pair figures = ratios(finding.fullness, finding.allowed);
  const std::string_view against = segment.limits.least          ? "less than you allow here"
                                   : segment.kind == Kind::gauge ? "too scant to be gauged"
                                                                 : "too scant to read as gathers in this cloth";
  return fmt::format("{} to 1 is {} ({} to 1 at least)", figures.measured, against, figures.limit);
}

std::string too_full(const Segment &segment, const finding::PastLimit &finding) {
  if (told_in_percent(segment.kind)) {
    const Pair figures = ease_percents(finding.fullness, finding.allowed);
    return fmt::format("{} of ease is more than {} ({} at most)", figures.measured,
                       segment.limits.most ? "you allow here" : "works in without a fold", figures.limit);
  }
  const Pair figures = ratios(finding.fullness, finding.allowed);
  return fmt::format("{} to 1 is more than {} ({} to 1 at most)", figures.measured,
                     segment.limits.most ? "you allow here" : "this cloth takes", figures.limit);
}

std::string past_packed(const Segment &segment, const finding::PastLimit &finding, Length stitch, Unit unit) {
  const bool eased = told_in_percent(segment.kind);
  const Pair figures =
      eased ? ease_percents(finding.fullness, finding.allowed) : ratios(finding.fullness, finding.allowed);
  return fmt::format("{} {} cannot be drawn up: drawn up tight, this cloth comes to {} {} with a stitch of {}",
                     figures.measured, eased ? "of ease" : "to 1", figures.limit, eased ? "of it" : "to 1",
                     words::stitch(stitch.mm, unit));
}

std::string past_limit(const Job &job, const finding::PastLimit &finding) {
  using Limit = finding::PastLimit::Limit;
  const Segment &segment = job[finding.at];
  switch (finding.limit) {
  case Limit::least:
    return too_scant(segment, finding);
  case Limit::most:
    return too_full(segment, finding);
  case Limit::packed:
    break;
  }
  return past_packed(segment, finding, job[finding.at.join].gathering.stitch, job.unit);
}

/// A stitch counted for gathering is asked about before the cloth is blamed.
std::string stitch_asked(const Job &job, const finding::PastLimit &finding) {
  const double stitch = job[finding.at.join].gathering.stitch.mm;
  if (!is_folded(job[finding.at].kind) || finding.limit == finding::PastLimit::Limit::least ||
      stitch >= note::shallow_fold)
    return "";
  return fmt::format("is the stitch of {} one counted for gathering? With it ", words::stitch(stitch, job.unit));
}

/// What a finding says, by its alternative.
struct Found {
  const Job &job;

  std::string operator()(const finding::PastLimit &finding) const {
    return fmt::format("{}: {}{}.", where(job, finding.at), stitch_asked(job, finding), past_limit(job, finding)) +
           told_alone(job.tape(), finding.alone, finding.limit != finding::PastLimit::Limit::least);
  }

  std::string operator()(const finding::LessThanBand &finding) const {
    const Pair figures = lengths(finding.long_length, finding.band, job.tape());
    if (finding.swapped)
      return fmt::format("{}: the long edge ({}) is shorter than the edge it is sewn to ({}). The other way round it "
                         "would be within limits: are long and band swapped?",
                         where(job, finding.at), figures.measured, figures.limit);
    return fmt::format("{}: there is less cloth ({}) than the edge it is sewn to ({}).", where(job, finding.at),
                       figures.measured, figures.limit) +
           told_alone(job.tape(), finding.alone, false);
  }

  std::string operator()(const finding::RuleBroken &finding) const {
    const Rule &rule = job[finding.at];
    const Pair figures = lengths(finding.left, finding.right, job.tape());
    const std::string_view against = rule.holds.relation == Relation::at_most    ? "more than"
                                     : rule.holds.relation == Relation::at_least ? "less than"
                                                                                 : "not";
    return fmt::format("{} does not hold: {} is {} {}.", rule_called(rule), figures.measured, against, figures.limit);
  }

  std::string operator()(const finding::TooWide &finding) const {
    const Pair figures = lengths(finding.cut_across, finding.usable, job.tape());
    const std::string pieced =
        finding.widths ? fmt::format(" Pieced from {} widths, seams and all, it would go.", *finding.widths) : "";
    return fmt::format("{}: cut {} wide it does not go into the width of {}, {} of which can be used{}.{}",
                       where(job, finding.at), figures.measured,
                       cloth_called(cloth_of(job[finding.at].fabric, job.unit)), figures.limit,
                       job[finding.at].turn ? ", nor turned by a quarter" : "", pieced);
  }

  std::string operator()(const finding::PastTheEnd &finding) const {
    const Pair figures = lengths(finding.end, finding.side, job.tape());
    return fmt::format("{}: {} runs to {} from the side's start, and the side is {} long between seams.",
                       where(job, finding.at.side), where(job, job[finding.at].join), figures.measured, figures.limit);
  }

  std::string operator()(const finding::Overlaps &finding) const {
    const Pair figures = lengths(finding.begins, finding.other_end, job.tape());
    const PartAt other(finding.at.side, finding.other);
    return fmt::format("{}: {} begins {} from the side's start, before {} ends at {}.", where(job, finding.at.side),
                       where(job, job[finding.at].join), figures.measured, where(job, job[other].join), figures.limit);
  }

  std::string operator()(const finding::OverStock &finding) const {
    const Pair figures = lengths(finding.buy, finding.stock, job.tape());
    return fmt::format("{}: the pieces take {}, and there are only {}.", cloth_called(cloth_at(job, finding.at)),
                       figures.measured, figures.limit);
  }
};

/// "Make the cuff 23.4 cm instead of 22 cm (1.4 cm longer)."
std::string make_it(const std::string &what, const Tape &tape, double by, double to) {
  return fmt::format("Make {} {} instead of {} ({} {}).", what, length(to, tape), length(to - by, tape),
                     nearest_length(std::fabs(by), tape), by < 0 ? "shorter" : "longer");
}

/// What a stretch that is worked otherwise must change besides, as the trial of it did.
std::string goes_with_kind(const Segment &segment, Kind becomes) {
  const bool limits = segment.limits.least || segment.limits.ideal || segment.limits.most;
  const bool spread = !may_be_spread(becomes) && !std::holds_alternative<Even>(segment.spread);
  if (limits || spread)
    return fmt::format(" Leave out its {}{}{}.", limits ? "own limits" : "", limits && spread ? " and its " : "",
                       spread ? "spread" : "");
  if (!takes_fullness(segment.kind) && !segment.band && segment.long_edge)
    return fmt::format(" Give its {} as \"band\" instead of \"long\".", printable(segment.long_edge->written()));
  return "";
}

std::string_view to_work(Kind kind) {
  switch (kind) {
  case Kind::gather:
    return "gather it";
  case Kind::gauge:
    return "gauge it (cartridge pleats, each fold sewn by itself)";
  case Kind::draw:
    return "draw it up on a cord or elastic";
  case Kind::ease:
    return "ease it in";
  case Kind::flat:
    break;
  }
  return "sew it plain";
}

/// What is to be done, by the alternative of the change.
struct Doing {
  const Job &job;

  std::string operator()(const change::Swap &change) const {
    return fmt::format("Swap the edges of {}: make what is now its \"band\" the \"long\" edge, and the reverse.",
                       where(job, change.at));
  }

  /// A free length changes by an end of its range.
  std::string operator()(const change::ToLength &change) const {
    const Tape tape = job.tape();
    const std::string called = printable(job[change.at].name);
    if (!job[change.at].free()) return make_it("the " + called, tape, change.by, change.to);
    const bool less = change.by < 0;
    return fmt::format("Let the {} be as {} as {}; the job now keeps it to {} or {}.", called, less ? "short" : "long",
                       length(change.to, tape), length(change.to - change.by, tape), less ? "more" : "less");
  }

  std::string operator()(const change::ToEdge &change) const {
    return make_it(fmt::format("the {} of {}", edge_called(change.at.edge), where(job, change.at.join)), job.tape(),
                   change.by, change.to);
  }

  std::string operator()(const change::ToWeight &change) const {
    return fmt::format("Take a {} cloth: {}, where this one is {}.", change.by < 0 ? "lighter" : "heavier",
                       weight(change.to), weight(change.to - change.by));
  }

  std::string operator()(const change::ToStitch &change) const {
    const std::string of_join = job.joins.size() > 1 ? fmt::format(" for {}", where(job, change.at)) : std::string();
    const std::string to = small_length(change.to, job.unit); // as it can be written into the job
    const std::string counted = stitch(change.to, job.unit);
    return fmt::format("Take a {} stitch{}: {} hole to hole{} instead of {}.", change.by < 0 ? "shorter" : "longer",
                       of_join, to, counted == to ? "" : fmt::format(" ({})", counted),
                       stitch(change.to - change.by, job.unit));
  }

  std::string operator()(const change::ToKind &change) const {
    const Segment &segment = job[change.at];
    return fmt::format("{}: {}; it is now {}.{}", where(job, change.at), to_work(change.becomes), worked(segment.kind),
                       goes_with_kind(segment, change.becomes));
  }

  std::string operator()(const change::ToClothLength &change) const {
    const Cloth cloth = cloth_at(job, change.at);
    return fmt::format("Get more of {}: {} in all, where there are {}.", cloth_called(cloth),
                       amount(change.to, cloth.sold_by, job.unit), length(change.to - change.by, job.tape()));
  }
};

/// "JOIN / SEGMENT"
std::string stretch_path(const Job &job, SegmentAt at) {
  return fmt::format("{} / {}", job[at.join].name, segment_called(job[at.join], at.segment));
}

/// A condition by its name, by its alternative. What it names is written in the job.
struct Conditions {
  const Job &job;

  std::string operator()(const condition::Holds &condition) const { return job[condition.at].name; }

  std::string operator()(const condition::InRange &condition) const {
    const NamedLength &length = job[condition.at];
    const bool from = condition.end == condition::InRange::End::from;
    const FreeLength &range = std::get<FreeLength>(length.is);
    return fmt::format("{} {} {}", length.name, from ? "from" : "to", (from ? range.from : range.to).value().written());
  }

  std::string operator()(const condition::AddsUp &condition) const {
    return fmt::format("{}: the {} adds up", job[condition.at.join].name, edge_called(condition.at.edge));
  }

  std::string operator()(const condition::Flat &condition) const { return stretch_path(job, condition.at) + ": flat"; }

  std::string operator()(const condition::Given &condition) const {
    const Segment &segment = job[condition.at];
    const bool band = condition.edge == WhichEdge::band;
    return fmt::format("{}: {} {}", stretch_path(job, condition.at), band ? "band" : "long",
                       (band ? segment.band : segment.long_edge).value().written());
  }

  std::string operator()(const condition::NoWider &condition) const {
    return fmt::format("{}: no wider than the cloth", job[condition.at].name);
  }

  std::string operator()(const condition::WithinStock &condition) const {
    const std::optional<Stock> stock = cloth_at(job, condition.at).stock;
    return fmt::format("{}: {} in stock", cloth_named(job, condition.at), stock.value().written);
  }
};

} // namespace

std::string finding(const Job &job, const Finding &finding) {
  return std::visit(Found{job}, finding);
}

std::string remedy(const Job &job, const Remedy &remedy) {
  std::string text = std::visit(Doing{job}, remedy.change);
  if (remedy.mends && job.joins.size() > 1) text += fmt::format(" That puts {} right.", where(job, *remedy.mends));
  return text;
}

std::string saving(const Job &job, const Saving &saving) {
  return fmt::format("{} That saves {} of {}.",
                     make_it("the " + printable(job[saving.at].name), job.tape(), saving.by, saving.to),
                     length_down(saving.saves, job.tape()), cloth_called(cloth_at(job, saving.cloth)));
}

std::string remedy_change(const Job &job, const Remedy &remedy) {
  return std::visit(Overloaded{[](const change::Swap &) { return std::string("swap"); },
                               [&](const change::ToLength &change) { return job[change.at].name; },
                               [&](const change::ToEdge &change) {
                                 return fmt::format("{}: {}", job[change.at.join].name, edge_called(change.at.edge));
                               },
                               [](const change::ToWeight &) { return std::string("cloth weight"); },
                               [](const change::ToStitch &) { return std::string("stitch"); },
                               [](const change::ToKind &) { return std::string("kind"); },
                               [](const change::ToClothLength &) { return std::string("cloth length"); }},
                    remedy.change);
}

std::string remedy_value(const Job &job, const Remedy &remedy) {
  return std::visit(
      Overloaded{[](const change::Swap &) { return std::string("swapped"); },
                 [&](const change::ToLength &change) { return named_reading(Length{change.to}, job.tape()); },
                 [&](const change::ToEdge &change) { return named_reading(Length{change.to}, job.tape()); },
                 [](const change::ToWeight &change) { return weight(change.to); },
                 [&](const change::ToStitch &change) { return small_length(change.to, job.unit); },
                 [](const change::ToKind &change) { return std::string(name(change.becomes)); },
                 [&](const change::ToClothLength &change) {
                   return amount(change.to, cloth_at(job, change.at).sold_by, job.unit);
                 }},
      remedy.change);
}

std::string condition(const Job &job, const Condition &condition) {
  return std::visit(Conditions{job}, condition);
}

std::string conflict(const Job &job, const Conflict &conflict) {
  std::string text = "These cannot all hold: ";
  for (std::size_t i = 0; i < conflict.conditions.size(); ++i)
    text += (i == 0 ? "" : "; ") + printable(condition(job, conflict.conditions[i]));
  text += ".";
  if (conflict.apart > 0) text += fmt::format(" They are {} apart.", nearest_length(conflict.apart, job.tape()));
  return text;
}

} // namespace gatherwright::words
