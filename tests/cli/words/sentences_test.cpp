// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/cloth_limits.hpp"
#include "cli/words/findings.hpp"
#include "cli/words/notes.hpp"
#include "tests/cli/report/sample.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace gatherwright;

namespace {

/// A sentence can be read aloud: something is said, nothing moves the terminal, it ends as a sentence does.
void check_sentence(const std::string &text) {
  CAPTURE(text);
  CHECK(text.size() > 10);
  CHECK(
      std::none_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; }));
  CHECK((text.back() == '.' || text.back() == '?'));
  CHECK(text.find("  ") == std::string::npos);
  CHECK(text.find("nan") == std::string::npos);
}

Finding finding_of(Finding::Kind kind) {
  Finding finding;
  finding.kind = kind;
  finding.measured = 3.4;
  finding.limit = 2.7;
  if (kind == Finding::Kind::rule_broken)
    finding.rule = 0;
  else
    finding.join = 0;
  if (finding.join == 0) finding.segment = 1;
  finding.long_alone = 620.4;
  finding.band_alone = 239.2;
  return finding;
}

constexpr std::string_view hostile = "a\x1b[2J\nb";

template <class Kind, class Say> void check_all(Kind last, const Say &say) {
  std::set<std::string> said;
  for (int kind = 0; kind <= static_cast<int>(last); ++kind) {
    const std::string text = say(static_cast<Kind>(kind));
    check_sentence(text);
    said.insert(text);
  }
  CHECK(said.size() == static_cast<std::size_t>(last) + 1);
}

Note note_of(Note::Kind kind) {
  Note note{kind};
  note.join = 0;
  note.segment = 1;
  note.length = 2;
  note.rule = 0;
  note.value = kind == Note::Kind::taken_from_job ? 1 : 2.5;
  note.amount = 2.4;
  return note;
}

} // namespace

TEST_CASE("every finding is a sentence of its own, whatever the names") {
  const Job plain = sample::job();
  const Job renamed = sample::renamed(plain, std::string(hostile));
  for (const Job &job : {plain, renamed})
    check_all(Finding::Kind::rule_broken, [&](Finding::Kind kind) { return words::finding(job, finding_of(kind)); });
}

TEST_CASE("too full says how full, the limit, and what each edge alone would have to be") {
  CHECK(
      words::finding(sample::job(), finding_of(Finding::Kind::too_full)) ==
      "sleeve into cuff, fullness: 3.40 to 1 is more than this cloth takes (2.70 to 1 at most). With the band as it is "
      "the long edge could be 62 cm at most; with the long edge as it is the band would have to be 24 cm at least.");
}

TEST_CASE("too scant rounds the other way") {
  Finding finding = finding_of(Finding::Kind::too_scant);
  finding.measured = 1.1;
  finding.limit = 1.18;
  CHECK(words::finding(sample::job(), finding) == "sleeve into cuff, fullness: 1.10 to 1 is too scant to read as "
                                                  "gathers in this cloth (1.18 to 1 at least). With the "
                                                  "band as it is the long edge would have to be 62.1 cm at least; with "
                                                  "the long edge as it is the band could be 23.9 "
                                                  "cm at most.");
}

TEST_CASE("the maker's own limit is told as theirs") {
  Job job = sample::job();
  job.joins[0].segments[1].limits.most = 2.7;
  const std::string text = words::finding(job, finding_of(Finding::Kind::too_full));
  CHECK(text.find("more than you allow here") != std::string::npos);
  CHECK(text.find("this cloth") == std::string::npos);
}

TEST_CASE("ease is told in per cent") {
  Finding finding = finding_of(Finding::Kind::ease_too_full);
  finding.measured = 1.11;
  finding.limit = 1.08;
  CHECK(
      words::finding(sample::job(), finding)
          .starts_with("sleeve into cuff, fullness: 11 % of ease is more than works in without a fold (8 % at most)."));
}

TEST_CASE("what the tolerance could make of eased and of gathered cloth is told in the words of either") {
  Job job = sample::job();
  Note note = note_of(Note::Kind::give_above_most);
  note.value = 2.9;
  note.amount = 2.7;
  CHECK(words::note(job, sample::plan(), note).ends_with("at 2.90 to 1, which is too full (2.70 to 1 at most)."));
  job.joins[0].segments[1].kind = Kind::ease;
  note.value = 1.09;
  note.amount = 1.08;
  CHECK(words::note(job, sample::plan(), note)
            .ends_with("at 9 % of ease, more than works in without a fold (8 % at most)."));
}

