// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/document.hpp"

#include "cli/job/syntax.hpp"
#include "cli/words/quoted.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstring>
#include <iterator>
#include <unordered_set>

namespace gatherwright::cli {

namespace {

/// Where the lexer is, shared by all copies of its iterator, so that every value's place is known when it is reported.
struct Cursor {
  const char *begin;
  const char *at;
  const char *end;
};

class CursorIterator {
public:
  using iterator_category = std::input_iterator_tag;
  using value_type = char;
  using difference_type = std::ptrdiff_t;
  using pointer = const char *;
  using reference = const char &;

  explicit CursorIterator(Cursor &cursor) : cursor_(&cursor) {}
  reference operator*() const { return *cursor_->at; }
  CursorIterator &operator++() {
    ++cursor_->at;
    return *this;
  }
  /// The only other iterator it is ever compared with is the end.
  friend bool operator==(const CursorIterator &it, const CursorIterator &) { return it.cursor_->at == it.cursor_->end; }

private:
  Cursor *cursor_;
};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_of_number(char c) {
  return is_digit(c) || c == '-' || c == '+' || c == '.' || c == 'e' || c == 'E';
}

} // namespace

/// Takes the events of nlohmann's parser and lays the values down.
class DocumentBuilder {
public:
  DocumentBuilder(Document &document, Cursor &cursor, FaultList &faults)
      : document_(document), values_(document.values_), cursor_(cursor), faults_(faults), counted_to_(cursor.begin) {
    values_.reserve(static_cast<std::size_t>(cursor.end - cursor.begin) / 24 + 16);
  }

  bool null() { return add(Value::Kind::null); }
  bool boolean(bool truth) {
    const bool going_on = add(Value::Kind::boolean);
    values_.back().truth = truth;
    return going_on;
  }
  bool number_integer(std::int64_t) { return number(); }
  bool number_unsigned(std::uint64_t) { return number(); }
  bool number_float(double, const std::string &) { return number(); }
  bool string(std::string &text) {
    const bool going_on = add(Value::Kind::text);
    values_.back().text = kept(text);
    return going_on;
  }
  bool binary(nlohmann::json::binary_t &) { return false; } // not of JSON texts
  bool start_object(std::size_t) { return open(Value::Kind::object); }
  bool start_array(std::size_t) { return open(Value::Kind::list); }
  bool key(std::string &text) {
    key_line_ = line();
    key_ = kept(text);
    after(Halt::After::key);
    return true;
  }
  bool end_object() {
    const int closed = open_;
    const int count = places_.back();
    close();
    mark_repeated_keys(values_[closed], count);
    return true;
  }
  bool end_array() { return close(); }

  bool parse_error(std::size_t, const std::string &, const nlohmann::json::exception &error) {
    constexpr int number_too_large = 406; // as nlohmann_json numbers it
    if (error.id == number_too_large) {
      number();
      faults_.add({values_.back().line,
                   document_.pointer(values_.back()),
                   {quoted(values_.back().text) + " is too large a number", "write one with fewer digits"}});
    } else {
      halt_.in_object = open_ >= 0 && values_[open_].kind == Value::Kind::object;
      halt_.opened = open_ >= 0 ? values_[open_].line : 0;
      faults_.add(syntax_fault({cursor_.begin, cursor_.end}, halt_));
    }
    return false;
  }

private:
  /// The line of what was just read. A number may end one byte before the cursor: it is passed its own end.
  int line() { return line_up_to(cursor_.at); }
  int line_up_to(const char *to) {
    line_ += static_cast<int>(std::count(counted_to_, std::max(counted_to_, to), '\n'));
    counted_to_ = std::max(counted_to_, to);
    return line_;
  }

  bool add(Value::Kind kind) {
    Value &value = values_.emplace_back();
    value.kind = kind;
    value.line = line();
    value.key_line = key_line_;
    value.parent = open_;
    value.place = open_ < 0 ? 0 : places_.back()++;
    value.end = static_cast<int>(values_.size());
    value.key = std::exchange(key_, {});
    after(Halt::After::value, kind);
    if (static_cast<int>(values_.size()) <= most_values) return true;
    faults_.add({value.line, "", {"the file has more than 1,000,000 values", "a job has a few hundred"}});
    return false;
  }

  /// Numbers keep their text as written; nlohmann's lexer looks one byte beyond it, unless it ends the file.
  bool number() {
    const char *end = cursor_.at;
    if (!is_digit(end[-1])) --end;
    const char *begin = end;
    while (begin != cursor_.begin && is_of_number(begin[-1]))
      --begin;
    const int number_line = line_up_to(end);
    const bool going_on = add(Value::Kind::number);
    values_.back().line = number_line;
    values_.back().text = {begin, end};
    halt_.offset = static_cast<std::size_t>(end - cursor_.begin);
    halt_.value_text = values_.back().text;
    return going_on;
  }

  bool open(Value::Kind kind) {
    if (!add(kind)) return false;
    open_ = static_cast<int>(values_.size()) - 1;
    places_.push_back(0);
    after(Halt::After::opening);
    if (places_.size() <= deepest_level) return true;
    faults_.add({values_.back().line, "", {"brackets are nested more than 100 deep", "a job needs no more than 10"}});
    return false;
  }

