// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/plan_json.hpp"

#include "cli/report/json_text.hpp"
#include "cli/report/known.hpp"
#include "cli/report/short_names.hpp"
#include "cli/words/findings.hpp"
#include "cli/words/names.hpp"
#include "cli/words/notes.hpp"

#include <cmath>
#include <limits>

namespace gatherwright::report {

namespace {

using Lay = JsonText::Lay;

/// Millimetres in a unit. A quotient within rounding of a decimal of nine places is that decimal, so that what is 22 cm
/// does not print as 22.000000000000004; four units in the last place allow for the division and for sums before it.
double in_unit(double mm, Unit unit) {
  constexpr double places = 1e9;
  const double value = mm / millimetres(unit);
  const double decimal = std::round(value * places) / places;
  return std::fabs(decimal - value) <= 4 * std::numeric_limits<double>::epsilon() * std::fabs(value) ? decimal : value;
}

class PlanJson {
public:
  PlanJson(const Job &job, const Plan &plan, bool profiles, Say say)
      : job_(job), short_named_(with_short_names(job)), told_(short_named_ ? *short_named_ : job), plan_(plan),
        profiles_(profiles), json_(std::move(say)) {}

  std::string write();

private:
  void length_field(std::string_view name, double mm) { json_.number_field(name, in_unit(mm, job_.unit)); }
  void length(double mm) { json_.number(in_unit(mm, job_.unit)); }
  void lengths_field(std::string_view name, const std::vector<double> &lengths);

  void measures();
  void lengths();
  void room(const Interval &interval);
  void rules();
  void join(int index);
  void drawn(const JoinPlan &join);
  void segment(const Join &asked, const SegmentPlan &planned, int index);
  void limits(Kind kind, const Limits &limits);
  void marks(std::string_view name, const Join &asked, const std::vector<Mark> &marks);
  void mark_place(std::string_view name, const MarkPlace &place);
  void gathering(const GatheringPlan &gathering);
  void certificate();
  void findings();
  void remedies();
  void conflict();
  void cautions();
  void notes();

