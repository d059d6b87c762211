// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/path.hpp"

#include "gatherwright/text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <utility>

namespace gatherwright::edge {

namespace {

constexpr std::array<std::string_view, 2> plain_names{"x", "y"};
constexpr std::string_view a_number = "write a number, such as 40 or -2.5";

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

bool is_space(char c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\f' || c == '\r';
}

char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// The power of ten just above a number written without its sign: below 0 where it is under 0.1. Saturates.
long power_of_ten(std::string_view digits) {
  const std::size_t end = std::min(digits.find_first_of("eE"), digits.size());
  const std::size_t point = std::min(digits.find('.'), end);
  const std::size_t first = digits.substr(0, end).find_first_of("123456789");
  if (first == std::string_view::npos) return std::numeric_limits<long>::min();
  long power = static_cast<long>(point) - static_cast<long>(first) + (first > point ? 1 : 0);
  if (end == digits.size()) return power;
  std::string_view exponent = digits.substr(end + 1);
  if (exponent.front() == '+') exponent.remove_prefix(1);
  long shift = 0;
  const auto read = std::from_chars(exponent.data(), exponent.data() + exponent.size(), shift);
  constexpr long far = 1'000'000'000;
  if (read.ec != std::errc{}) shift = exponent.front() == '-' ? -far : far;
  return power + std::clamp(shift, -far, far);
}

class PathReader {
public:
  explicit PathReader(std::string_view text) : text_(text) {}

  PathOutcome read();

private:
  // Scanning. Each returns false, or nothing, once a fault is noted.
  void skip_space();
  bool at_end() const { return at_ == text_.size(); }
  bool at_number() const;
  std::optional<double> number(std::string_view name);
  std::optional<bool> flag(std::string_view name);
  bool between(); ///< spaces and at most one comma; true where a comma was among them
  bool numbers(std::span<double> into, std::span<const std::string_view> names);

  // One command with all its repeats.
  bool command(char letter);
  bool arguments(char letter, bool relative);
  bool point_arguments(char letter, bool relative);
  bool arc_arguments(bool relative);
  bool one_coordinate(char letter, bool relative);
  bool move(bool relative);

  // Drawing.
  bool line(Point to);
  bool cubic(Point control, Point second_control, Point to);
  bool arc(double radius_x, double radius_y, double rotation, bool large, bool clockwise, Point to);
  bool close();
  void drop_last_line();
  bool may_draw();
  bool within(Point point);
  bool in_limits(double value);

  std::string found() const;
  bool refuse(std::size_t offset, std::string what, std::string instead);
  bool expected(std::string_view what, std::string_view name, std::string_view instead);

