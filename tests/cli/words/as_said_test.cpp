// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/plan_words.hpp"
#include "cli/words/findings.hpp"
#include "cli/words/notes.hpp"
#include "tests/made_job.hpp"
#include "tests/outcomes.hpp"
#include "tests/where.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>
#include <random>
#include <regex>
#include <string>
#include <vector>

// What a plan says would do is done, in the text of the job, and the job is read and planned again. Nothing here knows
// how the program tries its advice.

using namespace gatherwright;

namespace {

using Json = nlohmann::ordered_json;

/// A job as text, as it was read, and its plan.
struct Case {
  Json text;
  Job job;
  Plan plan;
};

std::optional<Case> planned(const Json &text) {
  auto read = cli::read_job(text.dump());
  auto *job = tests::value_in(read);
  if (!job) return std::nullopt;
  PlanOutcome outcome = plan(job->job);
  auto *made = tests::value_in(outcome);
  if (!made) return std::nullopt;
  return Case{text, std::move(job->job), std::move(*made)};
}

/// What was said and came out otherwise is told with the job that it was said of.
bool within_limits(const Json &text, std::optional<JoinId> join = std::nullopt) {
  const auto again = planned(text);
  if (!again) return false;
  if (!join) return again->plan.verdict == Verdict::within_limits;
  if (again->plan.verdict == Verdict::rules_conflict) return false;
  return again->plan.joins.at(join->at).verdict == Verdict::within_limits;
}

bool within_limits(const Json &text, SegmentAt at) {
  const auto again = planned(text);
  if (!again || again->plan.verdict == Verdict::rules_conflict) return false;
  return again->plan.joins.at(at.join.at).segments.at(at.segment).verdict == Verdict::within_limits;
}

Json &join_of(Json &text, JoinId join) {
  return text["joins"][join.at];
}

/// A segment of its own, where the join has none written.
Json &segment_of(Json &text, SegmentAt at) {
  Json &segments = join_of(text, at.join)["segments"];
  if (segments.is_null()) segments = Json::array({Json::object()});
  return segments[at.segment];
}

Json &member(Json &object, const std::string &key) {
  return object[key];
}

void set_length(Json &text, const NamedLength &length, const std::string &end, const Json &to) {
  Json &written = member(text["lengths"], length.name);
  if (length.free())
    written[end] = to;
  else if (written.is_object())
    written["is"] = to;
  else
    written = to;
}

void set_edge(Json &edge, const Json &to) {
  if (edge.is_object() && !edge.contains("path"))
    edge["length"] = to;
  else
    edge = to;
}

void set_stitch(Json &text, JoinId join, const Json &to) {
  Json &gathering = join_of(text, join)["gathering"];
  if (gathering.is_null()) gathering = Json::object();
  gathering.erase("threads");
  gathering.erase("count");
  gathering["stitch"] = to;
}

/// All that the sentence says and no more: a kind sheds the limits of the one before, and is told to.
void set_kind(Json &text, const change::ToKind &change, const std::string &says) {
  Json &segment = segment_of(text, change.at);
  CHECK((says.find("limits") != std::string::npos) == segment.contains("limits"));
  segment.erase("limits");
  const bool uneven = segment.contains("spread") && segment["spread"] != "even" && change.becomes == Kind::gauge;
  CHECK((says.find("spread") != std::string::npos) == uneven);
  if (uneven) segment.erase("spread");
  const bool by_cloth = change.becomes == Kind::ease && !segment.contains("band");
  CHECK((says.find("\"band\"") != std::string::npos) == by_cloth);
  if (by_cloth) {
    segment["band"] = segment["long"];
    segment.erase("long");
  }
  static const char *const kinds[] = {"gather", "gauge", "draw", "ease", "flat"};
  segment["kind"] = kinds[static_cast<int>(change.becomes)];
}

/// Takes a remedy in the text of a job.
struct Taking {
  const Case &of;
  const Remedy &remedy;
  Json &text;