  bool close() {
    Value &closed = values_[open_];
    closed.end = static_cast<int>(values_.size());
    open_ = closed.parent;
    places_.pop_back();
    after(Halt::After::value, closed.kind);
    return true;
  }

  void after(Halt::After what, Value::Kind kind = Value::Kind::null) {
    halt_.after = what == Halt::After::value && open_ < 0 ? Halt::After::everything : what;
    halt_.offset = static_cast<std::size_t>(cursor_.at - cursor_.begin);
    halt_.value = kind;
  }

  /// The text where it stands in the file if it stands there without escapes, else a copy of it.
  std::string_view kept(std::string &text) {
    const char *start = cursor_.at - 1 - text.size(); // its closing quote has just been read; escapes only shorten it
    const bool as_written = std::memcmp(start, text.data(), text.size()) == 0;
    std::string_view result(start, text.size());
    if (!as_written) result = document_.decoded_.emplace_back(std::move(text));
    halt_.value_text = result;
    return result;
  }

  /// Few keys are compared each with each, many through a table, so that a file of a million keys does not hold things
  /// up.
  void mark_repeated_keys(const Value &object, int count) {
    if (count < 2) return;
    constexpr int few = 16;
    std::unordered_set<std::string_view> seen;
    for (const Value &child : document_.children(object)) {
      const bool again = count > few ? !seen.insert(child.key).second : came_before(object, child);
      if (again) mark_repeated(values_[static_cast<std::size_t>(&child - values_.data())]);
    }
  }

  bool came_before(const Value &object, const Value &child) const {
    for (const Value &earlier : document_.children(object)) {
      if (&earlier == &child) return false;
      if (earlier.key == child.key) return true;
    }
    return false;
  }

  void mark_repeated(Value &child) {
    child.repeated = true;
    if (faults_.full()) return;
    faults_.add({child.key_line,
                 document_.pointer(child),
                 {quoted(child.key) + " stands here a second time", "keep one of the two"}});
  }

  Document &document_;
  std::vector<Value> &values_;
  Cursor &cursor_;
  FaultList &faults_;
  Halt halt_;
  int open_ = -1;           // the innermost list or object that is still open
  std::vector<int> places_; // of each open one, how many children it has so far
  std::string_view key_;
  int key_line_ = 0;
  int line_ = 1;
  const char *counted_to_;
};

const Value *Document::child(const Value &object, std::string_view key) const {
  if (object.kind != Value::Kind::object) return nullptr;
  for (const Value &child : children(object))
    if (child.key == key) return &child;
  return nullptr;
}

int Document::count(const Value &value) const {
  int result = 0;
  for (const Value &child : children(value)) {
    static_cast<void>(child);
    ++result;
  }
  return result;
}

void append_step(std::string &pointer, std::string_view key) {
  constexpr std::size_t longest = 1000; // bytes: a name of megabytes, in each of a thousand faults, is gigabytes
  std::string_view shown = clipped(key, longest);
  const bool is_whole = shown.size() == key.size();
  pointer += '/';
  while (!shown.empty()) {
    const std::size_t plain = std::min(shown.find_first_of("~/"), shown.size());
    pointer += shown.substr(0, plain);
    if (plain < shown.size()) pointer += shown[plain] == '~' ? "~0" : "~1";
    shown.remove_prefix(std::min(plain + 1, shown.size()));
  }
  if (!is_whole) pointer += "…";
}

std::string Document::pointer(const Value &value) const {
  constexpr std::size_t usual = 63; // bytes: taken at once
  std::string pointer;
  pointer.reserve(usual);
  append_pointer(pointer, value);
  return pointer;
}

void Document::append_pointer(std::string &pointer, const Value &value) const {
  if (value.parent < 0) return;
  const Value &parent = values_[static_cast<std::size_t>(value.parent)];
  append_pointer(pointer, parent);
  if (parent.kind == Value::Kind::object)
    append_step(pointer, value.key);
  else
    (pointer += '/') += std::to_string(value.place);
}

std::optional<Document> read_document(std::string_view text, FaultList &faults) {
  if (text.size() > longest_text) {
    faults.add({1, "", {"the file is longer than 10 MB", "a job is a few kilobytes"}});
    return std::nullopt;
  }
  if (const std::size_t bad = first_bad_byte(text); bad < text.size()) {
    faults.add({line_at(text, bad), "",
                text[bad] == '\0' ? Fault{"there is a NUL byte here", "save the file as plain text (UTF-8)"}
                                  : Fault{"this is not UTF-8", "save the file as plain text in the encoding UTF-8"}});
    return std::nullopt;
  }
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());

  Document document;
  Cursor cursor{text.data(), text.data(), text.data() + text.size()};
  DocumentBuilder builder(document, cursor, faults);
  const CursorIterator first(cursor);
  if (!nlohmann::json::sax_parse(first, first, &builder, nlohmann::json::input_format_t::json, true, true))
    return std::nullopt;
  return document;
}

} // namespace gatherwright::cli
