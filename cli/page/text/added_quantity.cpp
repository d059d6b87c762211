// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/added_quantity.hpp"

#include "gatherwright/quantity.hpp"
#include "gatherwright/text.hpp"

namespace gatherwright::page {

namespace {

/// Goes over the terms of a formula, that + and - part outside brackets.
class Terms {
public:
  Terms(std::string_view formula, Unit bare) : formula_(formula), bare_(bare) {}

  std::optional<AddedQuantity> only_quantity() {
    int depth = 0;
    for (std::size_t at = 0; at < formula_.size(); ++at) {
      const char c = formula_[at];
      depth += c == '(' ? 1 : c == ')' ? -1 : 0;
      if (depth != 0 || (c != '+' && c != '-')) continue;
      const std::string_view before = trimmed(formula_.substr(begin_, at - begin_));
      const bool follows_operator = !before.empty() && (before.back() == '*' || before.back() == '/');
      if (follows_operator) continue;
      if (!before.empty()) {
        end_term(at);
        between_ = true;
      }
      sign_ = at;
      begin_ = at + 1;
    }
    end_term(formula_.size());
    return count_ == 1 ? found_ : std::nullopt;
  }

private:
  void end_term(std::size_t end) {
    const std::string_view term = trimmed(formula_.substr(begin_, end - begin_));
    const auto length = read_length(term, bare_);
    if (!length) return;
    ++count_;
    AddedQuantity quantity;
    quantity.begin = static_cast<std::size_t>(term.data() - formula_.data());
    quantity.end = quantity.begin + term.size();
    quantity.signed_before = sign_.has_value();
    quantity.between = between_;
    quantity.sign = sign_.value_or(quantity.begin);
    quantity.mm = sign_ && formula_[*sign_] == '-' ? -length->mm : length->mm;
    found_ = quantity;
  }

  std::string_view formula_;
  Unit bare_;
  std::size_t begin_ = 0;
  std::optional<std::size_t> sign_;
  bool between_ = false;
  int count_ = 0;
  std::optional<AddedQuantity> found_;
};

} // namespace

std::optional<AddedQuantity> added_quantity(std::string_view formula, Unit bare) {
  return Terms(formula, bare).only_quantity();
}

} // namespace gatherwright::page
