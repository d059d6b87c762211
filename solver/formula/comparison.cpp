// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/formula/expression.hpp"
#include "solver/quantity/measure.hpp"
#include "solver/text/script.hpp"

#include <array>

namespace gatherwright {
namespace {

using namespace quantity;

// A run of signs of comparison, without spaces.
struct SignRun {
  std::size_t begin = 0;
  std::size_t end = 0;
};

bool compares(char32_t code) {
  return code == '<' || code == '>' || code == '=' || code == '!' || code == 0x2260 || code == 0x2264 || code == 0x2265;
}

std::optional<SignRun> next_comparison(std::string_view text, std::size_t at) {
  Character sign = character_at(text, at);
  for (; sign.bytes > 0 && !compares(sign.code); sign = character_at(text, at))
    at += sign.bytes;
  if (sign.bytes == 0) return std::nullopt;
  SignRun run{at, at};
  for (; sign.bytes > 0 && compares(sign.code); sign = character_at(text, run.end))
    run.end += sign.bytes;
  return run;
}

struct Written {
  std::string_view sign;
  std::string_view right; // empty: there is nothing like it
};

constexpr std::array<Written, 8> miswritten{{{"<", "<="},
                                             {">", ">="},
                                             {"==", "="},
                                             {"=<", "<="},
                                             {"=>", ">="},
                                             {"\u2264", "<="},
                                             {"\u2265", ">="},
                                             {"===", "="}}};

std::optional<Relation> relation_of(std::string_view sign) {
  if (sign == "<=") return Relation::at_most;
  if (sign == ">=") return Relation::at_least;
  if (sign == "=") return Relation::equal;
  return std::nullopt;
}

Fault no_relation(std::string_view text, const SignRun &run) {
  const std::string_view sign = text.substr(run.begin, run.end - run.begin);
  const std::string what = quoted(sign) + " is no comparison here";
  for (const Written &one : miswritten)
    if (one.sign == sign)
      return {what,
              "write " + excerpt(text.substr(0, run.begin)) + std::string(one.right) + excerpt(text.substr(run.end))};
  return {what, "write <=, >= or ="};
}

} // namespace

Outcome<Comparison> parse_comparison(std::string_view text, Unit bare, const NameIndex &find,
                                     std::span<const std::string> known) {
  if (!is_utf8(text)) return Fault{std::string(not_text), std::string(save_as_text)};
  text = trimmed(text);
  if (text.empty()) return Fault{"nothing is written here", "write a rule such as a + b <= c"};
  if (auto fault = formula::too_many_brackets(text)) return *fault;
  const std::optional<SignRun> run = next_comparison(text, 0);
  if (!run) return Fault{quoted(text) + " compares nothing", "write <=, >= or = between two lengths"};
  if (next_comparison(text, run->end))
    return Fault{quoted(text) + " compares more than once", "write two rules, such as a <= b and b <= c"};
  const std::string_view left_text = trimmed(text.substr(0, run->begin));
  const std::string_view right_text = trimmed(text.substr(run->end));
  const std::string sign(text.substr(run->begin, run->end - run->begin));
  const std::optional<Relation> relation = relation_of(sign);
  if (!relation) return no_relation(text, *run);
  if (left_text.empty()) return Fault{quoted(text) + ": nothing stands before " + sign, "write a length before it"};
  if (right_text.empty()) return Fault{quoted(text) + ": nothing follows " + sign, "write a length behind it"};
  Outcome<Formula> left = formula::parse_expression(left_text, {bare, find, known});
  if (!left) return left.fault();
  Outcome<Formula> right = formula::parse_expression(right_text, {bare, find, known});
  if (!right) return right.fault();
  return Comparison{*std::move(left), *relation, *std::move(right)};
}

} // namespace gatherwright