  std::string value() const { return words::remedy_value(of.job, remedy); }

  void operator()(const change::Swap &change) const {
    Json &join = join_of(text, change.at);
    std::swap(join["long"], join["band"]);
  }
  void operator()(const change::ToLength &change) const {
    set_length(text, of.job[change.at], change.by < 0 ? "from" : "to", value());
  }
  void operator()(const change::ToEdge &change) const {
    set_edge(join_of(text, change.at.join)[change.at.edge == WhichEdge::band ? "band" : "long"], value());
  }
  void operator()(const change::ToWeight &) const { text["fabric"]["weight"] = value(); }
  void operator()(const change::ToClothLength &) const { text["fabric"]["stock"] = value(); }
  void operator()(const change::ToStitch &change) const { set_stitch(text, change.at, value()); }
  void operator()(const change::ToKind &change) const { set_kind(text, change, words::remedy(of.job, remedy)); }
};

/// The job with a remedy taken.
Json taken(const Case &of, const Remedy &remedy) {
  Json text = of.text;
  std::visit(Taking{of, remedy, text}, remedy.change);
  return text;
}

/// A length to be found stays one, but has nowhere else to go.
void keep_at(Json &text, const std::string &name, const Json &at) {
  member(text["lengths"], name) = {{"from", at}, {"to", at}};
}

/// The job with every length that was found kept where it is.
Json with_found_kept(const Case &of) {
  Json text = of.text;
  for (std::size_t i = 0; i < of.job.lengths.size(); ++i)
    if (of.job.lengths[i].free())
      keep_at(text, of.job.lengths[i].name, Json(of.plan.lengths[i].is.value()).dump() + " mm");
  return text;
}

struct Counts {
  std::map<std::string, int> of;
  void add(const std::string &what) { ++of[what]; }
};

struct Called {
  const Job &job;

