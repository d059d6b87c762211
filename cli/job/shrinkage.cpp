// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/shrinkage.hpp"

#include "cli/job/fields.hpp"
#include "cli/job/values.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/bounds.hpp"
#include "gatherwright/text.hpp"

#include <fmt/format.h>

namespace gatherwright::cli {

namespace {

constexpr std::string_view such_a_share = R"(write a number and a % sign, such as "5 %")";

/// A figure without a unit, as it is written in a quantity.
std::optional<double> to_figure(std::string_view text) {
  if (!has_no_unit(text)) return std::nullopt;
  const auto figure = read_length(text, Unit::mm);
  return figure ? std::optional(figure->mm) : std::nullopt;
}

/// A bare number: most likely hundredths where it is at least 1/2, and otherwise the share itself.
void refuse_number(Reading &reading, const Value &value) {
  const double number = number_of(value);
  const double hundredths = number < bounds::most_shrinkage ? 100 * number : number;
  reading.fault(value, {"a share has a % sign",
                        number < 0 ? std::string(such_a_share) : fmt::format("write \"{:.6g} %\"", hundredths)});
}

void refuse_text(Reading &reading, const Value &value, std::string_view text) {
  const std::size_t comma = text.find(',');
  std::string mended(text);
  if (comma != std::string::npos) mended[comma] = '.';
  const bool nearly = comma != std::string::npos && to_figure(mended);
  reading.fault(value, {quoted(value.text) + " is no share",
                        nearly ? "write " + quoted(mended + " %") : std::string(such_a_share)});
}

std::optional<double> to_share(Reading &reading, const Value &value) {
  if (value.kind == Value::Kind::number) {
    refuse_number(reading, value);
    return std::nullopt;
  }
  if (value.kind != Value::Kind::text) {
    refuse_kind(reading, value, R"(a share such as "5 %")");
    return std::nullopt;
  }
  std::string_view text = trimmed(value.text);
  const bool has_sign = text.ends_with('%');
  if (has_sign) text = trimmed(text.substr(0, text.size() - 1));
  const auto figure = to_figure(text);
  if (figure && !has_sign) {
    reading.fault(value, {quoted(value.text) + " has no % sign", "write " + quoted(std::string(text) + " %")});
    return std::nullopt;
  }
  if (!figure) {
    refuse_text(reading, value, text);
    return std::nullopt;
  }
  const double share = *figure / 100 + 0.0;
  if (share < bounds::most_shrinkage) return share;
  reading.fault(value, {quoted(value.text) + " is too much", "write a share from 0 % to below 50 %"});
  return std::nullopt;
}

} // namespace

std::optional<Shrinkage> to_shrinkage(Reading &reading, const Value &value) {
  static constexpr std::string_view keys[] = {"along", "across"};
  const Fields fields(reading, value, "a shrinkage", keys);
  if (value.kind != Value::Kind::object) return std::nullopt;
  Shrinkage shrinkage;
  bool whole = true;
  const auto read = [&](std::string_view key, double &into) {
    const Value *given = fields[key];
    const auto share = given ? to_share(reading, *given) : std::nullopt;
    if (share) into = *share;
    whole = whole && (share || !fields.meant(key));
  };
  read("along", shrinkage.along);
  read("across", shrinkage.across);
  return whole ? std::optional(shrinkage) : std::nullopt;
}

} // namespace gatherwright::cli
