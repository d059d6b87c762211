// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/formula/expression.hpp"

#include "solver/formula/wording.hpp"
#include "solver/quantity/measure.hpp"
#include "solver/quantity/number.hpp"
#include "solver/text/script.hpp"

#include <algorithm>
#include <numbers>

namespace gatherwright::formula {
namespace {

using namespace quantity;
using Code = Formula::Code;

constexpr int most_brackets = 1000;

// An operator or an open bracket that waits for what follows it. A bracket has the code `number`; one of a function,
// the function's.
struct Pending {
  Code code = Code::number;
  std::size_t begin = 0; // of the sign, or of the function's name
  int commas = 0;

  bool opens() const { return code == Code::number || code == Code::least || code == Code::most; }
};

int binding(Code code) {
  if (code == Code::negate) return 3;
  return code == Code::multiply || code == Code::divide ? 2 : 1;
}

Code operator_of(char32_t sign) {
  switch (sign) {
  case '+':
    return Code::add;
  case '-':
    return Code::subtract;
  case '*':
    return Code::multiply;
  case '/':
    return Code::divide;
  default:
    return Code::number;
  }
}

// Operator precedence with two stacks of its own, so that no depth of brackets can use up the machine's. Invariant:
// `steps_` leaves as many values as there are `operands_`; where an operand is awaited, the last token was an operator,
// an open bracket, a comma or none.
class Parser {
public:
  Parser(std::string_view text, const Terms &terms) : text_(text), terms_(terms) {
    rules_.in_formula = true;
    rules_.is_name = [&terms](std::string_view word) {
      return word == "min" || word == "max" || word == "pi" || terms.find(word) >= 0;
    };
    constexpr std::size_t usual = 8; // steps: room is made once
    pending_.reserve(usual);
    operands_.reserve(usual);
    steps_.reserve(usual);
  }

  Outcome<Formula> parse();

private:
  using Check = std::optional<Fault>;

  Check take_operand();
  Check take_operator();
  Check take_quantity();
  Check take_name();
  Check take_function(Code code, std::size_t end);
  Check take_comma();
  Check close_bracket();
  Check reduce(int least_binding);
  Check apply(const Pending &pending);
  Check finish();
  Check wrong_operand(const Character &sign) const;
  Check missing_argument(const Pending &function) const;
  Check check_alike(const Pending &pending, const Operand &left, const Operand &right) const;
  void push(const Formula::Step &step, const Operand &operand, std::size_t end);
  void pass(std::size_t end);
  bool at_head() const { return last_begin_ == last_end_ || last_sign() == '(' || last_sign() == ','; }
  char last_sign() const { return last_begin_ == last_end_ ? '\0' : text_[last_begin_]; }
  std::string_view function_name(const Pending &pending) const { return text_.substr(pending.begin, 3); }