  std::string operator()(const change::Swap &) const { return "edges swapped"; }
  std::string operator()(const change::ToLength &change) const {
    return job[change.at].free() ? "range made wider" : "length made another";
  }
  std::string operator()(const change::ToEdge &) const { return "edge made another"; }
  std::string operator()(const change::ToWeight &) const { return "cloth"; }
  std::string operator()(const change::ToStitch &) const { return "stitch"; }
  std::string operator()(const change::ToKind &) const { return "kind"; }
  std::string operator()(const change::ToClothLength &) const { return "more cloth"; }
};

void check_remedies(const Case &of, Counts &counts) {
  for (const Remedy &remedy : of.plan.remedies) {
    INFO(words::remedy(of.job, remedy));
    CHECK(within_limits(taken(of, remedy), remedy.mends));
    counts.add(std::visit(Called{of.job}, remedy.change));
  }
}

/// A figure of a sentence, such as 58.9 cm, after `before`.
std::optional<std::string> figure(const std::string &says, const std::string &before) {
  std::smatch found;
  const std::regex pattern(before + R"((\d[^;]*?) (at most|at least|hole))");
  if (!std::regex_search(says, found, pattern)) return std::nullopt;
  return found[1].str();
}

/// The join that a finding is of; nothing where it is of a rule.
std::optional<JoinId> join_at(const Finding &finding) {
  if (const auto *past = std::get_if<finding::PastLimit>(&finding)) return past->at.join;
  if (const auto *less = std::get_if<finding::LessThanBand>(&finding)) return less->at.join;
  return std::nullopt;
}

void check_findings(const Case &of, Counts &counts) {
  for (const Finding &finding : of.plan.findings) {
    const std::optional<JoinId> at = join_at(finding);
    if (!at) continue;
    const std::string says = words::finding(of.job, finding);
    INFO(says);
    const auto try_edge = [&](const char *edge, const std::string &to) {
      Json text = with_found_kept(of);
      Json &join = join_of(text, *at);
      // Without its drawing an edge has no grain to spread by; verdicts go by means.
      if (join[edge].is_object() && join[edge].contains("path") && join.contains("segments"))
        for (Json &segment : join["segments"])
          segment.erase("spread");
      set_edge(join[edge], to);
      CHECK(within_limits(text, at));
      counts.add(edge == std::string("band") ? "band alone" : "long edge alone");
    };
    if (const auto to = figure(says, "ith the band as it is the long edge (?:could be|would have to be) "))
      try_edge("long", *to);
    if (const auto to = figure(says, "ith the long edge as it is the band (?:could be|would have to be) "))
      try_edge("band", *to);
    if (says.find("The other way round it would be within limits") != std::string::npos) {
      Json text = with_found_kept(of);
      std::swap(join_of(text, *at)["long"], join_of(text, *at)["band"]);
      CHECK(within_limits(text, at));
      counts.add("edges swapped");
    }
  }
}

void check_notes(const Case &of, Counts &counts) {
  for (const Note &note : of.plan.notes) {
    const std::string says = words::note(of.job, of.plan, note);
    INFO(says);
    if (says.find("hole to hole would do") != std::string::npos) {
      const auto stitch = figure(says, "one of ");
      REQUIRE(stitch);
      const SegmentAt at = std::get<note::StitchWouldDo>(note).at;
      Json text = with_found_kept(of);
      set_stitch(text, at.join, *stitch);
      CHECK(within_limits(text, at));
      counts.add("note of a stitch");
    }
    if (says.find("better gauged") != std::string::npos) {
      const SegmentAt at = std::get<note::BetterGauged>(note).at;
      Json text = with_found_kept(of);
      Json &segment = segment_of(text, at);
      segment.erase("limits");
      segment.erase("spread");
      segment["kind"] = "gauge";
      CHECK(within_limits(text, at));
      counts.add("note of gauging");
    }
  }
}

/// "anything from 20.2 cm to 40 cm would do", and its like.
void check_rooms(const Case &of, Counts &counts) {
  for (std::size_t i = 0; i < of.plan.lengths.size(); ++i) {
    const std::string says = report::room(of.job, of.plan.lengths[i]);
    INFO(of.job.lengths[i].name << ": " << says);
    std::vector<std::string> ends;
    std::smatch found;
    if (std::regex_match(says, found, std::regex("anything from (.*) to (.*) w(ill|ould) do")))
      ends = {found[1].str(), found[2].str()};
    else if (std::regex_match(says, found, std::regex("anything (?:from|up to) (.*?)(?: up)? w(ill|ould) do")) ||
             std::regex_match(says, found, std::regex("(\\d.*) w(ould) do")))
      ends = {found[1].str()};
    for (const std::string &end : ends) {
      INFO(end);
      Json text = with_found_kept(of);
      if (of.job.lengths[i].free())
        keep_at(text, of.job.lengths[i].name, end);
      else
        set_length(text, of.job.lengths[i], "is", end);
      CHECK(within_limits(text));
      if (!of.job.lengths[i].free()) {
        Json alone = of.text;
        set_length(alone, of.job.lengths[i], "is", end);
        CHECK(static_cast<bool>(cli::read_job(alone.dump()))); // nor is anything else refused
      }
      counts.add(says.ends_with("would do") ? "room that would do" : "room that will do");
    }
  }
}

void check(const Case &of, Counts &counts) {
  check_remedies(of, counts);
  if (of.plan.verdict == Verdict::rules_conflict) return;
  check_findings(of, counts);
  check_notes(of, counts);
  check_rooms(of, counts);
}

/// Jobs of all that advice is about: cloth, swatches, stitches, kinds, limits, shares, spreads, drawn edges, lengths to
/// be found in ranges that are formulas, and rules; as often bad as good.
class Writer {
public:
  explicit Writer(std::uint64_t seed) : random_(seed) {}

