// SPDX-License-Identifier: GPL-3.0-or-later
// Changes of the tests' good jobs, written in every odd and every tidy way, beside the same change made to their values
// by nlohmann's library; where things stand is known from whoever wrote the text.
#include "cli/page/text/written.hpp"
#include "tests/cli/page/text/changes.hpp"
#include "tests/cli/page/text/odd_text.hpp"
#include "tests/good_jobs.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace gatherwright;
using namespace gatherwright::tests;
using page::Insert;
using page::Move;
using page::Remove;
using page::SetValue;

namespace {

const std::vector<Json> &good_values() {
  static const auto values = [] {
    std::vector<Json> all;
    for (const std::string &text : good_job_texts())
      all.push_back(values_of(text));
    return all;
  }();
  return values;
}

/// One trial of a change: a job, one of its pointers, dice.
struct Trial {
  std::uint64_t seed = 0;
  const Json &values;
  std::string pointer;
  std::mt19937_64 random;

  std::size_t below(std::size_t count) { return random() % count; }
  std::string parent() const { return pointer.substr(0, pointer.rfind('/')); }
  std::string step() const { return pointer.substr(pointer.rfind('/') + 1); }
  Json::json_pointer at() const { return Json::json_pointer(pointer); }
  const Json &holder() const { return values[Json::json_pointer(parent())]; }
  std::size_t place() const {
    const Json &in = holder();
    if (in.is_array()) return static_cast<std::size_t>(std::stoi(step()));
    std::size_t place = 0;
    for (auto each = in.begin(); each.key() != step(); ++each)
      ++place;
    return place;
  }
};

/// So many trials at places of jobs, none of them the job itself.
template <class Try> void trials(int count, Try &&one) {
  std::mt19937_64 random(20);
  for (int i = 0; i < count; ++i) {
    const Json &values = good_values()[random() % good_values().size()];
    const auto pointers = pointers_in(values);
    Trial trial{random(), values, pointers[1 + random() % (pointers.size() - 1)], std::mt19937_64(random())};
    one(trial);
  }
}

Json some_value(Trial &trial) {
  switch (trial.below(6)) {
  case 0:
    return 12.5;
  case 1:
    return true;
  case 2:
    return Json{{"name", "a \"b\" \\ // c"}, {"list", {1, Json::object(), nullptr}}};
  case 3:
    return Json::array({Json{{"name", "porter"}}, "long enough to need a line of its own, as some formulas do",
                        "and another, so that it does not fit on one line any more at all"});
  case 4:
    return "";
  default:
    return "wrist + 5 cm";
  }
}

void erase_at(Json &values, const std::string &pointer) {
  const std::size_t slash = pointer.rfind('/');
  Json &in = values[Json::json_pointer(pointer.substr(0, slash))];
  const std::string step = pointer.substr(slash + 1);
  if (in.is_array())
    in.erase(static_cast<std::size_t>(std::stoi(step)));
  else
    in.erase(step);
}

bool kept_outside(const std::string &before, const std::string &after, std::size_t begin, std::size_t end) {
  return after.size() >= begin + before.size() - end && after.compare(0, begin, before, 0, begin) == 0 &&
         after.compare(after.size() - (before.size() - end), std::string::npos, before, end) == 0;
}

/// Whether what may come back in other blanks than it was written in: a list or an object as programs write it.
bool is_tight(const std::string &written) {
  return written.size() > 2 && (written.front() == '{' || written.front() == '[');
}

} // namespace

TEST_CASE("a value that is set stands in its place, and every byte outside the old one is as it was") {
  trials(3000, [](Trial &trial) {
    const OddText odd(trial.seed, trial.values);
    const Stands stands = odd.stands().at(trial.pointer);
    Json expected = trial.values;
    const Json value = some_value(trial);
    expected[trial.at()] = value;
    const std::string after = changed_to(odd.text(), trial.pointer, SetValue{value.dump()});
    INFO(trial.pointer << "\n" << odd.text() << "\n---\n" << after);
    REQUIRE(values_of(after) == expected);
    REQUIRE(kept_outside(odd.text(), after, stands.begin, stands.end));

    const std::string old = odd.text().substr(stands.begin, stands.end - stands.begin);
    if (!is_tight(old)) REQUIRE(changed_to(after, trial.pointer, SetValue{old}) == odd.text());
  });
}

