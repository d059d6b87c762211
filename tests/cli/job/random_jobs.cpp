// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/own.hpp"
#include "cli/job/read_job.hpp"
#include "gatherwright/defaults.hpp"
#include "tests/figure.hpp"
#include "tests/outcomes.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

using namespace gatherwright;
using namespace gatherwright::cli;

namespace {

/// Writes jobs as a person might, and keeps what it meant by them. Lengths are whole and half centimetres, which are
/// exact.
class Writer {
public:
  explicit Writer(std::uint64_t seed) : random_(seed) {}

  bool chance(int in) { return random_() % static_cast<std::uint64_t>(in) == 0; }
  int whole(int least, int most) {
    return least + static_cast<int>(random_() % static_cast<std::uint64_t>(most - least + 1));
  }
  template <class Value> Value one_of(std::initializer_list<Value> values) {
    return *(values.begin() + whole(0, static_cast<int>(values.size()) - 1));
  }

  /// Spaces, line ends and comments, where they mean nothing.
  std::string space() {
    return one_of<const char *>({"", "", "", " ", "\n", "\t", "\r\n", " // {\n", "/* \" */", "  "});
  }

  std::string text(const std::string &plain) {
    std::string written = "\"";
    for (const char c : plain) {
      if (c == '"' || c == '\\') written += '\\';
      if (chance(9) && c == 'e')
        written += "\\u0065";
      else
        written += c;
    }
    return written + "\"";
  }

  /// An object of these keys, in any order.
  std::string object(std::vector<std::pair<std::string, std::string>> keys) {
    std::shuffle(keys.begin(), keys.end(), random_);
    return kept_in_order(keys);
  }

  std::string kept_in_order(const std::vector<std::pair<std::string, std::string>> &keys) {
    std::string written = "{" + space();
    for (const auto &[key, value] : keys) {
      if (written.find('"') != std::string::npos && &key != &keys.front().first) written += "," + space();
      written += text(key) + space() + ":" + space() + value + space();
    }
    return written + "}";
  }

  std::string list(const std::vector<std::string> &values) {
    std::string written = "[" + space();
    for (std::size_t i = 0; i < values.size(); ++i)
      written += (i ? "," + space() : "") + values[i] + space();
    return written + "]";
  }

  /// A length in any of its forms, in a job of centimetres.
  std::string length(Length length) {
    const int half_centimetres = static_cast<int>(length.mm / 5);
    const std::string decimal = std::to_string(half_centimetres / 2) + (half_centimetres % 2 ? ".5" : "");
    switch (whole(0, 4)) {
    case 0:
      return decimal;
    case 1:
      return text(decimal);
    case 2:
      return text(decimal + "cm");
    case 3:
      return text(std::to_string(half_centimetres / 2) + (half_centimetres % 2 ? " 1/2 cm" : " cm"));
    default:
      return text(std::to_string(half_centimetres * 5) + " mm");
    }
  }