  std::string_view text_;
  const Terms &terms_;
  LengthRules rules_;
  std::size_t at_ = 0;
  std::size_t last_begin_ = 0; // of the last token; no token yet where both are 0
  std::size_t last_end_ = 0;
  std::optional<std::size_t> last_name_; // where it begins
  bool awaits_operand_ = true;
  std::vector<Pending> pending_;
  std::vector<Operand> operands_;
  std::vector<Formula::Step> steps_;
};

void Parser::pass(std::size_t end) {
  last_begin_ = at_;
  last_end_ = end;
  at_ = end;
}

void Parser::push(const Formula::Step &step, const Operand &operand, std::size_t end) {
  steps_.push_back(step);
  operands_.push_back(operand);
  pass(end);
  awaits_operand_ = false;
}

Outcome<Formula> Parser::parse() {
  for (at_ = past_spaces(text_, at_); at_ < text_.size(); at_ = past_spaces(text_, at_))
    if (auto fault = awaits_operand_ ? take_operand() : take_operator()) return *fault;
  if (auto fault = finish()) return *fault;
  return *Formula::of_steps(std::move(steps_), std::string(text_));
}

Parser::Check Parser::take_operand() {
  if (number_begins(text_, at_)) return take_quantity();
  const Character sign = character_at(text_, at_);
  if (begins_name(sign.code)) return take_name();
  if (sign.code == '(') {
    pending_.push_back({Code::number, at_, 0});
    pass(at_ + 1);
    return std::nullopt;
  }
  if (sign.code == '-' && at_head()) {
    pending_.push_back({Code::negate, at_, 0});
    pass(at_ + 1);
    return std::nullopt;
  }
  return wrong_operand(sign);
}

Parser::Check Parser::take_operator() {
  const Character sign = character_at(text_, at_);
  if (const Code code = operator_of(sign.code); code != Code::number) {
    if (auto fault = reduce(binding(code))) return fault;
    pending_.push_back({code, at_, 0});
    pass(at_ + 1);
    awaits_operand_ = true;
    return std::nullopt;
  }
  if (sign.code == ')') return close_bracket();
  if (sign.code == ',') return take_comma();
  if (sign.code == '(' || begins_name(sign.code) || number_begins(text_, at_))
    return side_by_side(text_, last_begin_, last_end_, at_, terms_);
  return stray_sign(text_, at_);
}

Parser::Check Parser::take_quantity() {
  rules_.after_division = last_sign() == '/';
  const auto open = std::find_if(pending_.rbegin(), pending_.rend(), [](const Pending &one) { return one.opens(); });
  rules_.comma_separates = open != pending_.rend() && open->code != Code::number;
  const Outcome<LengthText> found = scan_length(text_, at_, rules_);
  if (!found) return found.fault();
  const Code code = found->has_unit ? Code::length : Code::number;
  const Operand operand{found->has_unit ? 1 : 0, at_, found->end, !found->has_unit, found->number.value == 0};
  push({code, found->number.value, -1}, operand, found->end);
  return std::nullopt;
}

Parser::Check Parser::take_name() {
  const std::size_t end = past_word(text_, at_);
  const std::string_view word = text_.substr(at_, end - at_);
  if (word == "min") return take_function(Code::least, end);
  if (word == "max") return take_function(Code::most, end);
  if (word == "pi") {
    push({Code::number, std::numbers::pi, -1}, {0, at_, end}, end);
    return std::nullopt;
  }
  if (unit_named(word)) return unit_alone(word);
  const int symbol = terms_.find(word);
  if (symbol < 0) return unknown_name(text_, at_, end, last_name_.value_or(at_), terms_);
  last_name_ = at_;
  push({Code::symbol, 0, symbol}, {1, at_, end}, end);
  return std::nullopt;
}

Parser::Check Parser::take_function(Code code, std::size_t end) {
  const std::size_t bracket = past_spaces(text_, end);
  const std::string word(text_.substr(at_, end - at_));
  if (character_at(text_, bracket).code != '(')
    return Fault{word + " has no bracket behind it", "write " + word + "(a, b)"};
  pending_.push_back({code, at_, 0});
  at_ = bracket;
  pass(bracket + 1);
  return std::nullopt;
}

Parser::Check Parser::missing_argument(const Pending &function) const {
  const std::string word(function_name(function));
  return Fault{quoted(text_.substr(function.begin, at_ + 1 - function.begin)) + ": " + word + " takes two",
               "write " + word + "(a, b)"};
}

Parser::Check Parser::take_comma() {
  if (auto fault = reduce(0)) return fault;
  if (pending_.empty() || pending_.back().code == Code::number) return stray_comma(text_, at_);
  if (++pending_.back().commas > 1) return missing_argument(pending_.back());
  pass(at_ + 1);
  awaits_operand_ = true;
  return std::nullopt;
}

Parser::Check Parser::close_bracket() {
  if (auto fault = reduce(0)) return fault;
  if (pending_.empty())
    return Fault{quoted(text_.substr(0, at_ + 1)) + ": ) closes nothing", "leave it out, or write ( before"};
  const Pending open = pending_.back();
  pending_.pop_back();
  if (open.code != Code::number) {
    if (open.commas != 1) return missing_argument(open);
    if (auto fault = apply(open)) return fault;
  }
  operands_.back().begin = open.begin;
  operands_.back().end = at_ + 1;
  pass(at_ + 1);
  return std::nullopt;
}

// Applies the operators that wait on top, down to the nearest open bracket, while they bind as strongly.
Parser::Check Parser::reduce(int least_binding) {
  while (!pending_.empty() && !pending_.back().opens() && binding(pending_.back().code) >= least_binding) {
    const Pending pending = pending_.back();
    pending_.pop_back();
    if (auto fault = apply(pending)) return fault;
  }
  return std::nullopt;
}

Parser::Check Parser::check_alike(const Pending &pending, const Operand &left, const Operand &right) const {
  if (pending.code == Code::divide && right.zero)
    return Fault{excerpt(text_.substr(left.begin, right.end - left.begin)) + " divides by 0",
                 "divide by something else"};
  if (pending.code == Code::multiply || pending.code == Code::divide || left.dimension == right.dimension)
    return std::nullopt;
  return unlike(text_, left, right, terms_.bare);
}

Parser::Check Parser::apply(const Pending &pending) {
  steps_.push_back({pending.code});
  Operand &last = operands_.back();
  if (pending.code == Code::negate) {
    last.begin = pending.begin;
    return std::nullopt;
  }
  const Operand right = last;
  operands_.pop_back();
  Operand &left = operands_.back();
  if (auto fault = check_alike(pending, left, right)) return fault;
  if (pending.code == Code::multiply) left.dimension += right.dimension;
  if (pending.code == Code::divide) left.dimension -= right.dimension;
  left.end = right.end;
  left.figure = false;
  left.zero = false;
  return std::nullopt;
}

Parser::Check Parser::finish() {
  if (text_.empty()) return Fault{"nothing is written here", "write a length such as 62 cm"};
  if (awaits_operand_)
    return Fault{quoted(text_) + ": nothing follows " + excerpt(text_.substr(last_begin_, last_end_ - last_begin_)),
                 "write a length behind it"};
  if (auto fault = reduce(0)) return fault;
  if (!pending_.empty())
    return Fault{quoted(text_.substr(pending_.back().begin)) + ": the bracket is not closed", "write ) at its end"};
  if (operands_.back().dimension != 1) return not_a_length(text_, operands_.back(), terms_.bare);
  return std::nullopt;
}

// What stands where a number, a name or a bracket should.
Parser::Check Parser::wrong_operand(const Character &sign) const {
  const std::string shown = excerpt(text_.substr(at_, sign.bytes));
  const std::string last = excerpt(text_.substr(last_begin_, last_end_ - last_begin_));
  const bool is_operator = operator_of(sign.code) != Code::number;
  if (!is_operator && sign.code != ')' && sign.code != ',') return stray_sign(text_, at_);
  if (last_sign() == '\0') return Fault{quoted(text_) + ": nothing stands before " + shown, "write a length before it"};
  if (is_operator && !at_head())
    return Fault{quoted(text_.substr(last_begin_, at_ + sign.bytes - last_begin_)) + ": two operators side by side",
                 sign.code == '-' ? "put what is negative in brackets" : "leave one out"};
  return Fault{quoted(text_.substr(last_begin_, at_ + sign.bytes - last_begin_)) + ": nothing stands between " + last +
                   " and " + shown,
               "write a length there, or leave them out"};
}

} // namespace

std::optional<Fault> too_many_brackets(std::string_view text) {
  int open = 0;
  int closed = 0;
  for (const char sign : text) {
    open += sign == '(' ? 1 : 0;
    closed += sign == ')' ? 1 : 0;
    if (open > most_brackets || closed > most_brackets)
      return Fault{quoted(text.substr(0, 20)) + " has more than 1000 brackets", "give parts of it names of their own"};
  }
  return std::nullopt;
}

bool is_reserved(std::string_view word) {
  return word == "min" || word == "max" || word == "pi" || unit_named(word).has_value();
}

Outcome<Formula> parse_expression(std::string_view text, const Terms &terms) {
  if (auto fault = too_many_brackets(text)) return *fault;
  return Parser(text, terms).parse();
}

} // namespace gatherwright::formula

namespace gatherwright {

using namespace quantity;

Outcome<Formula> parse_formula(std::string_view text, Unit bare, const NameIndex &find,
                               std::span<const std::string> known) {
  if (!is_utf8(text)) return Fault{std::string(not_text), std::string(save_as_text)};
  text = trimmed(text);
  if (!begins_name(character_at(text, 0).code)) {
    if (const Outcome<Length> length = read_length(text, bare)) return Formula::of(*length, std::string(text));
    if (auto fault = negative(text, bare)) return *fault;
    if (auto dashed = hyphenated(text, 0); dashed && past_spaces(text, dashed->end) == text.size())
      return dashed->fault;
  }
  return formula::parse_expression(text, {bare, find, known});
}

} // namespace gatherwright