TEST_CASE("ease above closest packing is told in per cent") {
  Job job = sample::job();
  job.joins[0].segments[1].kind = Kind::ease;
  Finding finding = finding_of(Finding::Kind::past_packed);
  finding.measured = 9;
  finding.limit = 8.4;
  const std::string text = words::finding(job, finding);
  CHECK(text.starts_with("sleeve into cuff, fullness: 800 % of ease cannot be drawn up: "));
  CHECK(text.find("740 %") != std::string::npos);
  CHECK(text.find("to 1") == std::string::npos);
}

TEST_CASE("a change of kind says all that goes with it") {
  Job job = sample::job();
  Remedy remedy;
  remedy.kind = Remedy::Kind::kind;
  remedy.edge_join = 0;
  remedy.segment = 1;
  remedy.becomes = Kind::gauge;
  const std::string plain =
      "sleeve into cuff, fullness: gauge it (cartridge pleats, each fold sewn by itself); it is now gathered.";
  CHECK(words::remedy(job, remedy) == plain);
  job.joins[0].segments[1].limits.most = 2.2;
  CHECK(words::remedy(job, remedy) == plain + " Leave out its own limits.");
  job.joins[0].segments[1].share = 3; // stays
  job.joins[0].segments[1].spread.form = SpreadWish::Form::fade;
  CHECK(words::remedy(job, remedy) == plain + " Leave out its own limits and its spread.");
  job.joins[0].segments[1].limits = {};
  CHECK(words::remedy(job, remedy) == plain + " Leave out its spread.");
  // A plain stretch given by its cloth keeps its place on the band.
  remedy.segment = 0;
  remedy.becomes = Kind::ease;
  CHECK(
      words::remedy(job, remedy) ==
      "sleeve into cuff, beside the slit: ease it in; it is now plain. Give its 3 cm as \"band\" instead of \"long\".");
}

TEST_CASE("a change of the stitch says of which join, where there is more than one") {
  Remedy remedy;
  remedy.kind = Remedy::Kind::stitch;
  remedy.edge_join = 1;
  remedy.to = 5.5;
  remedy.by = 1.5;
  Job job = sample::job();
  CHECK(words::remedy(job, remedy) ==
        "Take a longer stitch for neck into collar: 5.5 mm hole to hole instead of 4 mm.");
  job.joins.resize(1);
  remedy.edge_join = 0;
  CHECK(words::remedy(job, remedy) == "Take a longer stitch: 5.5 mm hole to hole instead of 4 mm.");
}

TEST_CASE("two marks on one step are told with the edge they are on") {
  Note note = note_of(Note::Kind::two_on_one_step);
  note.segment = -1;
  CHECK(words::note(sample::job(), sample::plan(), note) == "sleeve into cuff: two marks of the long edge fall on one "
                                                            "step of the tape; set fewer pins, or take a finer tape.");
  note.on_band = true;
  CHECK(words::note(sample::job(), sample::plan(), note).find("two marks of the band fall on") != std::string::npos);
}

TEST_CASE("a broken rule says both sides") {
  Finding finding = finding_of(Finding::Kind::rule_broken);
  finding.measured = 260;
  finding.limit = 270;
  CHECK(words::finding(sample::job(), finding) ==
        "the hand goes through (cuff + 2 * slit >= hand + 3 cm) does not hold: 26 cm is less than 27 cm.");
}

TEST_CASE("every remedy is a sentence of its own and names what it changes") {
  for (const Job &job : {sample::job(), sample::renamed(sample::job(), std::string(hostile))}) {
    check_all(Remedy::Kind::kind, [&](Remedy::Kind kind) {
      Remedy remedy;
      remedy.kind = kind;
      remedy.length = 0;
      remedy.edge_join = 0;
      remedy.segment = 1;
      remedy.becomes = Kind::gauge;
      remedy.by = 14;
      remedy.to = 234;
      CHECK_FALSE(words::remedy_change(job, remedy).empty());
      CHECK_FALSE(words::remedy_value(job, remedy).empty());
      return words::remedy(job, remedy);
    });
  }
}

TEST_CASE("a remedy says the new length, the old one and the difference") {
  Remedy remedy;
  remedy.length = 0;
  remedy.by = 14;
  remedy.to = 234;
  CHECK(words::remedy(sample::job(), remedy) == "Make the cuff 23.4 cm instead of 22 cm (1.4 cm longer).");
  remedy.by = -14;
  remedy.join = 0;
  CHECK(words::remedy(sample::job(), remedy) ==
        "Make the cuff 23.4 cm instead of 24.8 cm (1.4 cm shorter). That puts sleeve into cuff right.");
  remedy.length = 2;
  remedy.join = -1;
  remedy.by = 20;
  remedy.to = 620;
  CHECK(words::remedy(sample::job(), remedy) ==
        "Let the sleeve be as long as 62 cm; the job now keeps it to 60 cm or less.");
}