  Length some_length() { return Length{5.0 * whole(1, 200)}; }
  std::mt19937_64 &random() { return random_; }

private:
  std::mt19937_64 random_;
};

/// A formula as written and what it comes to.
struct MeantFormula {
  double mm = 0;
  std::string written;
};

struct MeantSegment {
  std::string name;
  std::string to;
  Kind kind = Kind::gather;
  std::optional<double> band;
  std::optional<double> long_edge;
  double share = 1;
  SpreadWish spread;
  OwnLimits limits;
};

struct MeantJoin {
  std::string name;
  double long_edge = 0;
  double band = 0;
  bool closed = false;
  int make = 1;
  std::optional<bool> mirrored;
  std::optional<Use> use;
  std::optional<PinMarks> marks;
  GivenFabric fabric;
  GivenGathering gathering;
  std::vector<MeantSegment> segments;
};

struct MeantJob {
  std::string title;
  PinMarks marks = default_pin_marks(Unit::cm);
  GivenFabric fabric;
  GivenGathering gathering;
  std::vector<std::pair<std::string, double>> measures;
  std::vector<std::pair<std::string, double>> lengths; ///< the fixed ones
  int free_lengths = 0;
  std::vector<MeantJoin> joins;
  std::string text;
};

using Keys = std::vector<std::pair<std::string, std::string>>;

PinMarks write_marks(Writer &writer, Keys &keys) {
  Keys inner;
  PinMarks marks;
  switch (writer.whole(0, 2)) {
  case 0: {
    const PinsApart apart{writer.some_length(), writer.chance(2)};
    inner.emplace_back("apart", writer.length(tests::figure(apart.most)));
    if (apart.halves) inner.emplace_back("halves", "true");
    marks = apart;
    break;
  }
  case 1: {
    const PinsAtParts at{writer.whole(1, 16)};
    inner.emplace_back("parts", std::to_string(at.parts));
    marks = at;
    break;
  }
  default: {
    const PinsEvery every{writer.some_length()};
    inner.emplace_back("every", writer.length(tests::figure(every.distance)));
    marks = every;
  }
  }
  keys.emplace_back("marks", writer.object(inner));
  return marks;
}

GivenFabric write_fabric(Writer &writer, Keys &keys) {
  GivenFabric fabric;
  Keys inner;
  const auto length = [&](const char *key, std::optional<Length> &into) {
    if (writer.chance(2)) return;
    into = writer.some_length();
    inner.emplace_back(key, writer.length(*into));
  };
  if (writer.chance(2)) {
    fabric.weight = Weight{static_cast<double>(writer.whole(40, 400))};
    inner.emplace_back("weight", writer.text(std::to_string(static_cast<int>(fabric.weight->grams)) + " g/m2"));
  }
  length("width", fabric.width);
  length("thickness", fabric.thickness);
  length("bending_length", fabric.bending_length);
  if (writer.chance(2)) {
    fabric.shrinks = writer.chance(2);
    inner.emplace_back("shrinks", *fabric.shrinks ? "true" : "false");
  }
  keys.emplace_back("fabric", writer.object(inner));
  return fabric;
}

GivenGathering write_gathering(Writer &writer, Keys &keys) {
  GivenGathering gathering;
  Keys inner;
  if (writer.chance(2)) {
    gathering.stitch = writer.some_length();
    inner.emplace_back("stitch", writer.length(*gathering.stitch));
  } else if (writer.chance(2)) {
    gathering.threads = {3, 4};
    gathering.count_per_mm = 1.5;
    inner.emplace_back("threads", writer.list({"3", "4"}));
    inner.emplace_back("count", writer.text("15 / cm"));
  }
  if (writer.chance(2)) {
    gathering.rows = writer.whole(1, 5);
    inner.emplace_back("rows", std::to_string(*gathering.rows));
  }
  keys.emplace_back("gathering", writer.object(inner));
  return gathering;
}

SpreadWish write_spread(Writer &writer, Keys &keys) {
  switch (writer.whole(0, 2)) {
  case 0:
    keys.emplace_back("spread", "\"even\"");
    return Even{};
  case 1: {
    const Fade fade{{writer.some_length(), writer.some_length()}};
    keys.emplace_back("spread", writer.object({{"fade", writer.list({writer.length(tests::figure(fade.over[0])),
                                                                     writer.length(tests::figure(fade.over[1]))})}}));
    return fade;
  }
  default: {
    const Shape shape{{{0, 0.5}, {0.25, writer.whole(0, 9) * 1.0}, {1, 0}}};
    const std::string second = std::to_string(static_cast<int>(shape.points[1][1]));
    keys.emplace_back(
        "spread", writer.object({{"shape", writer.list({"[0, 5e-1]", writer.list({"0.25", second}), "[1.0, -0]"})}}));
    return shape;
  }
  }
}

MeantSegment write_segment(Writer &writer, std::vector<std::string> &list) {
  MeantSegment segment;
  Keys keys;
  segment.kind = writer.one_of({Kind::gather, Kind::gauge, Kind::draw, Kind::ease, Kind::flat});
  constexpr const char *kinds[] = {"gather", "gauge", "draw", "ease", "flat"};
  if (segment.kind != Kind::gather || writer.chance(2))
    keys.emplace_back("kind", writer.text(kinds[static_cast<int>(segment.kind)]));
  segment.band = writer.some_length().mm; // given in every segment, so that any of them go together
  keys.emplace_back("band", writer.length(Length{*segment.band}));
  if (writer.chance(2)) {
    segment.long_edge = writer.some_length().mm;
    keys.emplace_back("long", writer.length(Length{*segment.long_edge}));
  }
  if (writer.chance(2)) keys.emplace_back("name", writer.text(segment.name = "the \"side\" \\ é"));
  if (writer.chance(2)) keys.emplace_back("to", writer.text(segment.to = "the end"));
  if (segment.kind != Kind::flat && writer.chance(2)) {
    segment.share = writer.whole(1, 8) / 4.0;
    keys.emplace_back("share", segment.share == 1 ? "1" : std::to_string(segment.share));
  }
  if ((segment.kind == Kind::gather || segment.kind == Kind::ease) && writer.chance(2))
    segment.spread = write_spread(writer, keys);
  if (segment.kind != Kind::flat && writer.chance(2)) {
    segment.limits.most = 2.5;
    if (segment.kind != Kind::ease) segment.limits.least = 1.25;
    Keys inner{{"most", "2.5"}};
    if (segment.limits.least) inner.emplace_back("least", "125e-2");
    keys.emplace_back("limits", writer.object(inner));
  }
  list.push_back(writer.object(keys));
  return segment;
}

/// An edge: a length, or a name that stands for one.
double write_edge(Writer &writer, const MeantJob &job, const char *key, Keys &keys) {
  double mm = 0;
  std::string value;
  if (!job.lengths.empty() && writer.chance(2)) {
    const auto &[name, is] =
        job.lengths[static_cast<std::size_t>(writer.whole(0, static_cast<int>(job.lengths.size()) - 1))];
    mm = is + 5;
    value = writer.text(name + "+ 5 mm");
  } else {
    mm = writer.some_length().mm;
    value = writer.length(Length{mm});
  }
  keys.emplace_back(key, writer.chance(3) ? writer.object({{"length", value}, {"ends", "[1, 1]"}}) : value);
  return mm;
}

MeantJoin write_join(Writer &writer, const MeantJob &job, std::vector<std::string> &list) {
  MeantJoin join;
  Keys keys;
  join.name = "join " + std::to_string(list.size());
  keys.emplace_back("name", writer.text(join.name));
  join.long_edge = write_edge(writer, job, "long", keys);
  join.band = write_edge(writer, job, "band", keys);
  if (writer.chance(3)) keys.emplace_back("closed", (join.closed = writer.chance(2)) ? "true" : "false");
  if (writer.chance(2)) keys.emplace_back("make", std::to_string(join.make = writer.whole(1, 6)));
  if (writer.chance(3)) {
    join.mirrored = writer.chance(2);
    keys.emplace_back("mirrored", *join.mirrored ? "true" : "false");
  }
  if (writer.chance(2)) join.marks = write_marks(writer, keys);
  if (writer.chance(3)) {
    join.use = writer.chance(2) ? Use::skirt : Use::curtain;
    keys.emplace_back("use", writer.text(*join.use == Use::skirt ? "skirt" : "curtain"));
  }
  if (writer.chance(2)) join.fabric = write_fabric(writer, keys);
  if (writer.chance(2)) join.gathering = write_gathering(writer, keys);
  if (writer.chance(2)) {
    std::vector<std::string> segments;
    const int count = writer.whole(1, 4);
    for (int i = 0; i < count; ++i)
      join.segments.push_back(write_segment(writer, segments));
    keys.emplace_back("segments", writer.list(segments));
  }
  list.push_back(writer.object(keys));
  return join;
}

/// Measures, and lengths that are formulas of them and of each other, in any order.
void write_names(Writer &writer, MeantJob &job, Keys &keys) {
  Keys measures;
  for (int i = writer.whole(0, 3); i > 0; --i) {
    const Length is = writer.some_length();
    job.measures.emplace_back("m" + std::to_string(i), is.mm);
    measures.emplace_back(job.measures.back().first, writer.length(is));
  }
  Keys lengths;
  for (int i = writer.whole(0, 5); i > 0; --i) {
    const std::string name = "é" + std::to_string(i);
    if (writer.chance(4)) {
      ++job.free_lengths;
      lengths.emplace_back("free" + std::to_string(i),
                           writer.object({{"from", "\"1 cm\""}, {"to", writer.length(Length{9000})}}));
    } else if (!job.lengths.empty() && writer.chance(2)) {
      const auto &[other, is] = job.lengths.back();
      lengths.emplace_back(name, writer.text("3*" + other + " / 2"));
      job.lengths.emplace_back(name, is * 1.5);
    } else {
      const Length is = writer.some_length();
      lengths.emplace_back(name, writer.chance(2) ? writer.length(is)
                                                  : writer.object({{"is", writer.length(is)}, {"keep", "true"}}));
      job.lengths.emplace_back(name, is.mm);
    }
  }
  keys.emplace_back("measures", writer.object(measures));
  keys.emplace_back("lengths", writer.object(lengths));
}

MeantJob write_job(std::uint64_t seed) {
  Writer writer(seed);
  MeantJob job;
  Keys keys{{"unit", "\"cm\""}, {"title", writer.text(job.title = "Smocks \"for\" the 2½ porters\\ ")}};
  if (writer.chance(2)) job.marks = write_marks(writer, keys);
  if (writer.chance(2)) job.fabric = write_fabric(writer, keys);
  if (writer.chance(2)) job.gathering = write_gathering(writer, keys);
  write_names(writer, job, keys);
  std::vector<std::string> joins;
  for (int i = writer.whole(1, 5); i > 0; --i)
    job.joins.push_back(write_join(writer, job, joins));
  keys.emplace_back("joins", writer.list(joins));
  job.text = writer.space() + writer.object(keys) + writer.space();
  return job;
}

void check_marks(const PinMarks &read, const PinMarks &meant) {
  REQUIRE(read.index() == meant.index());
  if (const auto *apart = std::get_if<PinsApart>(&meant)) {
    CHECK(tests::figure(std::get<PinsApart>(read).most) == tests::figure(apart->most));
    CHECK(std::get<PinsApart>(read).halves == apart->halves);
  }
  if (const auto *at = std::get_if<PinsAtParts>(&meant)) CHECK(std::get<PinsAtParts>(read).parts == at->parts);
  if (const auto *every = std::get_if<PinsEvery>(&meant))
    CHECK(tests::figure(std::get<PinsEvery>(read).distance) == tests::figure(every->distance));
}

void check_spread(const SpreadWish &read, const SpreadWish &meant) {
  REQUIRE(read.index() == meant.index());
  if (const auto *fade = std::get_if<Fade>(&meant))
    CHECK(tests::figures(std::get<Fade>(read).over) == tests::figures(fade->over));
  if (const auto *shape = std::get_if<Shape>(&meant)) CHECK(std::get<Shape>(read).points == shape->points);
}

void check_fabric(const Fabric &read, const GivenFabric &meant) {
  CHECK(read.weight == meant.weight);
  CHECK(read.width == meant.width);
  CHECK(read.thickness == meant.thickness);
  CHECK(read.bending_length == meant.bending_length);
  CHECK(read.shrinks == meant.shrinks.value_or(false));
}

void check_gathering(const Gathering &read, const GivenGathering &meant) {
  CHECK(read.rows == meant.rows);
  CHECK(read.threads.has_value() == meant.threads.has_value());
  CHECK(read.stitch.mm == (meant.stitch ? meant.stitch->mm : meant.threads ? 3.5 / 1.5 : 4.0));
}

/// The values of all symbols; of free lengths themselves.
std::vector<Affine> values_of(const Job &job) {
  std::vector<Affine> values(static_cast<std::size_t>(job.symbols()));
  for (std::size_t i = 0; i < job.measures.size(); ++i)
    values[i] = {job.measures[i].is.mm, {}};
  std::vector<std::vector<int>> needs(job.lengths.size());
  for (std::size_t i = 0; i < job.lengths.size(); ++i)
    if (const Formula *fixed = job.lengths[i].fixed())
      for (const int symbol : symbols_of(*fixed))
        if (const auto needed = job.length_of(symbol)) needs[i].push_back(needed->at);
  for (const int i : dependency_order(needs).order) {
    const LengthId id(i);
    const NamedLength &length = job[id];
    const int symbol = job.symbol_of(id);
    const auto value = length.free() ? Outcome<Affine>(Affine{0, {{symbol, 1.0}}}) : evaluate(*length.fixed(), values);
    REQUIRE(value);
    values[static_cast<std::size_t>(symbol)] = *value;
  }
  return values;
}

void check_formula(const Formula &read, double meant, const std::vector<Affine> &values) {
  const auto value = evaluate(read, values);
  REQUIRE(value);
  CHECK(value->fixed());
  CHECK(value->constant == Approx(meant).epsilon(1e-14));
}

void check_segment(const Segment &read, const MeantSegment &meant, const std::vector<Affine> &values) {
  CHECK(read.kind == meant.kind);
  CHECK(read.name == meant.name);
  CHECK(read.to == meant.to);
  CHECK(read.share == meant.share);
  CHECK(read.limits.most == meant.limits.most);
  CHECK(read.limits.least == meant.limits.least);
  check_spread(read.spread, meant.spread);
  check_formula(read.band.value(), *meant.band, values);
  REQUIRE(read.long_edge.has_value() == meant.long_edge.has_value());
  if (meant.long_edge) check_formula(*read.long_edge, *meant.long_edge, values);
}

void check_join(const Join &read, const MeantJoin &meant, const MeantJob &job, const std::vector<Affine> &values) {
  CHECK(read.name == meant.name);
  CHECK(read.closed == meant.closed);
  CHECK(read.make == meant.make);
  CHECK(read.use == meant.use);
  CHECK(read.mirrored == meant.mirrored.value_or(meant.make % 2 == 0));
  check_marks(read.marks, meant.marks.value_or(job.marks));
  check_fabric(read.fabric, laid_over(meant.fabric, job.fabric));
  check_gathering(read.gathering, laid_over(meant.gathering, job.gathering));
  check_formula(std::get<Formula>(read.long_edge.is), meant.long_edge, values);
  check_formula(std::get<Formula>(read.band.is), meant.band, values);
  REQUIRE(read.segments.size() == std::max<std::size_t>(1, meant.segments.size()));
  for (std::size_t i = 0; i < meant.segments.size(); ++i)
    check_segment(read.segments[i], meant.segments[i], values);
}

} // namespace

