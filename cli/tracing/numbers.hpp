// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace gatherwright::tracing {

/// Goes along a text of numbers as SVG writes them: parted by blanks, by one comma, or by their signs.
class Numbers {
public:
  explicit Numbers(std::string_view text) : text_(text) { skip_blanks(); }

  bool at_end() const { return at_ == text_.size(); }
  std::size_t at() const { return at_; }

  /// The next number, and what parts it from another; nothing, and no step, where none stands or it is not finite.
  std::optional<double> next();

  /// Whether this stands next: it is passed, with blanks after it.
  bool pass(char wanted);

  /// Letters, with blanks after them; maybe none.
  std::string_view word();

  /// What is left.
  std::string_view rest() const { return text_.substr(at_); }

private:
  void skip_blanks();

  std::string_view text_;
  std::size_t at_ = 0;
};

/// All numbers of a text that has nothing else in it.
std::optional<std::vector<double>> numbers_of(std::string_view text);

/// A number with a unit of length in px (1/96 in), or nothing: a share of something else, or no length at all.
struct Measure {
  double px = 0;
  bool has_unit = false;
};
std::optional<Measure> measure_of(std::string_view text);

} // namespace gatherwright::tracing
