// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/cloth_limits.hpp"
#include "cli/words/bindings.hpp"
#include "cli/words/findings.hpp"
#include "cli/words/notes.hpp"
#include "tests/cli/report/sample_pieces.hpp"
#include "tests/told.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>
#include <utility>
#include <vector>

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

using PastLimit = finding::PastLimit;

/// The stretch of the sample that is gathered, past a limit.
PastLimit past(PastLimit::Limit limit, double fullness, double allowed) {
  return {sample::fullness, limit, fullness, allowed, {620.4, 239.2}};
}

/// A remedy of the whole job.
Remedy remedy_of(const Change &change) {
  return {std::nullopt, change};
}

constexpr std::string_view hostile = "a\x1b[2J\nb";

template <class Told, class Say> void check_all(const std::vector<Told> &all, const Say &say) {
  std::set<std::string> said;
  for (const Told &each : all) {
    const std::string text = say(each);
    check_sentence(text);
    said.insert(text);
  }
  CHECK(said.size() == all.size());
}

} // namespace

TEST_CASE("every finding is a sentence of its own, whatever the names") {
  const Job plain = sample::job_with_pieces();
  const Job renamed = sample::renamed(plain, std::string(hostile));
  const std::vector<Finding> findings = sample::every_finding();
  CHECK(tests::every_alternative(findings));
  for (const Job &job : {plain, renamed}) {
    Job eased = job;
    eased.joins[0].segments[1].kind = Kind::ease;
    std::vector<std::pair<const Job *, Finding>> told{{&eased, past(PastLimit::Limit::most, 3.4, 2.7)}};
    for (const Finding &finding : findings)
      told.emplace_back(&job, finding);
    check_all(told, [](const auto &each) { return words::finding(*each.first, each.second); });
  }
}

TEST_CASE("whatever ends a room is told in a sentence, with what of the job it is") {
  Job job = sample::job_with_pieces();
  job.fabric.stock = Stock{Length{2500}, "2.5 m"};
  for (Piece &piece : job.pieces)
    piece.fabric.stock = job.fabric.stock;
  const SegmentAt stretch(JoinId(0), 1);
  const EdgeAt edge(JoinId(0), WhichEdge::band);
  using End = condition::InRange::End;
  const LengthId sleeve(2);
  std::vector<Binding> all{BelowNothing{sleeve},
                           condition::Holds{RuleId(0)},
                           condition::InRange{sleeve, End::from},
                           condition::InRange{sleeve, End::to},
                           condition::AddsUp{edge},
                           condition::Flat{stretch},
                           condition::Given{stretch, WhichEdge::band},
                           condition::NoWider{PieceId(0)},
                           condition::WithinStock{ClothId(0)},
                           refusal::NoBand{stretch},
                           refusal::NoSize{PieceId(0), true, 0}};
  for (const Finding &finding : sample::every_finding())
    all.emplace_back(finding);
  check_all(all, [&](const Binding &binding) {
    const words::Bound bound = words::binding(job, binding);
    CHECK((bound.rule || bound.join || bound.length || bound.piece || bound.cloth));
    CHECK((!bound.segment || bound.join));
    return bound.says;
  });
  const words::Bound range = words::binding(job, condition::InRange{sleeve, End::to});
  CHECK(range.says == "The job keeps the sleeve to 60 cm or less.");
  CHECK(range.length == sleeve);
  CHECK(words::binding(job, refusal::NoBand{stretch}).segment == 1);
  CHECK(words::binding(job, condition::WithinStock{ClothId(0)}).cloth == ClothId(0));
}

TEST_CASE("too full says how full, the limit, and what each edge alone would have to be") {
  CHECK(
      words::finding(sample::job(), past(PastLimit::Limit::most, 3.4, 2.7)) ==
      "sleeve into cuff, fullness: 3.40 to 1 is more than this cloth takes (2.70 to 1 at most). With the band as it is "
      "the long edge could be 62 cm at most; with the long edge as it is the band would have to be 24 cm at least.");
}