  Json job() {
    const bool inches = chance(3);
    Json text = {{"unit", inches ? "in" : "cm"}};
    if (chance(4)) text["tape_step"] = inches ? one_of({"1/8 in", "1/2 in"}) : one_of({"2 mm", "5 mm", "1 cm"});
    text["fabric"] = fabric();
    if (chance(2)) text["gathering"] = gathering();
    if (chance(5)) text["tolerance"] = {{"cut", "2 mm"}};
    text["lengths"] = lengths();
    if (chance(3)) text["rules"] = Json::array({"a + f <= " + mm(900, 2400)});
    text["joins"] = Json::array();
    const int count = whole(1, 3);
    for (int j = 0; j < count; ++j)
      text["joins"].push_back(join(j));
    return text;
  }

private:
  int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
  bool chance(int in) { return whole(1, in) == 1; }
  template <class Value> Value one_of(std::initializer_list<Value> values) {
    return *(values.begin() + whole(0, static_cast<int>(values.size()) - 1));
  }
  std::string one_of(std::initializer_list<const char *> values) {
    return *(values.begin() + whole(0, static_cast<int>(values.size()) - 1));
  }
  std::string mm(int low, int high) { return std::to_string(whole(low, high)) + " mm"; }
  double tenths(int low, int high) { return whole(low, high) / 10.0; }

  Json fabric() {
    Json fabric = Json::object();
    if (!chance(4)) fabric["weight"] = std::to_string(whole(50, 400)) + " g/m2";
    if (chance(5)) fabric["thickness"] = std::to_string(whole(2, 12) / 10.0) + " mm";
    if (chance(5)) {
      Json swatch = {{"cut", "300 mm"}, {"tight", mm(30, 70)}};
      if (chance(2)) swatch["good"] = {mm(70, 120), mm(121, 250)};
      if (chance(2)) swatch["stitch"] = mm(2, 5);
      fabric["swatch"] = swatch;
    }
    return fabric;
  }

  Json gathering() {
    if (chance(4)) return {{"threads", {3, 4}}, {"count", "18 / cm"}};
    return {{"stitch", one_of({"1 mm", "2 mm", "3 mm", "6 mm", "8 / in"})}};
  }

  Json lengths() {
    Json lengths = {{"a", mm(300, 1100)}, {"b", mm(150, 480)}, {"c", "a / 2 + " + mm(0, 200)}, {"p", mm(10, 60)}};
    Json free = Json::object();
    if (chance(2)) free["from"] = one_of({"a - 300 mm", "250 mm", "b + 20 mm", "p"});
    if (chance(2)) free["to"] = mm(900, 1500);
    if (chance(2)) free["aim"] = one_of({"a - 200 mm", "500 mm", "2 * b - 200 mm", "max(b, 10 cm)"});
    lengths["f"] = free;
    if (chance(3)) lengths["k"] = {{"is", mm(150, 900)}, {"keep", true}};
    return lengths;
  }

  Json limits(bool ease) {
    if (ease) return {{"most", 1 + whole(1, 15) / 100.0}};
    Json limits = Json::object();
    if (chance(2)) limits["least"] = tenths(10, 18);
    if (chance(2) || limits.empty()) limits["most"] = tenths(18, 40);
    return limits;
  }

  Json segment(const std::string &kind, bool drawn) {
    Json segment = {{"kind", kind}};
    if (kind == "flat") return segment;
    if (chance(3)) segment["limits"] = limits(kind == "ease");
    if (chance(4)) segment["share"] = tenths(3, 40);
    if (kind == "gauge" || kind == "draw" || !chance(3)) return segment;
    segment["spread"] = chance(2)            ? Json({{"fade", {mm(0, 20), mm(0, 20)}}})
                        : drawn && chance(2) ? Json("grain")
                                             : Json({{"shape", {{0, 1}, {0.4, 2}, {1, 0}}}});
    return segment;
  }

  std::string kind() { return one_of({"gather", "gather", "gauge", "draw", "ease", "ease"}); }