TEST_CASE("what is taken away is gone, and nothing outside the room it had is touched but a comma") {
  trials(3000, [](Trial &trial) {
    const OddText odd(trial.seed, trial.values);
    const Stands stands = odd.stands().at(trial.pointer);
    Json expected = trial.values;
    erase_at(expected, trial.pointer);
    const std::string after = changed_to(odd.text(), trial.pointer, Remove{});
    INFO(trial.pointer << "\n" << odd.text() << "\n---\n" << after);
    REQUIRE(values_of(after) == expected);
    REQUIRE(kept_outside(odd.text(), after, stands.room_begin, stands.room_end));
  });
}

TEST_CASE("what is moved stands at its new place among its neighbours") {
  trials(3000, [](Trial &trial) {
    const OddText odd(trial.seed, trial.values);
    const Json &in = trial.holder();
    const std::size_t to = trial.below(in.size());
    std::vector<std::pair<std::string, Json>> members;
    for (auto each = in.begin(); each != in.end(); ++each)
      members.emplace_back(in.is_object() ? each.key() : "", *each);
    const auto moved = members[trial.place()];
    members.erase(members.begin() + static_cast<std::ptrdiff_t>(trial.place()));
    members.insert(members.begin() + static_cast<std::ptrdiff_t>(to), moved);
    Json reordered = in.is_object() ? Json::object() : Json::array();
    for (const auto &[key, value] : members) {
      if (in.is_object())
        reordered[key] = value;
      else
        reordered.push_back(value);
    }
    Json expected = trial.values;
    expected[Json::json_pointer(trial.parent())] = reordered;
    const std::string after = changed_to(odd.text(), trial.pointer, Move{static_cast<int>(to)});
    INFO(trial.pointer << " to " << to << "\n" << odd.text() << "\n---\n" << after);
    REQUIRE(values_of(after) == expected);
    const Stands holder = odd.stands().at(trial.parent());
    REQUIRE(kept_outside(odd.text(), after, holder.begin, holder.end));
  });
}

TEST_CASE("what is put in stands at its place, and taken away again leaves the bytes as they were") {
  trials(3000, [](Trial &trial) {
    const OddText odd(trial.seed, trial.values);
    const Json &in = trial.holder();
    const std::string step = in.is_array() ? std::to_string(trial.below(in.size() + 1)) : "zz_new";
    const std::string pointer = trial.parent() + "/" + step;
    const Json value = some_value(trial);
    const std::string after = changed_to(odd.text(), pointer, Insert{value.dump()});
    INFO(pointer << "\n" << odd.text() << "\n---\n" << after);
    Json back = values_of(after);
    REQUIRE(back.at(Json::json_pointer(pointer)) == value);
    erase_at(back, pointer);
    REQUIRE(back == trial.values);
    const Stands holder = odd.stands().at(trial.parent());
    REQUIRE(kept_outside(odd.text(), after, holder.begin, holder.end));
    REQUIRE(changed_to(after, pointer, Remove{}) == odd.text());
  });
}

namespace {

std::string line_end_for(const Trial &trial) {
  return trial.seed % 2 == 0 ? "\n" : "\r\n";
}

bool is_at_or_in(const std::string &pointer, const std::string &outer) {
  return pointer == outer || pointer.starts_with(outer + "/");
}

/// The numbers of the remarks in a text.
std::set<std::size_t> numbers_in(const std::string &text) {
  std::set<std::size_t> numbers;
  for (std::size_t at = text.find('#'); at != std::string::npos; at = text.find('#', text.find('#', at + 1) + 1))
    numbers.insert(static_cast<std::size_t>(std::stoi(text.substr(at + 1))));
  return numbers;
}

page::Written written_in(const std::string &text) {
  cli::FaultList faults;
  const auto document = cli::read_document(text, faults);
  REQUIRE(document);
  return page::written(text, *document);
}

/// By number, the pointer that a remark is told to belong to.
std::map<std::size_t, std::string> told_of(const std::string &text) {
  std::map<std::size_t, std::string> told;
  for (const auto &[pointer, remark] : written_in(text).remarks)
    for (const std::size_t number : numbers_in(remark))
      told[number] = pointer;
  return told;
}

std::string without_commas(std::string text) {
  std::erase(text, ',');
  return text;
}

bool has_only_line_ends(const std::string &text, const std::string &line_end) {
  if (line_end == "\n") return text.find('\r') == std::string::npos;
  for (std::size_t at = text.find('\n'); at != std::string::npos; at = text.find('\n', at + 1))
    if (at == 0 || text[at - 1] != '\r') return false;
  return true;
}

} // namespace