  const Job &job_;
  std::optional<Job> short_named_;
  const Job &told_; ///< for sentences; names stand whole where they are fields
  const Plan &plan_;
  bool profiles_;
  JsonText json_;
};

std::string PlanJson::write() {
  json_.open_object();
  json_.text_field("format", "gatherwright plan 1");
  if (job_.title) json_.text_field("title", *job_.title);
  json_.text_field("unit", name(job_.unit));
  length_field("tape_step", job_.tape_step.mm);
  json_.text_field("verdict", words::verdict(plan_.verdict));
  measures();
  lengths();
  rules();
  json_.key("joins");
  json_.open_array();
  for (int index = 0; index < static_cast<int>(plan_.joins.size()); ++index)
    join(index);
  json_.close();
  certificate();
  findings();
  remedies();
  conflict();
  cautions();
  notes();
  json_.close();
  return json_.take();
}

void PlanJson::lengths_field(std::string_view name, const std::vector<double> &lengths) {
  json_.key(name);
  json_.open_array(Lay::one_line);
  for (const double mm : lengths)
    length(mm);
  json_.close();
}

void PlanJson::measures() {
  json_.key("measures");
  json_.open_object(Lay::one_line);
  for (const Measure &measure : job_.measures)
    length_field(measure.name, measure.is.mm);
  json_.close();
}

void PlanJson::lengths() {
  json_.key("lengths");
  json_.open_object();
  for (std::size_t i = 0; i < plan_.lengths.size(); ++i) {
    const LengthPlan &planned = plan_.lengths[i];
    json_.key(job_.lengths.at(i).name);
    json_.open_object(Lay::one_line);
    if (planned.known) {
      length_field("is", planned.is);
      json_.text_field("text", named_reading(Length{planned.is}, job_.tape()));
    }
    json_.truth_field("found", planned.found);
    if (planned.found) length_field("exact", planned.exact);
    if (planned.room) room(*planned.room);
    json_.close();
  }
  json_.close();
}

void PlanJson::room(const Interval &interval) {
  json_.key("room");
  json_.open_array(Lay::one_line);
  for (const std::optional<double> &end : {interval.low, interval.high}) {
    if (end)
      length(*end);
    else
      json_.null();
  }
  json_.close();
}

void PlanJson::rules() {
  json_.key("rules");
  json_.open_array();
  for (std::size_t i = 0; i < plan_.rules.size(); ++i) {
    json_.open_object(Lay::one_line);
    json_.text_field("name", job_.rules.at(i).name);
    if (rule_known(plan_, plan_.rules[i])) {
      json_.truth_field("holds", plan_.rules[i].holds);
      length_field("left", plan_.rules[i].left);
      length_field("right", plan_.rules[i].right);
    }
    json_.close();
  }
  json_.close();
}

void PlanJson::join(int index) {
  const Join &asked = job_.joins.at(index);
  const JoinPlan &planned = plan_.joins[index];
  json_.open_object();
  json_.text_field("name", asked.name);
  json_.text_field("verdict", words::verdict(planned.verdict));
  json_.integer_field("make", asked.make);
  length_field("long", planned.long_length);
  length_field("band", planned.band);
  json_.number_field("fullness", planned.long_length / planned.band);
  drawn(planned);
  json_.key("segments");
  json_.open_array();
  for (int i = 0; i < static_cast<int>(planned.segments.size()); ++i)
    segment(asked, planned.segments[i], i);
  json_.close();
  marks("marks", asked, planned.marks);
  if (!planned.marks_mirrored.empty()) marks("marks_mirrored", asked, planned.marks_mirrored);
  if (planned.gathering) gathering(*planned.gathering);
  if (planned.cord) length_field("cord", *planned.cord);
  json_.integer_field("pins", planned.pins);
  if (profiles_ && planned.profile) {
    json_.key("profile");
    json_.open_object();
    lengths_field("band", planned.profile->band);
    lengths_field("long", planned.profile->long_edge);
    json_.close();
  }
  json_.close();
}

void PlanJson::drawn(const JoinPlan &join) {
  if (!join.drawn_long && !join.drawn_band) return;
  json_.key("drawn");
  json_.open_object(Lay::one_line);
  const auto edge = [this](std::string_view name, const std::optional<DrawnPlan> &drawn_edge) {
    if (!drawn_edge) return;
    json_.key(name);
    json_.open_object();
    length_field("cut_edge", drawn_edge->cut_edge);
    length_field("stitching", drawn_edge->stitching);
    json_.close();
  };
  edge("long", join.drawn_long);
  edge("band", join.drawn_band);
  json_.close();
}

void PlanJson::segment(const Join &asked, const SegmentPlan &planned, int index) {
  const Segment &wanted = asked.segments.at(index);
  json_.open_object(Lay::one_line);
  if (!wanted.name.empty()) json_.text_field("name", wanted.name);
  json_.text_field("kind", words::kind(wanted.kind));
  length_field("from", planned.from);
  length_field("to", planned.to);
  length_field("long", planned.long_length);
  length_field("band", planned.band);
  length_field("extra", planned.long_length - planned.band);
  json_.number_field("fullness", planned.fullness);
  json_.number_field("fullest", planned.fullest);
  json_.number_field("slackest", planned.slackest);
  if (planned.give) {
    json_.key("give");
    json_.open_array();
    json_.number(planned.give->front());
    json_.number(planned.give->back());
    json_.close();
  }
  limits(wanted.kind, planned.limits);
  if (wanted.kind == Kind::gather) {
    json_.number_field("layers", planned.fullness);
    length_field("ridge", planned.ridge);
  }
  if (wanted.kind == Kind::gauge) {
    json_.integer_field("folds", planned.folds);
    length_field("depth", planned.depth);
    length_field("pitch", planned.pitch);
  }
  json_.text_field("verdict", words::verdict(planned.verdict));
  json_.close();
}

void PlanJson::limits(Kind kind, const Limits &limits) {
  if (kind == Kind::flat) return;
  json_.key("limits");
  json_.open_object();
  if (kind != Kind::ease) {
    json_.number_field("least", limits.least);
    json_.number_field("ideal", limits.ideal);
  }
  json_.number_field("most", limits.most);
  if (kind != Kind::ease) json_.number_field("packed", limits.packed);
  json_.close();
}

void PlanJson::marks(std::string_view name, const Join &asked, const std::vector<Mark> &marks) {
  json_.key(name);
  json_.open_array();
  for (std::size_t n = 0; n < marks.size(); ++n) {
    const Mark &mark = marks[n];
    json_.open_object(Lay::one_line);
    json_.integer_field("n", static_cast<long long>(n));
    if (mark.reference) json_.text_field("name", words::mark_called(asked, mark));
    json_.integer_field("segment", mark.segment);
    mark_place("long", mark.long_edge);
    mark_place("band", mark.band);
    if (mark.fullness_to_next) json_.number_field("fullness_to_next", *mark.fullness_to_next);
    if (mark.stitches_to_next) json_.number_field("stitches_to_next", *mark.stitches_to_next);
    json_.close();
  }
  json_.close();
}

void PlanJson::mark_place(std::string_view name, const MarkPlace &place) {
  const auto point = [this](std::string_view key, const std::optional<std::array<double, 2>> &xy) {
    if (!xy) return;
    json_.key(key);
    json_.open_array();
    json_.number(xy->front());
    json_.number(xy->back());
    json_.close();
  };
  json_.key(name);
  json_.open_object();
  length_field("exact", place.exact);
  length_field("tape", place.tape);
  json_.text_field("text", reading(Length{place.tape}, job_.tape()));
  if (place.cut) length_field("cut", *place.cut);
  point("at", place.at);
  point("normal", place.normal);
  json_.close();
}

void PlanJson::gathering(const GatheringPlan &gathering) {
  json_.key("gathering");
  json_.open_object();
  length_field("stitch", gathering.stitch);
  json_.integer_field("rows", gathering.rows);
  lengths_field("at", gathering.at);
  json_.integer_field("stitches", gathering.stitches);
  length_field("thread", gathering.thread);
  json_.key("threads");
  json_.open_array();
  for (const Thread &thread : gathering.threads) {
    json_.open_object(Lay::one_line);
    json_.integer_field("from", thread.from);
    json_.integer_field("to", thread.to);
    json_.integer_field("rows", gathering.rows);
    length_field("cut", thread.cut);
    json_.integer_field("stitches", thread.stitches);
    json_.close();
  }
  json_.close();
  json_.close();
}

void PlanJson::certificate() {
  if (!plan_.certificate) return;
  json_.key("certificate");
  json_.open_object(Lay::one_line);
  json_.number_field("feasibility", plan_.certificate->feasibility);
  json_.number_field("stationarity", plan_.certificate->stationarity);
  json_.number_field("complementarity", plan_.certificate->complementarity);
  json_.close();
}

bool of_lengths(Finding::Kind kind) {
  return kind == Finding::Kind::less_than_band || kind == Finding::Kind::swapped ||
         kind == Finding::Kind::flat_unequal || kind == Finding::Kind::rule_broken;
}

void PlanJson::findings() {
  json_.key("findings");
  json_.open_array();
  for (const Finding &finding : plan_.findings) {
    json_.open_object(Lay::one_line);
    json_.text_field("level", words::verdict(finding.level));
    if (finding.join >= 0) json_.text_field("join", job_.joins.at(finding.join).name);
    if (finding.join >= 0 && finding.segment >= 0)
      json_.text_field("segment", words::segment_called(job_.joins[finding.join], finding.segment));
    json_.text_field("says", words::finding(told_, finding));
    const double unit = of_lengths(finding.kind) ? millimetres(job_.unit) : 1;
    json_.number_field("measured", finding.measured / unit);
    json_.number_field("limit", finding.limit / unit);
    json_.close();
  }
  json_.close();
}

void PlanJson::remedies() {
  json_.key("remedies");
  json_.open_array();
  for (const Remedy &remedy : plan_.remedies) {
    json_.open_object(Lay::one_line);
    if (remedy.join >= 0) json_.text_field("join", job_.joins.at(remedy.join).name);
    json_.text_field("change", words::remedy_change(job_, remedy));
    if (remedy.kind == Remedy::Kind::cloth_weight) {
      json_.number_field("by", remedy.by);
      json_.number_field("to", remedy.to);
    } else if (remedy.kind != Remedy::Kind::kind) {
      length_field("by", remedy.by);
      length_field("to", remedy.to);
    }
    json_.text_field("text", words::remedy_value(job_, remedy));
    json_.text_field("says", words::remedy(told_, remedy));
    json_.close();
  }
  json_.close();
}

void PlanJson::conflict() {
  if (plan_.verdict != Verdict::rules_conflict) return;
  json_.key("conflict");
  json_.open_array();
  for (const Condition &condition : plan_.conflict)
    json_.text(words::condition(job_, condition));
  json_.close();
}

void PlanJson::cautions() {
  json_.key("cautions");
  json_.open_array();
  for (const Caution caution : plan_.cautions)
    json_.text(words::caution(told_, plan_, caution));
  json_.close();
}

void PlanJson::notes() {
  json_.key("notes");
  json_.open_array();
  for (const Note &note : plan_.notes)
    json_.text(words::note(told_, plan_, note));
  json_.close();
}

} // namespace

std::string plan_json(const Job &job, const Plan &plan, bool profiles, Say say) {
  return PlanJson(job, plan, profiles, std::move(say)).write();
}

} // namespace gatherwright::report
