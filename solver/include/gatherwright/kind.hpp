// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

/// The kinds of segment in one table: whatever is true of a kind, but for its own mathematics and words, is asked here.
namespace gatherwright {

/// How a segment's fullness is worked in.
enum class Kind { gather, gauge, draw, ease, flat };

/// What is true of a kind.
///   1. A kind that takes no fullness has no least, and is neither threaded, spread, folded nor drawn up.
///   2. A kind that is too full is offered as one that takes more, down to none.
struct KindRow {
  std::string_view name;                           ///< as a job writes it
  bool takes_fullness = true;                      ///< its long edge may be longer than its band
  bool told_in_percent = false;                    ///< more cloth than band is told as "4 %", not as "1.04 to 1"
  bool has_least = true;                           ///< it may be too scant to be read as what it is
  bool runs_on_thread = false;                     ///< gathering threads are run through it
  bool may_be_spread = false;                      ///< its fullness may be shared out unevenly
  bool stands_off = false;                         ///< its gathers stand off the band
  bool is_folded = false;                          ///< every stitch makes a fold that has a depth
  bool on_cord = false;                            ///< a cord or an elastic that stays in draws it up
  int rows = 2;                                    ///< of thread, where the job does not say
  std::optional<Kind> offered_next = std::nullopt; ///< how it may be worked instead where it is too full
};

///   3. The rows of the kinds stand in the order of the kinds.
inline constexpr std::array<KindRow, 5> kinds{
    KindRow{.name = "gather",
            .runs_on_thread = true,
            .may_be_spread = true,
            .stands_off = true,
            .offered_next = Kind::gauge},
    KindRow{.name = "gauge", .runs_on_thread = true, .is_folded = true, .rows = 3},
    KindRow{.name = "draw", .on_cord = true},
    KindRow{.name = "ease",
            .told_in_percent = true,
            .has_least = false,
            .may_be_spread = true,
            .offered_next = Kind::gather},
    KindRow{.name = "flat", .takes_fullness = false, .has_least = false, .offered_next = Kind::ease},
};

/// In the same order.
inline constexpr std::array<Kind, kinds.size()> all_kinds{Kind::gather, Kind::gauge, Kind::draw, Kind::ease,
                                                          Kind::flat};

constexpr const KindRow &row_of(Kind kind) {
  return kinds[static_cast<std::size_t>(kind)];
}

constexpr std::string_view name(Kind kind) {
  return row_of(kind).name;
}
constexpr bool takes_fullness(Kind kind) {
  return row_of(kind).takes_fullness;
}
constexpr bool told_in_percent(Kind kind) {
  return row_of(kind).told_in_percent;
}
constexpr bool has_least(Kind kind) {
  return row_of(kind).has_least;
}
constexpr bool runs_on_thread(Kind kind) {
  return row_of(kind).runs_on_thread;
}
constexpr bool may_be_spread(Kind kind) {
  return row_of(kind).may_be_spread;
}
constexpr bool stands_off(Kind kind) {
  return row_of(kind).stands_off;
}
constexpr bool is_folded(Kind kind) {
  return row_of(kind).is_folded;
}
constexpr bool on_cord(Kind kind) {
  return row_of(kind).on_cord;
}
constexpr std::optional<Kind> offered_next(Kind kind) {
  return row_of(kind).offered_next;
}

} // namespace gatherwright
