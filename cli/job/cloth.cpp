// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/cloth.hpp"

#include "cli/job/fields.hpp"
#include "cli/job/shrinkage.hpp"
#include "cli/job/values.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/cloths.hpp"

#include <algorithm>
#include <utility>

namespace gatherwright::cli {

namespace {

using Keys = std::string_view[];

/// A strip drawn up is no shorter than when tight, no longer than when slack, and never longer than it was cut.
void judge_order(Reading &reading, const Fields &fields, const Swatch &swatch) {
  const Length shortest = swatch.good ? (*swatch.good)[0] : swatch.cut;
  const Length longest = swatch.good ? (*swatch.good)[1] : swatch.cut;
  const auto refuse = [&](std::string_view key, std::string what) {
    reading.fault(*fields[key], {std::move(what), "tight, the two of good, and cut rise in this order"});
  };
  if (shortest > longest)
    refuse("good", "the shorter length stands second");
  else if (longest > swatch.cut)
    refuse("good", "the strip is longer gathered than it was cut");
  else if (swatch.tight && *swatch.tight > swatch.cut)
    refuse("tight", "the strip is longer drawn up tight than it was cut");
  else if (swatch.tight && *swatch.tight > shortest)
    refuse("tight", "the strip is longer drawn up tight than it looks good");
}

std::optional<Length> to_stitch_length(Reading &reading, const Value &value) {
  const auto length = to_length(reading, value, Least::above_0);
  if (!length || *length >= bounds::shortest_stitch) return length;
  reading.fault(value, {"a stitch is no shorter than 0.1 mm", "write its length from hole to hole, such as \"4 mm\""});
  return std::nullopt;
}

/// "8 / in" counts stitches, "3/8 in" is a length: after the last stroke comes a unit, or a figure.
bool counts_stitches(const Value &value) {
  if (value.kind != Value::Kind::text) return false;
  const std::size_t stroke = value.text.rfind('/');
  if (stroke == std::string_view::npos) return false;
  const std::size_t next = value.text.find_first_not_of(" \t", stroke + 1);
  return next != std::string_view::npos && (value.text[next] < '0' || value.text[next] > '9');
}

void read_stitch(Reading &reading, const Value &value, GivenGathering &gathering) {
  if (value.kind == Value::Kind::object) {
    reading.fault(value, {"found an object", R"(write "threads": [3, 4], "count": "18 / cm" in place of "stitch")"});
  } else if (!counts_stitches(value)) {
    gathering.stitch = to_stitch_length(reading, value);
  } else if (const auto per_mm = to_count(reading, value)) {
    gathering.stitch = Length{0.5 / *per_mm}; // a running stitch on the face and the one behind it
    gathering.on_face = true;
    if (*gathering.stitch < bounds::shortest_stitch || *gathering.stitch > bounds::longest_length)
      reading.fault(value, {"stitches cannot be so small or so large", "write a count such as \"8 / in\""});
  }
}

std::optional<std::array<double, 2>> to_threads(Reading &reading, const Value &value) {
  if (!is_list_of(reading, value, 2, "threads taken up and threads passed, such as [3, 4]")) return std::nullopt;
  std::array<double, 2> threads{};
  bool whole = true;
  for (const Value &each : reading.document.children(value)) {
    const auto count = to_whole(reading, each, bounds::most_threads);
    if (count) threads[static_cast<std::size_t>(each.place)] = *count;
    whole = whole && count;
  }
  return whole ? std::optional(threads) : std::nullopt;
}

/// One stitch, by its length or by threads and their count.
void judge_stitch(Reading &reading, const Fields &fields, const GivenGathering &own, const GivenGathering &jobs) {
  const bool threads = fields.meant("threads");
  const bool count = fields.meant("count");
  for (const std::string_view key : {std::string_view("threads"), std::string_view("count")})
    if (fields["stitch"] && fields[key]) {
      reading.fault(*fields[key],
                    {"the stitch is given twice, by \"stitch\" and by " + quoted(key), "leave one of the two out"});
      return;
    }
  if (threads && !count && !jobs.count_per_mm)
    reading.fault(fields.object(), {"\"threads\" stands without \"count\"",
                                    "write how many threads the cloth has: \"count\": \"18 / cm\""});
  if (count && !threads && !jobs.threads)
    reading.fault(fields.object(), {"\"count\" stands without \"threads\"",
                                    "write how many are taken up and passed: \"threads\": [3, 4]"});
  if (!threads && !count) return;
  const GivenGathering whole = laid_over(own, jobs);
  if (!whole.threads || !whole.count_per_mm) return;
  const Length stitch = gathering_of(whole).stitch;
  if (stitch < bounds::shortest_stitch || stitch > bounds::longest_length)
    reading.fault(count ? *fields["count"] : *fields["threads"],
                  {"this makes a stitch of " + in_unit(reading, stitch),
                   "write how many threads the cloth has to a length: \"18 / cm\""});
}

/// The stitch in which a strip was gathered, written as that of a gathering is. False where it told a fault.
bool read_swatch_stitch(Reading &reading, const Fields &fields, std::optional<Length> &into) {
  GivenGathering own;
  if (const Value *given = fields["stitch"]) read_stitch(reading, *given, own);
  if (const Value *given = fields["threads"]) own.threads = to_threads(reading, *given);
  if (const Value *given = fields["count"]) own.count_per_mm = to_count(reading, *given);
  judge_stitch(reading, fields, own, {});
  const bool given = fields.meant("stitch") || fields.meant("threads") || fields.meant("count");
  const bool known = own.stitch || (own.threads && own.count_per_mm);
  if (known) into = gathering_of(own).stitch;
  return known || !given;
}

std::optional<Swatch> to_swatch(Reading &reading, const Value &value) {
  static constexpr std::string_view keys[] = {"cut", "tight", "good", "stitch", "threads", "count"};
  const Fields fields(reading, value, "a swatch", keys);
  const Value *cut = fields.required("cut", "write how long the strip was cut: \"cut\": \"30 cm\"");
  if (value.kind == Value::Kind::object && !fields.meant("tight") && !fields.meant("good"))
    reading.fault(value, {"the swatch says nothing", "give \"tight\", \"good\" or both"});

  Swatch swatch;
  bool whole = cut != nullptr;
  const auto read = [&](std::string_view key, auto &into, auto &&reader) {
    if (const Value *given = fields[key]) {
      const auto length = reader(*given);
      if (length) into = *length;
      whole = whole && length;
    }
  };
  const auto length = [&](const Value &given) { return to_length(reading, given, Least::above_0); };
  read("cut", swatch.cut, length);
  read("tight", swatch.tight, length);
  read("good", swatch.good, [&](const Value &given) { return to_two_lengths(reading, given, Least::above_0); });
  whole = read_swatch_stitch(reading, fields, swatch.stitch) && whole;
  if (!whole) return std::nullopt;
  judge_order(reading, fields, swatch);
  return swatch;
}

std::optional<Stock> to_stock(Reading &reading, const Value &value) {
  const auto length = to_length(reading, value, Least::above_0);
  if (!length) return std::nullopt;
  return Stock{*length, as_written(reading, value)};
}

/// Only a cloth with selvedges can be used up. Where they are the job's it is the piece's own width or shrinkage that
/// made it so: its width where nothing is left of that before the wash.
const Value &that_leaves_nothing(const Reading &reading, const Value &fabric, const GivenFabric &own, bool unwashed) {
  const auto at = [&](std::string_view key) -> const Value & { return *reading.document.child(fabric, key); };
  if (own.selvedge) return at("selvedge");
  if (own.width && (unwashed || !own.shrinkage)) return at("width");
  return own.shrinkage ? at("shrinkage") : fabric;
}

} // namespace

ReadFabric to_fabric(Reading &reading, const Value &value) {
  static constexpr std::string_view keys[] = {"name",      "weight",  "width",     "selvedge",
                                              "shrinkage", "sold_by", "thickness", "bending_length",
                                              "shrinks",   "swatch",  "stock"};
  const Fields fields(reading, value, "a fabric", keys);
  const bool is_object = value.kind == Value::Kind::object;
  ReadFabric read{{}, !is_object || fields.meant("width"), is_object};
  GivenFabric &fabric = read.given;
  if (const Value *given = fields["name"]) fabric.name = to_text(reading, *given);
  if (const Value *given = fields["weight"]) fabric.weight = to_weight(reading, *given);
  if (const Value *given = fields["width"]) fabric.width = to_length(reading, *given, Least::above_0);
  if (const Value *given = fields["thickness"]) fabric.thickness = to_length(reading, *given, Least::above_0);
  if (const Value *given = fields["bending_length"]) fabric.bending_length = to_length(reading, *given, Least::above_0);
  if (const Value *given = fields["shrinks"]) fabric.shrinks = to_truth(reading, *given);
  if (const Value *given = fields["swatch"]) fabric.swatch = to_swatch(reading, *given);
  if (const Value *given = fields["selvedge"]) fabric.selvedge = to_length(reading, *given, Least::at_least_0);
  if (const Value *given = fields["shrinkage"]) fabric.shrinkage = to_shrinkage(reading, *given);
  if (const Value *given = fields["sold_by"]) fabric.sold_by = to_length(reading, *given, Least::above_0);
  if (const Value *given = fields["stock"]) fabric.stock = to_stock(reading, *given);
  const auto known = [&](std::string_view key, const auto &read_as) { return read_as || !fields.meant(key); };
  read.cloth_known = is_object && known("name", fabric.name) && known("weight", fabric.weight) &&
                     known("width", fabric.width) && known("selvedge", fabric.selvedge) &&
                     known("shrinkage", fabric.shrinkage) && known("sold_by", fabric.sold_by) &&
                     known("stock", fabric.stock);
  return read;
}

bool leaves_a_width(Reading &reading, const Value &fabric, const GivenFabric &own, const GivenFabric &whole) {
  if (whole.stock && !whole.width) {
    reading.fault(own.stock ? *reading.document.child(fabric, "stock") : fabric,
                  {"it is said how much there is of the cloth, and not how wide it is",
                   "give it its \"width\", or leave out \"stock\""});
    return false;
  }
  const Cloth cloth = cloth_of(fabric_of(whole), reading.unit);
  const std::optional<double> left = usable(cloth);
  if (!left || *left > 0) return true;
  const bool unwashed = cloth.width->mm <= 2 * cloth.selvedge.mm;
  reading.fault(that_leaves_nothing(reading, fabric, own, unwashed),
                {"between selvedges of " + in_unit(reading, cloth.selvedge) + " nothing is left of a width of " +
                     in_unit(reading, *cloth.width) + (unwashed ? "" : " once it is washed"),
                 "the width is more than what is lost at its two sides"});
  return false;
}

GivenGathering to_gathering(Reading &reading, const Value &value, const GivenGathering &jobs) {
  static constexpr std::string_view keys[] = {"stitch", "rows", "tail", "longest", "threads", "count"};
  const Fields fields(reading, value, "a gathering", keys);
  GivenGathering gathering;
  if (const Value *given = fields["stitch"]) read_stitch(reading, *given, gathering);
  // An ordinary value stands in for a faulty one, so that a join which takes it over is not at fault as well.
  if (const Value *given = fields["threads"])
    gathering.threads = to_threads(reading, *given).value_or(std::array{3.0, 4.0});
  if (const Value *given = fields["count"]) gathering.count_per_mm = to_count(reading, *given).value_or(1.8);
  if (const Value *given = fields["rows"]) gathering.rows = to_whole(reading, *given, bounds::most_rows);
  if (const Value *given = fields["tail"]) gathering.tail = to_length(reading, *given, Least::at_least_0);
  if (const Value *given = fields["longest"]) gathering.longest = to_length(reading, *given, Least::above_0);
  judge_stitch(reading, fields, gathering, jobs);
  return gathering;
}

std::optional<PinMarks> to_pin_marks(Reading &reading, const Value &value) {
  static constexpr std::string_view keys[] = {"apart", "parts", "every", "halves"};
  static constexpr std::string_view kinds[] = {"apart", "parts", "every"};
  const Fields fields(reading, value, "marks", keys);
  const Value *chosen = nullptr;
  for (const std::string_view kind : kinds) {
    const Value *given = fields[kind];
    if (given && chosen)
      reading.fault_of_key(*given,
                           {quoted(chosen->key) + " and " + quoted(kind) + " stand together", "leave one of them out"});
    else if (given)
      chosen = given;
  }
  const bool meant =
      std::any_of(std::begin(kinds), std::end(kinds), [&](std::string_view kind) { return fields.meant(kind); });
  if (value.kind == Value::Kind::object && !meant && !fields["halves"])
    reading.fault(
        value, {"the marks do not say where", R"(write { "parts": 4 }, { "apart": "6 cm" } or { "every": "4 cm" })"});
  bool halves = false;
  if (const Value *given = fields["halves"]) {
    halves = to_truth(reading, *given).value_or(false);
    if (!fields.meant("apart"))
      reading.fault_of_key(*given, {"\"halves\" stands without \"apart\"", "it goes with \"apart\" only"});
  }
  if (!chosen) return std::nullopt;
  if (chosen->key == "parts") return PinsAtParts{to_whole(reading, *chosen, bounds::most_parts).value_or(1)};
  Formula distance = to_fixed(reading, *chosen, Least::above_0).value_or(PinsApart().most);
  if (chosen->key == "apart") return PinsApart{std::move(distance), halves};
  return PinsEvery{std::move(distance)};
}

Tolerance to_tolerance(Reading &reading, const Value &value) {
  static constexpr std::string_view keys[] = {"cut", "mark"};
  const Fields fields(reading, value, "a tolerance", keys);
  Tolerance tolerance;
  if (const Value *given = fields["cut"])
    tolerance.cut = to_length(reading, *given, Least::at_least_0).value_or(Length{});
  if (const Value *given = fields["mark"])
    tolerance.mark = to_length(reading, *given, Least::at_least_0).value_or(Length{});
  return tolerance;
}

} // namespace gatherwright::cli
