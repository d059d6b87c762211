// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/forms.hpp"

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>

/// Binds what can be written on a command line to the members that it fills, each to its own: a struct with a member
/// that has no row, or two, does not compile.
namespace gatherwright::cli {

/// What an option or argument fills: a text that must be given, one that may be left out, or whether a switch is there.
using Member = std::variant<std::string *, std::optional<std::string> *, bool *>;

/// A form, and the member that it fills.
template <class Asked> struct Row {
  /// Which of the struct's own members; none for one of a part's.
  using Own = std::variant<std::monostate, std::string Asked::*, std::optional<std::string> Asked::*, bool Asked::*>;

  OptionForm form;
  Member (*member)(Asked &) = nullptr;
  Own own;
};

/// The table of a struct, as `rows` makes it; every struct that a command line fills has its own.
template <class Asked> inline constexpr auto rows_of = nullptr;

namespace binding {

template <class> struct Parts;
template <class Struct, class Type> struct Parts<Type Struct::*> {
  using Whole = Struct;
  using Held = Type;
};
template <auto member> using Whole = typename Parts<decltype(member)>::Whole;
template <auto member> using Held = typename Parts<decltype(member)>::Held;

template <auto member> Member place(Whole<member> &asked) {
  return &(asked.*member);
}

template <auto part, Member (*inner)(Held<part> &)> Member place_within(Whole<part> &asked) {
  return inner(asked.*part);
}

/// Stands for a value of any type, to count what a struct takes.
struct Anything {
  template <class Type> operator Type() const;
};

template <class Asked, std::size_t... each> constexpr bool takes(std::index_sequence<each...>) {
  return requires {
    Asked{(static_cast<void>(each), Anything{})...};
  };
}

/// How many members an aggregate has.
template <class Asked, std::size_t at_least = 1> constexpr std::size_t members() {
  if constexpr (takes<Asked>(std::make_index_sequence<at_least + 1>()))
    return members<Asked, at_least + 1>();
  else
    return at_least;
}

/// Whether no name and no member comes twice. One of a part's cannot without its name.
template <class Asked, std::size_t size> constexpr bool differ(const std::array<Row<Asked>, size> &rows) {
  const auto same_own = [](const Row<Asked> &a, const Row<Asked> &b) { return a.own.index() != 0 && a.own == b.own; };
  for (std::size_t i = 0; i < size; ++i)
    for (std::size_t j = 0; j < i; ++j)
      if (rows[i].form.name == rows[j].form.name || same_own(rows[i], rows[j])) return false;
  return true;
}

} // namespace binding

/// The row of one member. A switch fills a bool; what is a `std::string` must be given, and is an argument.
template <auto member> constexpr auto row(OptionForm form) {
  using Held = binding::Held<member>;
  form.needed = std::is_same_v<Held, std::string>;
  if (is_switch(form) != std::is_same_v<Held, bool>) throw "a switch fills a bool, and nothing else does";
  if (form.needed && is_option(form)) throw "an option may be left out";
  return std::array{Row<binding::Whole<member>>{form, binding::place<member>, member}};
}

/// The rows of a member that is a struct with a table of its own.
template <auto member> constexpr auto part() {
  constexpr const auto &inner = rows_of<binding::Held<member>>;
  return []<std::size_t... each>(std::index_sequence<each...>) {
    return std::array{
        Row<binding::Whole<member>>{inner[each].form, binding::place_within<member, inner[each].member>, {}}...};
  }
  (std::make_index_sequence<inner.size()>());
}

/// A whole table, in the order of help; arguments first.
template <class Asked, std::size_t... sizes>
constexpr auto rows(const std::array<Row<Asked>, sizes> &...of_each_member) {
  static_assert(binding::members<Asked>() == sizeof...(sizes), "every member has its row");
  std::array<Row<Asked>, (sizes + ...)> all;
  std::size_t filled = 0;
  const auto append = [&](const auto &some) {
    for (const Row<Asked> &each : some)
      all[filled++] = each;
  };
  (append(of_each_member), ...);
  if (!binding::differ(all)) throw "no name and no member comes twice";
  return all;
}

/// What the option or argument is called that fills a member: name_of<&JoinRequest::rows> is "--rows".
template <auto member> inline constexpr std::string_view name_of = [] {
  for (const auto &row : rows_of<binding::Whole<member>>)
    if (row.own == typename Row<binding::Whole<member>>::Own(member)) return row.form.name;
  throw "no option fills this member";
}();

} // namespace gatherwright::cli