TEST_CASE("too scant rounds the other way") {
  const Finding finding = past(PastLimit::Limit::least, 1.1, 1.18);
  CHECK(words::finding(sample::job(), finding) == "sleeve into cuff, fullness: 1.10 to 1 is too scant to read as "
                                                  "gathers in this cloth (1.18 to 1 at least). With the "
                                                  "band as it is the long edge would have to be 62.1 cm at least; with "
                                                  "the long edge as it is the band could be 23.9 "
                                                  "cm at most.");
}

TEST_CASE("the maker's own limit is told as theirs") {
  Job job = sample::job();
  job.joins[0].segments[1].limits.most = 2.7;
  const std::string text = words::finding(job, past(PastLimit::Limit::most, 3.4, 2.7));
  CHECK(text.find("more than you allow here") != std::string::npos);
  CHECK(text.find("this cloth") == std::string::npos);
}

TEST_CASE("ease is told in per cent") {
  Job job = sample::job();
  job.joins[0].segments[1].kind = Kind::ease;
  CHECK(
      words::finding(job, past(PastLimit::Limit::most, 1.11, 1.08))
          .starts_with("sleeve into cuff, fullness: 11 % of ease is more than works in without a fold (8 % at most)."));
}

TEST_CASE("what the tolerance could make of eased and of gathered cloth is told in the words of either") {
  Job job = sample::job();
  note::GivePasses note{sample::fullness, note::GivePasses::Limit::most, 2.9, 2.7};
  CHECK(words::note(job, sample::plan(), note).ends_with("at 2.90 to 1, which is too full (2.70 to 1 at most)."));
  job.joins[0].segments[1].kind = Kind::ease;
  note.fullness = 1.09;
  note.allowed = 1.08;
  CHECK(words::note(job, sample::plan(), note)
            .ends_with("at 9 % of ease, more than works in without a fold (8 % at most)."));
}

TEST_CASE("ease above closest packing is told in per cent") {
  Job job = sample::job();
  job.joins[0].segments[1].kind = Kind::ease;
  const std::string text = words::finding(job, past(PastLimit::Limit::packed, 9, 8.4));
  CHECK(text.starts_with("sleeve into cuff, fullness: 800 % of ease cannot be drawn up: "));
  CHECK(text.find("740 %") != std::string::npos);
  CHECK(text.find("to 1") == std::string::npos);
}

TEST_CASE("a change of kind says all that goes with it") {
  Job job = sample::job();
  const Remedy remedy = remedy_of(change::ToKind{sample::fullness, Kind::gauge});
  const std::string plain =
      "sleeve into cuff, fullness: gauge it (cartridge pleats, each fold sewn by itself); it is now gathered.";
  CHECK(words::remedy(job, remedy) == plain);
  job.joins[0].segments[1].limits.most = 2.2;
  CHECK(words::remedy(job, remedy) == plain + " Leave out its own limits.");
  job.joins[0].segments[1].share = 3; // stays
  job.joins[0].segments[1].spread = Fade{};
  CHECK(words::remedy(job, remedy) == plain + " Leave out its own limits and its spread.");
  job.joins[0].segments[1].limits = {};
  CHECK(words::remedy(job, remedy) == plain + " Leave out its spread.");
  // A plain stretch given by its cloth keeps its place on the band.
  const Remedy eased = remedy_of(change::ToKind{SegmentAt(sample::cuff_join, 0), Kind::ease});
  CHECK(
      words::remedy(job, eased) ==
      "sleeve into cuff, beside the slit: ease it in; it is now plain. Give its 3 cm as \"band\" instead of \"long\".");
}

TEST_CASE("a change of the stitch says of which join, where there is more than one") {
  const auto longer = [](int join) { return remedy_of(change::ToStitch{JoinId(join), 1.5, 5.5}); };
  Job job = sample::job();
  CHECK(words::remedy(job, longer(1)) ==
        "Take a longer stitch for neck into collar: 5.5 mm hole to hole instead of 4 mm.");
  job.joins.resize(1);
  CHECK(words::remedy(job, longer(0)) == "Take a longer stitch: 5.5 mm hole to hole instead of 4 mm.");
}