TEST_CASE("remarks are told of what they stand right above, behind, or behind the opening of") {
  trials(500, [](Trial &trial) {
    const TidyText tidy(trial.seed, trial.values, line_end_for(trial));
    const auto told = told_of(tidy.text());
    INFO(tidy.text());
    for (std::size_t number = 1; number < tidy.remarks().size(); ++number) {
      const auto found = told.find(number);
      const std::string pointer = found == told.end() ? "" : found->second;
      INFO(number);
      REQUIRE(pointer == tidy.remarks()[number].of);
    }
  });
}

TEST_CASE("remarks go away with what they belong to, and no others do") {
  trials(2000, [](Trial &trial) {
    const TidyText tidy(trial.seed, trial.values, line_end_for(trial));
    const std::string after = changed_to(tidy.text(), trial.pointer, Remove{});
    std::set<std::size_t> expected;
    for (std::size_t number = 0; number < tidy.remarks().size(); ++number)
      if (!is_at_or_in(tidy.remarks()[number].in, trial.pointer)) expected.insert(number);
    INFO(trial.pointer << "\n" << tidy.text() << "\n---\n" << after);
    REQUIRE(numbers_in(after) == expected);
    REQUIRE(has_only_line_ends(after, line_end_for(trial)));
  });
}

TEST_CASE("remarks move with what they belong to, and moved back all but commas is as it was") {
  trials(2000, [](Trial &trial) {
    const TidyText tidy(trial.seed, trial.values, line_end_for(trial));
    const Json &in = trial.holder();
    const std::size_t from = trial.place();
    const std::size_t to = trial.below(in.size());
    const std::string after = changed_to(tidy.text(), trial.pointer, Move{static_cast<int>(to)});
    const auto told = told_of(after);
    INFO(trial.pointer << " to " << to << "\n" << tidy.text() << "\n---\n" << after);
    REQUIRE(numbers_in(after).size() == tidy.remarks().size());
    const std::string moved = in.is_array() ? trial.parent() + "/" + std::to_string(to) : trial.pointer;
    for (std::size_t number = 1; number < tidy.remarks().size(); ++number) {
      const std::string &of = tidy.remarks()[number].of;
      if (!is_at_or_in(of, trial.pointer)) continue;
      const auto found = told.find(number);
      REQUIRE(found != told.end());
      REQUIRE(found->second == moved + of.substr(trial.pointer.size()));
    }
    // Whether a remark stood before a comma or behind it is lost where there is no comma.
    REQUIRE(without_commas(changed_to(after, moved, Move{static_cast<int>(from)})) == without_commas(tidy.text()));
  });
}

TEST_CASE("a new key in lines has a line of its own, indented as its neighbours") {
  trials(1000, [](Trial &trial) {
    const TidyText tidy(trial.seed, trial.values, line_end_for(trial));
    if (trial.holder().is_array()) return;
    const std::string pointer = trial.parent() + "/zz_new";
    const std::string after = changed_to(tidy.text(), pointer, Insert{"\"9 cm\""});
    INFO(trial.pointer << "\n" << tidy.text() << "\n---\n" << after);
    const std::size_t key = tidy.text().find(Json(trial.step()).dump() + ": ");
    REQUIRE(key != std::string::npos);
    const auto levels = static_cast<std::size_t>(std::count(pointer.begin(), pointer.end(), '/'));
    if (levels > 3) { // on one line
      REQUIRE(after.find(", \"zz_new\": \"9 cm\" }") != std::string::npos);
    } else {
      const std::string line = line_end_for(trial) + std::string(2 * levels, ' ') + "\"zz_new\": \"9 cm\"";
      REQUIRE(after.find(line) != std::string::npos);
    }
    REQUIRE(has_only_line_ends(after, line_end_for(trial)));
  });
}

TEST_CASE("what is written is told with its keys in order and its figures as they are spelt") {
  trials(1000, [](Trial &trial) {
    const OddText odd(trial.seed, trial.values);
    const std::string job = written_in(odd.text()).job;
    REQUIRE(Json::parse(job) == trial.values);
    REQUIRE(job == trial.values.dump());
  });
}