TEST_CASE("what a remedy changes is called as the plan's JSON has it") {
  const Job job = sample::job();
  Remedy remedy;
  remedy.length = 0;
  remedy.edge_join = 1;
  CHECK(words::remedy_change(job, remedy) == "cuff");
  remedy.kind = Remedy::Kind::long_edge;
  CHECK(words::remedy_change(job, remedy) == "neck into collar: long edge");
  remedy.kind = Remedy::Kind::band;
  CHECK(words::remedy_change(job, remedy) == "neck into collar: band");
  remedy.kind = Remedy::Kind::cloth_weight;
  CHECK(words::remedy_change(job, remedy) == "cloth weight");
  remedy.kind = Remedy::Kind::stitch;
  CHECK(words::remedy_change(job, remedy) == "stitch");
  remedy.kind = Remedy::Kind::kind;
  CHECK(words::remedy_change(job, remedy) == "kind");
}

TEST_CASE("conditions of a conflict are named by what was written") {
  Job job = sample::job();
  job.joins[0].segments[1].name.clear();
  const auto said = [&](Condition::Kind kind, int segment) {
    return words::condition(job, Condition{.kind = kind, .rule = 0, .length = 2, .join = 0, .segment = segment});
  };
  CHECK(said(Condition::Kind::rule, -1) == "the hand goes through");
  CHECK(said(Condition::Kind::from, -1) == "sleeve from 45 cm");
  CHECK(said(Condition::Kind::to, -1) == "sleeve to 60 cm");
  CHECK(said(Condition::Kind::long_adds_up, -1) == "sleeve into cuff: the long edge adds up");
  CHECK(said(Condition::Kind::band_adds_up, -1) == "sleeve into cuff: the band adds up");
  CHECK(said(Condition::Kind::flat, 0) == "sleeve into cuff / beside the slit: flat");
  CHECK(said(Condition::Kind::long_given, 0) == "sleeve into cuff / beside the slit: long 3 cm");
  CHECK(said(Condition::Kind::band_given, 1).starts_with("sleeve into cuff / 2: band"));
}

TEST_CASE("a conflict is one sentence with how far apart its conditions are") {
  Plan plan;
  plan.verdict = Verdict::rules_conflict;
  plan.conflict = {{.kind = Condition::Kind::rule, .rule = 1}, {.kind = Condition::Kind::from, .length = 2}};
  plan.conflict_apart = 100;
  CHECK(words::conflict(sample::job(), plan) ==
        "These cannot all hold: 2 * sleeve <= 150 cm; sleeve from 45 cm. They are 10 cm apart.");
}

TEST_CASE("every note is a sentence of its own, whatever the names") {
  const Plan plan = sample::plan();
  for (const Job &job : {sample::job(), sample::renamed(sample::job(), std::string(hostile))})
    check_all(Note::Kind::taken_from_job, [&](Note::Kind kind) { return words::note(job, plan, note_of(kind)); });
}

TEST_CASE("a note on the whole job begins with a capital") {
  Note note = note_of(Note::Kind::weight_assumed);
  note.join = note.segment = -1;
  CHECK(words::note(sample::job(), sample::plan(), note).front() == 'N');
}

TEST_CASE("every caution is a sentence of its own") {
  const Job job = sample::job();
  const Plan plan = sample::plan();
  check_all(Caution::flame, [&](Caution caution) { return words::caution(job, plan, caution); });
}

TEST_CASE("pins are counted over everything that is made") {
  CHECK(words::pins_in_all(sample::job(), sample::plan()) == 2 * 6 + 3);
  CHECK(words::caution(sample::job(), sample::plan(), Caution::pins) == "Count the pins out: 15 go in.");
}

TEST_CASE("every reason of a limit has words of its own") {
  const cloth::Explanation limits = cloth::explain({}, {}, Kind::gather);
  std::set<std::string> said;
  for (int reason = 0; reason < cloth::reason_count; ++reason)
    said.insert(words::reason(static_cast<cloth::Reason>(reason), limits));
  CHECK(said.size() == cloth::reason_count);
  CHECK(said.count("") == 0);
}
