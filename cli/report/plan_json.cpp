// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/plan_json.hpp"

#include "cli/report/in_unit.hpp"
#include "cli/report/json_text.hpp"
#include "cli/report/known.hpp"
#include "cli/report/pieces_json.hpp"
#include "cli/report/short_names.hpp"
#include "cli/words/bindings.hpp"
#include "cli/words/cloths.hpp"
#include "cli/words/findings.hpp"
#include "cli/words/names.hpp"
#include "cli/words/notes.hpp"
#include "cli/words/overloaded.hpp"

namespace gatherwright::report {

namespace {

using Lay = JsonText::Lay;

class PlanJson {
public:
  PlanJson(const Job &job, const Plan &plan, bool profiles, Say say)
      : job_(job), short_named_(with_short_names(job)), told_(short_named_ ? *short_named_ : job), plan_(plan),
        profiles_(profiles), json_(std::move(say)) {}

  std::string write();

private:
  void length_field(const Key &name, double mm) { json_.number_field(name, in_unit(mm, job_.unit)); }
  void length(double mm) { json_.number(in_unit(mm, job_.unit)); }
  void lengths_field(const Key &name, const std::vector<double> &lengths);

  void measures();
  void lengths();
  void room(const Interval &interval);
  void binds(const LengthPlan &planned);
  void rules();
  void join(int index);
  void drawn(const JoinPlan &join);
  void segment(const Join &asked, const SegmentPlan &planned, int index);
  void standing(std::optional<Standing> standing);
  void limits(Kind kind, const Limits &limits);
  void marks(const Key &name, const Join &asked, const std::vector<Mark> &marks);
  void mark_place(const Key &name, const MarkPlace &place);
  void gathering(const GatheringPlan &gathering);
  void certificate();
  void findings();
  void place(SegmentAt at);
  void place(PieceId at);
  void place(PartAt at);
  void place(ClothId at);
  void figures(const Finding &finding);
  void remedies();
  void amount(const Change &change);
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
  pieces_json(json_, job_, plan_);
  certificate();
  findings();
  remedies();
  savings_json(json_, job_, plan_, told_);
  conflict();
  cautions();
  notes();
  json_.close();
  return json_.take();
}

void PlanJson::lengths_field(const Key &name, const std::vector<double> &lengths) {
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
    if (planned.is) {
      length_field("is", *planned.is);
      json_.text_field("text", named_reading(Length{*planned.is}, job_.tape()));
    }
    json_.truth_field("found", planned.found.has_value());
    if (planned.found) length_field("exact", planned.found->exact);
    if (planned.room) {
      room(*planned.room);
      binds(planned);
    }
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

void PlanJson::binds(const LengthPlan &planned) {
  json_.key("binds");
  json_.open_array(Lay::one_line);
  for (const std::optional<Binding> &binding : planned.binds) {
    if (!binding) {
      json_.null();
      continue;
    }
    const words::Bound bound = words::binding(told_, *binding);
    json_.open_object();
    json_.text_field("says", bound.says);
    if (bound.rule) json_.text_field("rule", job_[*bound.rule].name);
    if (bound.join) json_.text_field("join", job_[*bound.join].name);
    if (bound.segment) json_.text_field("segment", words::segment_called(job_[*bound.join], *bound.segment));
    if (bound.length) json_.text_field("length", job_[*bound.length].name);
    if (bound.piece) json_.text_field("piece", job_[*bound.piece].name);
    if (bound.cloth) json_.text_field("cloth", words::cloth_named(job_, *bound.cloth));
    json_.close();
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
  standing(planned.standing);
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
  if (planned.marks_mirrored) marks("marks_mirrored", asked, *planned.marks_mirrored);
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
  const auto edge = [this](const Key &name, const std::optional<DrawnPlan> &drawn_edge) {
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
  json_.text_field("kind", name(wanted.kind));
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
  if (stands_off(wanted.kind)) {
    json_.number_field("layers", planned.fullness);
    length_field("ridge", planned.gathers.value_or(Gathers()).ridge);
  }
  if (is_folded(wanted.kind)) {
    const Folds folds = planned.folds.value_or(Folds());
    json_.integer_field("folds", folds.count);
    length_field("depth", folds.depth);
    length_field("pitch", folds.pitch);
  }
  json_.text_field("verdict", words::verdict(planned.verdict));
  standing(planned.standing);
  json_.close();
}

void PlanJson::standing(std::optional<Standing> standing) {
  if (standing) json_.text_field("standing", words::standing(*standing));
}

void PlanJson::limits(Kind kind, const Limits &limits) {
  if (!takes_fullness(kind)) return;
  json_.key("limits");
  json_.open_object();
  if (has_least(kind)) {
    json_.number_field("least", limits.least);
    json_.number_field("ideal", limits.ideal);
  }
  json_.number_field("most", limits.most);
  if (has_least(kind)) json_.number_field("packed", limits.packed);
  json_.close();
}

void PlanJson::marks(const Key &name, const Join &asked, const std::vector<Mark> &marks) {
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

void PlanJson::mark_place(const Key &name, const MarkPlace &place) {
  const auto point = [this](const Key &key, const std::optional<std::array<double, 2>> &xy) {
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
  if (!gathering.from_seam.empty()) lengths_field("from_seam", gathering.from_seam);
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

void PlanJson::place(SegmentAt at) {
  const Join &join = job_[at.join];
  json_.text_field("join", join.name);
  json_.text_field("segment", words::segment_called(join, at.segment));
}

void PlanJson::place(PieceId at) {
  json_.text_field("piece", job_[at].name);
}

void PlanJson::place(PartAt at) {
  json_.text_field("join", job_[job_[at].join].name);
  place(at.side.piece);
  json_.text_field("side", words::side_called(at.side.side));
}

void PlanJson::place(ClothId at) {
  json_.text_field("cloth", words::cloth_named(job_, at));
}

/// What was measured and the limit that it passes: of fullness, or lengths in the job's unit.
void PlanJson::figures(const Finding &finding) {
  const auto both = [this](double measured, double limit, double unit) {
    json_.number_field("measured", measured / unit);
    json_.number_field("limit", limit / unit);
  };
  const double unit = millimetres(job_.unit);
  std::visit(words::Overloaded{[&](const finding::PastLimit &found) { both(found.fullness, found.allowed, 1); },
                               [&](const finding::LessThanBand &found) { both(found.long_length, found.band, unit); },
                               [&](const finding::RuleBroken &found) { both(found.left, found.right, unit); },
                               [&](const finding::TooWide &found) { both(found.cut_across, found.usable, unit); },
                               [&](const finding::PastTheEnd &found) { both(found.end, found.side, unit); },
                               [&](const finding::Overlaps &found) { both(found.begins, found.other_end, unit); },
                               [&](const finding::OverStock &found) { both(found.buy, found.stock, unit); }},
             finding);
}

void PlanJson::findings() {
  json_.key("findings");
  json_.open_array();
  for (const Finding &finding : plan_.findings) {
    json_.open_object(Lay::one_line);
    json_.text_field("level", words::verdict(level_of(finding)));
    std::visit(words::Overloaded{[this](const finding::PastLimit &found) { place(found.at); },
                                 [this](const finding::LessThanBand &found) { place(found.at); },
                                 [](const finding::RuleBroken &) {},
                                 [this](const finding::TooWide &found) { place(found.at); },
                                 [this](const finding::PastTheEnd &found) { place(found.at); },
                                 [this](const finding::Overlaps &found) { place(found.at); },
                                 [this](const finding::OverStock &found) { place(found.at); }},
               finding);
    json_.text_field("says", words::finding(told_, finding));
    figures(finding);
    json_.close();
  }
  json_.close();
}

void PlanJson::remedies() {
  json_.key("remedies");
  json_.open_array();
  for (const Remedy &remedy : plan_.remedies) {
    json_.open_object(Lay::one_line);
    if (remedy.mends) json_.text_field("join", job_[*remedy.mends].name);
    json_.text_field("change", words::remedy_change(job_, remedy));
    amount(remedy.change);
    json_.text_field("text", words::remedy_value(job_, remedy));
    json_.text_field("says", words::remedy(told_, remedy));
    json_.close();
  }
  json_.close();
}

/// By how much what is changed alters, and to what; a kind alters to no amount.
void PlanJson::amount(const Change &change) {
  const auto lengths = [this](double by, double to) {
    length_field("by", by);
    length_field("to", to);
  };
  std::visit(words::Overloaded{
                 [](const change::Swap &) {}, [&](const change::ToLength &length) { lengths(length.by, length.to); },
                 [&](const change::ToEdge &edge) { lengths(edge.by, edge.to); },
                 [&](const change::ToWeight &weight) {
                   json_.number_field("by", weight.by);
                   json_.number_field("to", weight.to);
                 },
                 [&](const change::ToStitch &stitch) { lengths(stitch.by, stitch.to); }, [](const change::ToKind &) {},
                 [&](const change::ToClothLength &cloth) {
                   place(cloth.at);
                   lengths(cloth.by, cloth.to);
                 }},
             change);
}

void PlanJson::conflict() {
  if (!plan_.conflict) return;
  json_.key("conflict");
  json_.open_array();
  for (const Condition &condition : plan_.conflict->conditions)
    json_.text(words::condition(job_, condition));
  json_.close();
}

void PlanJson::cautions() {
  json_.key("cautions");
  json_.open_array();
  for (const Caution &caution : plan_.cautions)
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