TEST_CASE("random sound jobs read back as they were meant") {
  for (std::uint64_t seed = 0; seed < 1000; ++seed) {
    const MeantJob meant = write_job(seed);
    CAPTURE(seed, meant.text);
    auto read = read_job(meant.text);
    if (const auto *faults = tests::fault_in(read))
      for (const auto &fault : *faults)
        UNSCOPED_INFO(fault_line("job", fault));
    REQUIRE(static_cast<bool>(read));
    const Job &job = read->job;
    CHECK(job.title == meant.title);
    CHECK(job.measures.size() == meant.measures.size());
    CHECK(job.lengths.size() == meant.lengths.size() + static_cast<std::size_t>(meant.free_lengths));
    check_fabric(job.fabric, meant.fabric);
    check_gathering(job.gathering, meant.gathering);
    const auto values = values_of(job);
    for (const NamedLength &length : job.lengths)
      for (const auto &[name, is] : meant.lengths)
        if (name == length.name) check_formula(std::get<Formula>(length.is), is, values);
    REQUIRE(job.joins.size() == meant.joins.size());
    for (std::size_t i = 0; i < job.joins.size(); ++i)
      check_join(job.joins[i], meant.joins[i], meant, values);
  }
}

TEST_CASE("a job cut off at any byte gives faults or a job") {
  for (std::uint64_t seed = 0; seed < 6; ++seed) {
    const std::string text = write_job(seed).text;
    for (std::size_t size = 0; size <= text.size(); ++size) {
      const auto read = read_job(std::string_view(text).substr(0, size));
      const auto *faults = tests::fault_in(read);
      REQUIRE((faults ? !faults->empty() : !read->job.joins.empty()));
    }
  }
}

TEST_CASE("a job with bytes changed at random gives faults or a job") {
  std::mt19937_64 random(7);
  for (std::uint64_t seed = 0; seed < 1500; ++seed) {
    std::string text = write_job(seed).text;
    for (int changes = 1 + static_cast<int>(seed % 4); changes > 0; --changes)
      text[random() % text.size()] = "0159-+*/.,:\"'{}[]()eamn \n"[random() % 25];
    const auto read = read_job(text);
    const auto *faults = tests::fault_in(read);
    REQUIRE((faults ? !faults->empty() : !read->job.joins.empty()));
    if (!faults) continue;
    for (const InputFault &fault : *faults) {
      REQUIRE(fault.line >= 1);
      REQUIRE(fault.line <= 1 + std::count(text.begin(), text.end(), '\n'));
      REQUIRE(fault_line("job", fault).find('\n') == std::string::npos);
    }
    REQUIRE(
        std::is_sorted(faults->begin(), faults->end(), [](const auto &a, const auto &b) { return a.line < b.line; }));
  }
}
