// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json.hpp>

#include <cstdint>
#include <map>
#include <random>
#include <string>
#include <vector>

namespace gatherwright::tests {

using Json = nlohmann::ordered_json;

inline Json values_of(std::string_view text) {
  return Json::parse(text, nullptr, true, true);
}

/// Where a member stands in a text, as whoever wrote it knows.
struct Stands {
  std::size_t key = 0;
  std::size_t begin = 0;
  std::size_t end = 0;
  std::size_t room_begin = 0; ///< past the value before it, or the bracket that opens
  std::size_t room_end = 0;   ///< where the next key or value begins, or the bracket that closes
};

/// Writes a value with comments, blanks and line ends between any two tokens.
class OddText {
public:
  OddText(std::uint64_t seed, const Json &value) : random_(seed) {
    text_ += gap();
    write(value, "");
    text_ += gap();
  }

  const std::string &text() const { return text_; }
  const std::map<std::string, Stands> &stands() const { return stands_; }

private:
  std::size_t below(std::size_t count) { return random_() % count; }

  std::string gap() {
    static const std::vector<std::string> gaps{"",       "",         " ",          " ",      "\n",        "\r\n",
                                               "  \n  ", "\t",       "\r",         "\n\n ",  "// r, }\n", "/* \" ] */",
                                               " /**/",  "// r\r\n", "/* a\n\n*/", " // r\r"};
    std::string made;
    for (std::size_t i = below(4); i > 0; --i)
      made += gaps[below(gaps.size())];
    return made;
  }

  void write(const Json &value, const std::string &pointer) {
    Stands &own = stands_[pointer];
    own.begin = text_.size();
    if (!value.is_structured()) {
      text_ += value.dump();
      stands_[pointer].end = text_.size();
      return;
    }
    text_ += value.is_object() ? '{' : '[';
    std::size_t before = text_.size();
    std::string last;
    for (auto each = value.begin(); each != value.end(); ++each) {
      text_ += gap();
      const std::string step =
          value.is_object() ? each.key() : std::to_string(static_cast<std::size_t>(std::distance(value.begin(), each)));
      const std::string at = pointer + "/" + step;
      if (!last.empty()) {
        text_ += "," + gap();
        stands_[last].room_end = text_.size();
      }
      stands_[at].key = text_.size();
      stands_[at].room_begin = before;
      if (value.is_object()) text_ += Json(step).dump() + gap() + ":" + gap();
      write(*each, at);
      before = text_.size();
      last = at;
    }
    text_ += gap();
    if (!last.empty()) stands_[last].room_end = text_.size();
    text_ += value.is_object() ? '}' : ']';
    stands_[pointer].end = text_.size();
  }

  std::mt19937_64 random_;
  std::string text_;
  std::map<std::string, Stands> stands_;
};

/// Writes a value as people do, each member of the first levels on a line of its own, with numbered remarks of which it
/// keeps to which member they belong.
class TidyText {
public:
  TidyText(std::uint64_t seed, const Json &value, std::string line_end)
      : random_(seed), line_end_(std::move(line_end)) {
    text_ += remark_line("") + line_end_;
    write(value, "", "");
    text_ += line_end_;
  }

  const std::string &text() const { return text_; }

  struct Remark {
    std::string of; ///< the pointer of what it belongs to; empty where it belongs to nothing
    std::string in; ///< that of what it stands in, or belongs to
  };
  const std::vector<Remark> &remarks() const { return remarks_; } ///< by number

private:
  bool chance(int in) { return random_() % static_cast<std::uint64_t>(in) == 0; }

  std::string number(const std::string &of, const std::string &in) {
    remarks_.push_back({of, in});
    return "#" + std::to_string(remarks_.size() - 1) + "#";
  }

  std::string remark_line(const std::string &of) { return remark_line(of, of); }
  std::string remark_line(const std::string &of, const std::string &in) {
    const std::string own = number(of, in);
    return chance(3) ? "/* " + own + " */" : "// " + own;
  }

  void write(const Json &value, const std::string &pointer, const std::string &indentation) {
    if (!value.is_structured() || value.empty() || indentation.size() > 4) {
      write_on_one_line(value);
      return;
    }
    const std::string inner = indentation + "  ";
    text_ += value.is_object() ? "{" : "[";
    if (chance(4) && !pointer.empty()) text_ += " " + remark_line(pointer);
    text_ += line_end_;
    std::size_t place = 0;
    for (auto each = value.begin(); each != value.end(); ++each, ++place) {
      const std::string at = pointer + "/" + (value.is_object() ? each.key() : std::to_string(place));
      if (chance(5)) text_ += inner + remark_line("", pointer) + line_end_ + line_end_;
      if (chance(5)) text_ += line_end_;
      for (int lines = chance(3) ? 2 : chance(3) ? 1 : 0; lines > 0; --lines)
        text_ += inner + remark_line(at) + line_end_;
      text_ += inner;
      if (value.is_object()) text_ += Json(each.key()).dump() + ": ";
      write(*each, at, inner);
      const bool last = place + 1 == value.size();
      if (chance(6)) text_ += " /* " + number(at, at) + " */";
      if (!last) text_ += ",";
      if (chance(3)) text_ += " " + remark_line(at);
      text_ += line_end_;
    }
    if (chance(6)) text_ += inner + remark_line("", pointer) + line_end_;
    text_ += indentation + (value.is_object() ? "}" : "]");
  }

  void write_on_one_line(const Json &value) {
    if (!value.is_structured() || value.empty()) {
      text_ += value.dump();
      return;
    }
    text_ += value.is_object() ? "{ " : "[";
    for (auto each = value.begin(); each != value.end(); ++each) {
      if (each != value.begin()) text_ += ", ";
      if (value.is_object()) text_ += Json(each.key()).dump() + ": ";
      write_on_one_line(*each);
    }
    text_ += value.is_object() ? " }" : "]";
  }

  std::mt19937_64 random_;
  std::string line_end_;
  std::string text_;
  std::vector<Remark> remarks_;
};

/// The pointers of all that stands in a value, itself included.
inline std::vector<std::string> pointers_in(const Json &value, const std::string &pointer = "") {
  std::vector<std::string> all{pointer};
  if (!value.is_structured()) return all;
  for (auto each = value.begin(); each != value.end(); ++each) {
    const std::string step =
        value.is_object() ? each.key() : std::to_string(static_cast<std::size_t>(std::distance(value.begin(), each)));
    const auto inner = pointers_in(*each, pointer + "/" + step);
    all.insert(all.end(), inner.begin(), inner.end());
  }
  return all;
}

} // namespace gatherwright::tests