TEST_CASE("in a job in inches a stitch is told as it can be written, and as it is counted") {
  Job job = sample::job();
  job.unit = Unit::in;
  job.joins.resize(1);
  const auto longer = [](double by, double to) { return remedy_of(change::ToStitch{JoinId(0), by * 25.4, to * 25.4}); };
  CHECK(words::remedy(job, longer(1.0 / 16, 1.0 / 8)) ==
        "Take a longer stitch: 1/8 in hole to hole (8 to the inch) instead of 16 to the inch.");
  CHECK(words::remedy(job, longer(1.0 / 16, 5.0 / 16)) ==
        "Take a longer stitch: 5/16 in hole to hole instead of 1/4 in.");
  CHECK(words::remedy_value(job, longer(1.0 / 16, 1.0 / 8)) == "1/8 in");
}

TEST_CASE("two marks on one step are told with the edge they are on") {
  note::SharedStep note{EdgeAt(sample::cuff_join, WhichEdge::long_edge)};
  CHECK(words::note(sample::job(), sample::plan(), note) == "sleeve into cuff: two marks of the long edge fall on one "
                                                            "step of the tape; set fewer pins, or take a finer tape.");
  note.at.edge = WhichEdge::band;
  CHECK(words::note(sample::job(), sample::plan(), note).find("two marks of the band fall on") != std::string::npos);
}

TEST_CASE("a broken rule says both sides") {
  CHECK(words::finding(sample::job(), finding::RuleBroken{RuleId(0), 260, 270}) ==
        "the hand goes through (cuff + 2 * slit >= hand + 3 cm) does not hold: 26 cm is less than 27 cm.");
}

TEST_CASE("every remedy is a sentence of its own and names what it changes") {
  const std::vector<Change> changes = sample::every_change(14, 234);
  CHECK(tests::every_alternative(changes));
  const Job plain = sample::job_with_pieces();
  for (const Job &job : {plain, sample::renamed(plain, std::string(hostile))}) {
    check_all(changes, [&](const Change &change) {
      const Remedy remedy = remedy_of(change);
      CHECK_FALSE(words::remedy_change(job, remedy).empty());
      CHECK_FALSE(words::remedy_value(job, remedy).empty());
      return words::remedy(job, remedy);
    });
  }
}

TEST_CASE("a remedy says the new length, the old one and the difference") {
  const auto said = [](std::optional<JoinId> mends, int length, double by, double to) {
    return words::remedy(sample::job(), {mends, change::ToLength{LengthId(length), by, to}});
  };
  CHECK(said(std::nullopt, 0, 14, 234) == "Make the cuff 23.4 cm instead of 22 cm (1.4 cm longer).");
  CHECK(said(sample::cuff_join, 0, -14, 234) ==
        "Make the cuff 23.4 cm instead of 24.8 cm (1.4 cm shorter). That puts sleeve into cuff right.");
  CHECK(said(std::nullopt, 2, 20, 620) == "Let the sleeve be as long as 62 cm; the job now keeps it to 60 cm or less.");
}

TEST_CASE("what a remedy changes is called as the plan's JSON has it") {
  const auto called = [](const Change &change) { return words::remedy_change(sample::job(), remedy_of(change)); };
  const JoinId collar(1);
  CHECK(called(change::ToLength{LengthId(0)}) == "cuff");
  CHECK(called(change::ToEdge{EdgeAt(collar, WhichEdge::long_edge)}) == "neck into collar: long edge");
  CHECK(called(change::ToEdge{EdgeAt(collar, WhichEdge::band)}) == "neck into collar: band");
  CHECK(called(change::Swap{collar}) == "swap");
  CHECK(called(change::ToWeight{}) == "cloth weight");
  CHECK(called(change::ToStitch{collar}) == "stitch");
  CHECK(called(change::ToKind{SegmentAt(collar, 0), Kind::gauge}) == "kind");
}

