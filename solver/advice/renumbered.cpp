// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/renumbered.hpp"

#include <variant>

namespace gatherwright::advice {

namespace {

/// Puts the number in the whole job in the place of that in the part, wherever a thing is told by one.
struct Renumber {
  const Numbers &numbers;

  void operator()(JoinId &at) const { at = JoinId(numbers.joins[at.at]); }
  void operator()(RuleId &at) const { at = RuleId(numbers.rules[at.at]); }
  void operator()(PieceId &at) const { at = PieceId(numbers.pieces[at.at]); }
  void operator()(SegmentAt &at) const { (*this)(at.join); }
  void operator()(EdgeAt &at) const { (*this)(at.join); }
  void operator()(SideAt &at) const { (*this)(at.piece); }
  void operator()(PartAt &at) const { (*this)(at.side); }
  void operator()(LengthId &) const {}
  void operator()(MeasureId &) const {}
  void operator()(ClothId &) const {}

  template <class... Alternatives> void operator()(std::variant<Alternatives...> &told) const {
    std::visit(*this, told);
  }

  void operator()(PlacedFault &fault) const { (*this)(fault.place); }
  void operator()(refusal::NoBand &none) const { (*this)(none.of); }
  void operator()(refusal::TooMuch &) const {}
  void operator()(place::WholeJob &) const {}
  void operator()(refusal::Indistinct &indistinct) const {
    if (!indistinct.conditions) return;
    for (Condition &condition : *indistinct.conditions)
      (*this)(condition);
  }

  /// Anything else is told by what it is at.
  template <class Told>
  requires requires(Told &told) { told.at; }
  void operator()(Told &told) const { (*this)(told.at); }
};

template <class Told> Told with_numbers(Told told, const Numbers &numbers) {
  Renumber{numbers}(told);
  return told;
}

} // namespace

Condition renumbered(Condition condition, const Numbers &numbers) {
  return with_numbers(condition, numbers);
}

Finding renumbered(Finding finding, const Numbers &numbers) {
  return with_numbers(std::move(finding), numbers);
}

Refusal renumbered(Refusal refusal, const Numbers &numbers) {
  return with_numbers(std::move(refusal), numbers);
}

} // namespace gatherwright::advice