  Json segments(bool drawn, const std::string &band) {
    Json segments = Json::array();
    switch (whole(0, 6)) {
    case 0:
      segments.push_back(segment(kind(), drawn));
      break;
    case 1:
      segments.push_back(segment(kind(), drawn));
      segments.push_back(segment(kind(), drawn));
      break;
    case 2:
      segments.push_back(segment("flat", drawn));
      segments.back()[one_of({"long", "band"})] = one_of({"p", "30 mm"});
      segments.push_back(segment(kind(), drawn));
      segments.push_back(segment(kind(), drawn));
      break;
    case 3:
      segments.push_back(segment("flat", drawn));
      segments.push_back(segment(kind(), drawn));
      segments.back()["long"] = mm(100, 300);
      break;
    case 4:
      segments.push_back(segment("ease", drawn));
      segments.back()["band"] = one_of({"p", "60 mm"});
      if (chance(2)) segments.back()["long"] = one_of({"p + 2 mm", "63 mm"});
      segments.push_back(segment(kind(), drawn));
      break;
    case 5:
      segments.push_back(segment(kind(), drawn));
      segments.back()["band"] = "(" + band + ") / 3";
      segments.push_back(segment("flat", drawn));
      segments.push_back(segment(kind(), drawn));
      segments.back()["long"] = mm(60, 200);
      break;
    default:
      segments.push_back(segment("flat", drawn));
      segments.back()["band"] = "(" + band + ") / 2";
      segments.push_back(segment("flat", drawn));
      segments.back()["band"] = "(" + band + ") / 2";
    }
    return segments;
  }

  Json join(int number) {
    const bool drawn = chance(6);
    const std::string band = one_of({"b", "b", "b", "c", "250 mm"});
    Json join = {{"name", "j" + std::to_string(number)}};
    if (drawn)
      join["long"] = {{"path", "M 0 0 H " + std::to_string(whole(50, 200)) + " C 250 0 300 100 " +
                                   std::to_string(whole(250, 400)) + " 200"}};
    else
      join["long"] = one_of({"a", "f", "f", "c", "600 mm", "200 mm"});
    if (!drawn && chance(6)) join["long"] = {{"length", join["long"]}, {"ends", {"1 cm", "1 cm"}}};
    join["band"] = band;
    if (chance(5)) join["gathering"] = gathering();
    if (!chance(3)) join["segments"] = segments(drawn, band);
    return join;
  }

  std::mt19937_64 random_;
};

} // namespace

TEST_CASE("what the worked cases say would do does") {
  Counts counts;
  int cases = 0;
  for (const auto &entry : std::filesystem::directory_iterator(test_data("worked/"))) {
    const std::string name = entry.path().filename().string();
    if (!name.ends_with(".job.json") || name.starts_with("bad-")) continue;
    std::ifstream file(entry.path());
    const auto of = planned(Json::parse(std::string(std::istreambuf_iterator<char>(file), {}), nullptr, true, true));
    INFO(name);
    REQUIRE(of);
    check(*of, counts);
    ++cases;
  }
  CHECK(cases >= 17);
  int said = 0;
  for (const auto &[what, count] : counts.of)
    said += count;
  CHECK(said >= 10);
}

TEST_CASE("what random jobs are said to want does when it is written into them") {
  Counts counts;
  int plans = 0;
  for (std::uint64_t seed = 1; seed <= 600; ++seed) {
    const Json text = Writer(seed).job();
    const auto of = planned(text);
    if (!of) continue;
    ++plans;
    INFO("job " << seed << ": " << text.dump());
    check(*of, counts);
  }
  std::string told;
  for (const auto &[what, count] : counts.of)
    told += what + " " + std::to_string(count) + "; ";
  INFO(plans << " plans: " << told);
  CHECK(plans > 300);
  for (const char *what : {"length made another", "range made wider", "edge made another", "cloth", "stitch", "kind",
                           "long edge alone", "band alone", "edges swapped", "note of a stitch", "note of gauging",
                           "room that would do", "room that will do"}) {
    INFO(what);
    CHECK(counts.of[what] >= 5);
  }
}