TEST_CASE("conditions of a conflict are named by what was written") {
  Job job = sample::job();
  job.joins[0].segments[1].name.clear();
  const auto said = [&](const Condition &condition) { return words::condition(job, condition); };
  using End = condition::InRange::End;
  const SegmentAt slit(sample::cuff_join, 0);
  CHECK(said(condition::Holds{RuleId(0)}) == "the hand goes through");
  CHECK(said(condition::InRange{LengthId(2), End::from}) == "sleeve from 45 cm");
  CHECK(said(condition::InRange{LengthId(2), End::to}) == "sleeve to 60 cm");
  CHECK(said(condition::AddsUp{EdgeAt(sample::cuff_join, WhichEdge::long_edge)}) ==
        "sleeve into cuff: the long edge adds up");
  CHECK(said(condition::AddsUp{EdgeAt(sample::cuff_join, WhichEdge::band)}) == "sleeve into cuff: the band adds up");
  CHECK(said(condition::Flat{slit}) == "sleeve into cuff / beside the slit: flat");
  CHECK(said(condition::Given{slit, WhichEdge::long_edge}) == "sleeve into cuff / beside the slit: long 3 cm");
  job.joins[0].segments[1].band = Formula::of({190}, "19 cm");
  CHECK(said(condition::Given{sample::fullness, WhichEdge::band}) == "sleeve into cuff / 2: band 19 cm");
}

TEST_CASE("a conflict is one sentence with how far apart its conditions are") {
  const Conflict conflict{{condition::Holds{RuleId(1)}, condition::InRange{LengthId(2), condition::InRange::End::from}},
                          100};
  CHECK(words::conflict(sample::job(), conflict) ==
        "These cannot all hold: 2 * sleeve <= 150 cm; sleeve from 45 cm. They are 10 cm apart.");
}

TEST_CASE("every note is a sentence of its own, whatever the names") {
  const Plan plan = sample::plan();
  std::vector<Note> notes = sample::every_note();
  CHECK(tests::every_alternative(notes));
  notes.push_back(note::LongStitch{std::nullopt, 2.5});
  notes.push_back(note::Unproved{std::nullopt});
  notes.push_back(note::FoundByFolding{sample::cuff_join});
  const Job plain = sample::job_with_pieces();
  for (const Job &job : {plain, sample::renamed(plain, std::string(hostile))})
    check_all(notes, [&](const Note &note) { return words::note(job, plan, note); });
}

TEST_CASE("a note on the whole job begins with a capital") {
  CHECK(words::note(sample::job(), sample::plan(), note::WeightAssumed{}).front() == 'N');
}

TEST_CASE("every caution is a sentence of its own") {
  const Job job = sample::job();
  const Plan plan = sample::plan();
  const std::vector<Caution> all = sample::every_caution();
  CHECK(tests::every_alternative(all));
  check_all(all, [&](const Caution &caution) { return words::caution(job, plan, caution); });
}

TEST_CASE("a caution of very many joins names the first") {
  const Job job = sample::job();
  const auto said = [&](std::size_t joins) {
    return words::caution(job, sample::plan(),
                          caution::Cord{caution::Cord::Where::neck, true, {joins, sample::cuff_join}});
  };
  const std::string eight = said(8);
  CHECK(eight.find(" more") == std::string::npos);
  CHECK(said(1000).size() <= eight.size() + std::string("; 992 more").size());
  CHECK(said(1000).find("; 992 more.") != std::string::npos);
}

TEST_CASE("pins are counted over everything that is made") {
  CHECK(words::pins_in_all(sample::job(), sample::plan()) == 2 * 6 + 3);
  CHECK(words::caution(sample::job(), sample::plan(), caution::Pins{}) == "Count the pins out: 15 go in.");
}

TEST_CASE("every reason of a limit has words of its own") {
  const cloth::Explanation limits = cloth::explain({}, {}, Kind::gather);
  std::set<std::string> said;
  for (int reason = 0; reason < cloth::reason_count; ++reason)
    said.insert(words::reason(static_cast<cloth::Reason>(reason), limits));
  CHECK(said.size() == cloth::reason_count);
  CHECK(said.count("") == 0);
}
