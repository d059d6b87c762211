// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/piece.hpp"

#include "cli/job/cloth.hpp"
#include "cli/job/fields.hpp"
#include "cli/job/values.hpp"
#include "cli/words/names.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/cloths.hpp"
#include "gatherwright/defaults.hpp"
#include "gatherwright/validate.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <span>
#include <unordered_set>
#include <utility>

namespace gatherwright::cli {

namespace {

std::span<const std::string_view> side_keys() {
  static const auto keys = [] {
    std::array<std::string_view, all_sides.size()> called;
    std::transform(all_sides.begin(), all_sides.end(), called.begin(), words::side_called);
    return called;
  }();
  return keys;
}

/// A faulty size is a length of 0.
Formula to_size(Reading &reading, const Value &value) {
  auto size = to_formula(reading, value);
  if (size) judge_length(reading, value, *size, Least::above_0);
  return std::move(size).value_or(Formula());
}

/// One length for all sides, or one for each of some.
void read_allowance(Reading &reading, const Value &value, Piece &piece) {
  if (value.kind != Value::Kind::object) {
    piece.allowance.of_sides.fill(to_fixed(reading, value, Least::at_least_0));
    return;
  }
  const Fields fields(reading, value, "an allowance by sides", side_keys());
  for (const Side side : all_sides)
    if (const Value *given = fields[words::side_called(side)])
      piece.allowance[side] = to_fixed(reading, *given, Least::at_least_0);
}

void read_sides(Reading &reading, const Value &value, Sewable &sewable, Piece &piece) {
  const Fields fields(reading, value, "sides", side_keys());
  for (const Side side : all_sides)
    if (const Value *given = fields[words::side_called(side)]) piece.sides[side] = to_side(reading, *given, sewable);
}

/// The cloth that a piece is cut from; nothing where it is not known, since something of it is at fault.
std::optional<Cloth> read_fabric(Reading &reading, const Fields &fields, const JobWide &wide, Piece &piece) {
  const Value *given = fields["fabric"];
  const ReadFabric read = given ? to_fabric(reading, *given) : ReadFabric();
  const GivenFabric whole = given ? cut_over(read.given, wide.fabric) : wide.fabric;
  piece.fabric = fabric_of(whole);
  if (!read.cloth_known || (!given && fields.meant("fabric"))) return std::nullopt;
  if (given && (wide.cloth_known || read.given.selvedge || read.given.stock) &&
      !leaves_a_width(reading, *given, read.given, whole))
    return std::nullopt;
  return wide.cloth_known ? std::optional(cloth_of(piece.fabric, reading.unit)) : std::nullopt;
}

struct ReadPiece {
  Piece piece;
  std::optional<Cloth> cloth;
};

ReadPiece to_piece(Reading &reading, const Value &value, const JobWide &wide, Sewable &sewable) {
  static constexpr std::string_view keys[] = {"name",     "cut",  "across", "along", "allowance",
                                              "mirrored", "turn", "fabric", "sides"};
  const Fields fields(reading, value, "a piece", keys);
  ReadPiece read;
  Piece &piece = read.piece;
  if (const Value *name = fields.required("name", "call the piece by what it is: \"name\": \"sleeve\""))
    piece.name = to_name(reading, *name).value_or("");
  if (const Value *cut = fields["cut"]) piece.cut = to_whole(reading, *cut, bounds::most_cut).value_or(1);
  if (const Value *size = fields.required("across", "write its length from selvedge to selvedge, between seams"))
    piece.across = to_size(reading, *size);
  if (const Value *size = fields.required("along", "write its length down the warp, between seams"))
    piece.along = to_size(reading, *size);
  if (const Value *allowance = fields["allowance"]) read_allowance(reading, *allowance, piece);
  piece.mirrored = mirrored_by_default(piece.cut);
  if (const Value *mirrored = fields["mirrored"]) piece.mirrored = to_truth(reading, *mirrored).value_or(false);
  if (const Value *turn = fields["turn"]) piece.turn = to_truth(reading, *turn).value_or(false);
  read.cloth = read_fabric(reading, fields, wide, piece);
  if (const Value *sides = fields["sides"]) read_sides(reading, *sides, sewable, piece);
  return read;
}

/// What is told of the parts of a piece's sides: its name, and the join's, once for each.
std::size_t told_of(const Piece &piece, const std::vector<Join> &joins) {
  std::size_t told = 0;
  for (const auto &side : piece.sides.of_sides)
    for (const SidePart &part : side)
      told += piece.name.size() + joins[static_cast<std::size_t>(part.join.at)].name.size();
  return told;
}

void judge_cloths(Reading &reading, const Value &pieces, const Cloth &jobs,
                  const std::vector<std::optional<Cloth>> &cloths) {
  const std::vector<int> misnamed = sharing_a_name(jobs, cloths);
  auto next = misnamed.begin();
  for (const Value &each : reading.document.children(pieces)) {
    if (next == misnamed.end()) return;
    if (each.place != *next) continue;
    const std::string_view name = cloths[static_cast<std::size_t>(*next++)]->name;
    reading.fault(*reading.document.child(each, "fabric"),
                  {name.empty() ? "this is another cloth than one before that has no name either"
                                : "this is another cloth than one before that is called " + quoted(name) + " too",
                   "another cloth needs a name of its own"});
  }
}

void judge_count(Reading &reading, const Value &value, const std::vector<Piece> &pieces) {
  std::int64_t cut = 0;
  for (const Piece &piece : pieces)
    cut += piece.cut;
  if (cut > bounds::most_cut)
    reading.fault(value, {fmt::format("{} pieces are too many", cut),
                          fmt::format("cut no more than {} in all", bounds::most_cut)});
}

} // namespace

void read_pieces(Reading &reading, const Value &value, const JobWide &wide, Sewable &sewable, Job &job) {
  if (value.kind != Value::Kind::list) {
    refuse_kind(reading, value,
                R"(a list of pieces such as [ { "name": "sleeve", "across": "48 cm", "along": "56 cm" } ])");
    return;
  }
  job.pieces.reserve(static_cast<std::size_t>(reading.document.count(value)));
  std::vector<std::optional<Cloth>> cloths;
  std::unordered_set<std::string> names;
  std::size_t told = 0;
  for (const Value &each : reading.document.children(value)) {
    if (reading.faults.full()) return;
    ReadPiece read = to_piece(reading, each, wide, sewable);
    Piece &piece = read.piece;
    if (!piece.name.empty() && !names.insert(piece.name).second)
      reading.fault(*reading.document.child(each, "name"),
                    {"another piece is called " + quoted(piece.name), "give each its own name"});
    told += told_of(piece, job.joins);
    if (told > bounds::most_told) {
      reading.fault(each, {"the names of pieces and joins, told for each part of a side, come to more than " +
                               std::to_string(bounds::most_told) + " bytes",
                           "write shorter names"});
      return;
    }
    cloths.push_back(std::move(read.cloth));
    job.pieces.push_back(std::move(piece));
  }
  judge_count(reading, value, job.pieces);
  judge_cloths(reading, value, cloth_of(job.fabric, reading.unit), cloths);
}

} // namespace gatherwright::cli