  std::string_view text_;
  std::size_t at_ = 0;
  std::size_t command_at_ = 0;
  std::size_t number_at_ = 0;
  char letter_ = 0;   ///< the command being read
  char previous_ = 0; ///< the one before, in lower case
  Point here_;
  Point start_;           ///< of the run being drawn
  Point control_;         ///< the last control of a C, S, Q or T
  double largest_ = 0;    ///< of the coordinates so far
  bool finished_ = false; ///< the run drawn has been left by a moveto or closed
  Curve curve_;
  std::optional<PathFault> fault_;
};

bool PathReader::refuse(std::size_t offset, std::string what, std::string instead) {
  if (!fault_) {
    fault_ = PathFault{
        offset, {"the path goes wrong at byte " + std::to_string(offset) + ": " + std::move(what), std::move(instead)}};
  }
  return false;
}

/// The character that stands at the reader, in quotes.
std::string PathReader::found() const {
  if (at_end()) return "it ends";
  const Character character = character_at(text_, at_);
  const bool is_control = character.code < 0x20 || (character.code >= 0x7F && character.code < 0xA0);
  if (character.valid && !is_control) return '"' + std::string(text_.substr(at_, character.bytes)) + '"';
  const auto lead = static_cast<unsigned char>(text_[at_]);
  constexpr std::string_view hex = "0123456789ABCDEF";
  return std::string("byte 0x") + hex[lead >> 4] + hex[lead & 15];
}

bool PathReader::expected(std::string_view what, std::string_view name, std::string_view instead) {
  std::string sentence = found() + " where " + std::string(what) + " is expected";
  if (!name.empty()) sentence += ", the " + std::string(name) + " of " + letter_;
  return refuse(at_, std::move(sentence), std::string(instead));
}

void PathReader::skip_space() {
  while (!at_end() && is_space(text_[at_]))
    ++at_;
}

bool PathReader::between() {
  skip_space();
  if (at_end() || text_[at_] != ',') return false;
  ++at_;
  skip_space();
  return true;
}

bool PathReader::at_number() const {
  return !at_end() && (is_digit(text_[at_]) || text_[at_] == '.' || text_[at_] == '+' || text_[at_] == '-');
}

std::optional<double> PathReader::number(std::string_view name) {
  number_at_ = at_;
  if (!at_number()) {
    expected("a number", name, a_number);
    return std::nullopt;
  }
  const bool negative = text_[at_] == '-';
  if (text_[at_] == '-' || text_[at_] == '+') ++at_;
  const std::size_t begin = at_;
  const auto digits = [&] {
    const std::size_t from = at_;
    while (!at_end() && is_digit(text_[at_]))
      ++at_;
    return at_ > from;
  };
  const bool whole = digits();
  if (!at_end() && text_[at_] == '.') {
    ++at_;
    if (!digits()) {
      expected("a digit after the point", name, "write 3 or 3.0 for 3.");
      return std::nullopt;
    }
  } else if (!whole) {
    expected("a number", name, a_number);
    return std::nullopt;
  }
  if (!at_end() && lower(text_[at_]) == 'e') {
    const std::size_t mantissa_end = at_;
    ++at_;
    if (!at_end() && (text_[at_] == '-' || text_[at_] == '+')) ++at_;
    if (!digits()) at_ = mantissa_end; // no exponent after all: the e is what stands next
  }
  double value = 0;
  const auto read = std::from_chars(text_.data() + begin, text_.data() + at_, value);
  if (read.ec == std::errc::result_out_of_range) {
    value = power_of_ten(text_.substr(begin, at_ - begin)) > 0 ? std::numeric_limits<double>::infinity() : 0;
  }
  if (value < nearest) value = 0;
  return negative ? -value : value;
}

std::optional<bool> PathReader::flag(std::string_view name) {
  if (at_end() || (text_[at_] != '0' && text_[at_] != '1')) {
    expected("a flag", name, "write 0 or 1");
    return std::nullopt;
  }
  return text_[at_++] == '1';
}

bool PathReader::numbers(std::span<double> into, std::span<const std::string_view> names) {
  for (std::size_t i = 0; i < into.size(); ++i) {
    if (i > 0) between();
    const std::optional<double> value = number(names[i]);
    if (!value) return false;
    if (!in_limits(*value)) return false;
    into[i] = *value;
  }
  return true;
}

bool PathReader::in_limits(double value) {
  if (std::abs(value) <= farthest) return true;
  return refuse(number_at_, "a number is beyond 10,000,000", "draw it smaller, or in a larger unit");
}

bool PathReader::within(Point point) {
  const double reach = std::max(std::abs(point.x), std::abs(point.y));
  if (!(reach <= farthest))
    return refuse(command_at_, "it runs beyond 10,000,000 from the origin", "draw it smaller, or in a larger unit");
  largest_ = std::max(largest_, reach);
  return true;
}

bool PathReader::may_draw() {
  if (finished_ && !curve_.pieces.empty()) {
    return refuse(command_at_, "a second line begins where the first has ended",
                  "one edge, drawn as one line without a break");
  }
  if (curve_.pieces.size() >= most_pieces) {
    return refuse(command_at_, "it has more than 1,000,000 pieces", "draw it with fewer");
  }
  if (curve_.pieces.empty()) curve_.points.assign(1, here_);
  finished_ = false;
  return true;
}

bool PathReader::line(Point to) {
  if (!within(to)) return false;
  if (!(to == here_)) {
    if (!may_draw()) return false;
    add_line(curve_, to);
  }
  here_ = to;
  return true;
}

bool PathReader::cubic(Point control, Point second_control, Point to) {
  if (!within(control) || !within(second_control) || !within(to)) return false;
  if (!(control == here_ && second_control == here_ && to == here_)) {
    if (!may_draw()) return false;
    add_cubic(curve_, control, second_control, to);
  }
  here_ = to;
  return true;
}

bool PathReader::arc(double radius_x, double radius_y, double rotation, bool large, bool clockwise, Point to) {
  if (radius_x == 0 || radius_y == 0 || to == here_) return line(to);
  if (!within(to) || !may_draw()) return false;
  const std::optional<EllipticArc> arc = arc_between(here_, to, radius_x, radius_y, rotation, large, clockwise);
  const double reach = arc ? std::max(norm(arc->major), norm(arc->minor)) : std::numeric_limits<double>::infinity();
  if (!(reach <= farthest))
    return refuse(command_at_, "the arc's radius comes out beyond 10,000,000", "a line, or radii nearer to each other");
  add_arc(curve_, *arc, to);
  here_ = to;
  return true;
}

bool PathReader::close() {
  // Relative commands come back to the start only within rounding, half a unit in the last place for each: a stitch
  // that small would be drawn in a direction that means nothing.
  const double rounding =
      static_cast<double>(curve_.pieces.size() + 4) * std::numeric_limits<double>::epsilon() * largest_;
  if (!curve_.pieces.empty() && !finished_ && norm(start_ - here_) <= rounding) {
    curve_.points.back() = start_;
    const Piece &last = curve_.pieces.back();
    if (last.form == Piece::Form::line && curve_.points[last.point] == start_) drop_last_line();
  } else if (!line(start_)) {
    return false;
  }
  if (!curve_.pieces.empty() && !finished_) curve_.closed = true;
  here_ = start_;
  finished_ = true;
  return true;
}

bool PathReader::move(bool relative) {
  std::array<double, 2> xy{};
  if (!numbers(xy, plain_names)) return false;
  here_ = Point{xy[0], xy[1]} + (relative ? here_ : Point{});
  start_ = here_;
  finished_ = true;
  return within(here_);
}

bool PathReader::one_coordinate(char letter, bool relative) {
  const std::optional<double> value = number(letter == 'h' ? "x" : "y");
  if (!value || !in_limits(*value)) return false;
  Point to = here_;
  double &coordinate = letter == 'h' ? to.x : to.y;
  coordinate = relative ? coordinate + *value : *value;
  return line(to);
}

bool PathReader::arc_arguments(bool relative) {
  constexpr std::array<std::string_view, 5> names{"first radius", "second radius", "rotation", "x", "y"};
  std::array<double, 5> value{};
  const std::span<double> all(value);
  const std::span<const std::string_view> all_names(names);
  if (!numbers(all.first(3), all_names.first(3))) return false;
  between();
  const std::optional<bool> large = flag("first flag");
  if (!large) return false;
  between();
  const std::optional<bool> clockwise = flag("second flag");
  if (!clockwise) return false;
  between();
  if (!numbers(all.last(2), all_names.last(2))) return false;
  const Point to = Point{value[3], value[4]} + (relative ? here_ : Point{});
  return arc(value[0], value[1], value[2], *large, *clockwise, to);
}

bool PathReader::point_arguments(char letter, bool relative) {
  constexpr std::array<std::string_view, 6> names{"first x", "first y", "second x", "second y", "last x", "last y"};
  const std::size_t points = letter == 'c' ? 3 : letter == 's' || letter == 'q' ? 2 : 1;
  std::array<double, 6> xy{};
  if (!numbers(std::span(xy).first(2 * points),
               points == 1 ? std::span(plain_names) : std::span(names).last(2 * points))) {
    return false;
  }
  const Point origin = relative ? here_ : Point{};
  const auto point = [&](std::size_t i) { return origin + Point{xy[2 * i], xy[2 * i + 1]}; };
  const Point from = here_;
  const auto mirrored = [&](char one, char other) {
    return previous_ == one || previous_ == other ? from + (from - control_) : from;
  };
  // Raised to a cubic from each end, so that a control on an end stays exactly there.
  const auto quadratic = [&](Point control, Point to) {
    control_ = control;
    return within(control) && cubic(from + (2.0 / 3) * (control - from), to + (2.0 / 3) * (control - to), to);
  };
  switch (letter) {
  case 'c':
    control_ = point(1);
    return cubic(point(0), point(1), point(2));
  case 's': {
    const Point control = mirrored('c', 's');
    control_ = point(0);
    return cubic(control, point(0), point(1));
  }
  case 'q':
    return quadratic(point(0), point(1));
  case 't':
    return quadratic(mirrored('q', 't'), point(0));
  default:
    return line(point(0));
  }
}

bool PathReader::arguments(char letter, bool relative) {
  switch (letter) {
  case 'a':
    return arc_arguments(relative);
  case 'h':
  case 'v':
    return one_coordinate(letter, relative);
  default:
    return point_arguments(letter, relative);
  }
}

bool PathReader::command(char letter) {
  const bool relative = letter_ == letter;
  if (letter == 'z') {
    if (!close()) return false;
    previous_ = letter;
    skip_space();
    return true;
  }
  skip_space();
  if (letter == 'm') {
    if (!move(relative)) return false;
    previous_ = letter;
    letter = 'l'; // what follows without a letter is drawn to
  } else {
    if (!arguments(letter, relative)) return false;
    previous_ = letter;
  }
  while (true) {
    const bool comma = between();
    if (!comma && !at_number()) return true;
    if (!arguments(letter, relative)) return false;
    previous_ = letter;
  }
}

void PathReader::drop_last_line() {
  curve_.pieces.pop_back();
  curve_.points.pop_back();
}

PathOutcome PathReader::read() {
  skip_space();
  if (at_end()) return PathFault{at_, {"the path is empty", "path data, such as M 0 0 L 100 0"}};
  // A point takes some ten characters to write; growing by doubling would touch twice the memory.
  curve_.points.reserve(text_.size() / 8 + 1);
  curve_.pieces.reserve(std::min(text_.size() / 16 + 1, most_pieces));
  while (!at_end() && !fault_) {
    const char letter = lower(text_[at_]);
    constexpr std::string_view commands = "mlhvcsqtaz";
    const bool known = commands.find(letter) != std::string_view::npos;
    if (previous_ == 0 && letter != 'm') {
      letter_ = 0;
      expected("M", {}, "a path begins with M and the point it starts from: M 0 0");
    } else if (!known) {
      letter_ = 0;
      expected("a command", {}, "the commands are M L H V C S Q T A Z");
    } else {
      letter_ = text_[at_];
      command_at_ = at_++;
      command(letter);
    }
  }
  if (fault_) return *std::move(fault_);
  if (curve_.pieces.empty()) return PathFault{at_, {"the path draws nothing", "a line or a curve with some length"}};
  return std::move(curve_);
}

} // namespace

PathOutcome read_path(std::string_view text) {
  return PathReader(text).read();
}

} // namespace gatherwright::edge
