// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/fault_list.hpp"
#include "gatherwright/bounds.hpp"

#include <deque>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace gatherwright::cli {

/// One value of a JSON text and where it stands. The views point into the text read or into the document.
struct Value {
  enum class Kind : unsigned char { null, boolean, number, text, list, object };

  Kind kind = Kind::null;
  bool truth = false;    ///< of a boolean
  bool repeated = false; ///< its key came before in the same object
  int line = 0;          ///< where it begins, from 1
  int key_line = 0;
  int parent = -1; ///< index of what it stands in; -1 for the outermost
  int place = 0;   ///< among the children of its parent, from 0
  int end = 0;     ///< index one past the last value inside it
  std::string_view key;
  std::string_view text; ///< a text, its escapes resolved; a number as written
};

/// The values of a JSON text in the order in which they stand: a value, then what is inside it.
class Document {
public:
  /// The direct children of a value, in order.
  class Children {
  public:
    class Step {
    public:
      Step(const Value *all, int at) : all_(all), at_(at) {}
      const Value &operator*() const { return all_[at_]; }
      Step &operator++() {
        at_ = all_[at_].end;
        return *this;
      }
      bool operator!=(const Step &other) const { return at_ != other.at_; }

    private:
      const Value *all_;
      int at_;
    };

    Children(const Value *all, int first, int end) : all_(all), first_(first), end_(end) {}
    Step begin() const { return {all_, first_}; }
    Step end() const { return {all_, end_}; }
    bool empty() const { return first_ == end_; }

  private:
    const Value *all_;
    int first_;
    int end_;
  };

  Document() = default;
  Document(Document &&) = default;
  Document &operator=(Document &&) = default;
  Document(const Document &) = delete; // its views point into itself
  Document &operator=(const Document &) = delete;
  ~Document() = default;

  const Value &root() const { return values_.front(); }
  Children children(const Value &value) const { return {values_.data(), index(value) + 1, value.end}; }

  /// The value of a key, if the value is an object that has it.
  const Value *child(const Value &object, std::string_view key) const;

  /// How many values stand directly in a list or an object.
  int count(const Value &value) const;

  /// RFC 6901: "/joins/0/long", with "~" and "/" within a key as "~0" and "~1".
  std::string pointer(const Value &value) const;

private:
  friend class DocumentBuilder;

  void append_pointer(std::string &pointer, const Value &value) const;
  int index(const Value &value) const { return static_cast<int>(&value - values_.data()); }

  std::vector<Value> values_;
  std::deque<std::string> decoded_; ///< texts that had escapes
};

/// Adds one more step to a pointer.
void append_step(std::string &pointer, std::string_view key);

/// Deeper nesting than this is refused, and so are longer texts and more values.
constexpr int deepest_level = 100;
constexpr int most_values = bounds::most_things;
constexpr std::size_t longest_text = bounds::most_text; // bytes

/// Reads JSON with // and /* */ comments; a byte order mark at its start is passed over. Nothing where the text cannot
/// be read to its end: then the last of the faults says why. A key that comes twice is a fault at its second place. The
/// text must live as long as the document.
std::optional<Document> read_document(std::string_view text, FaultList &faults);

} // namespace gatherwright::cli
