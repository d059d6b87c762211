// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <utility>

namespace gatherwright {

/// A text that many things bear and nothing alters, as the name of the cloth that they are all of: copies share it, so
/// that it is held once. Threads may share it too.
class SharedText {
public:
  SharedText() = default;
  SharedText(std::string text);
  SharedText(std::string_view text) : SharedText(std::string(text)) {}
  SharedText(const char *text) : SharedText(std::string(text)) {}

  operator std::string_view() const { return held_ ? std::string_view(held_->text) : std::string_view(); }
  bool empty() const { return std::string_view(*this).empty(); }

  /// Equal texts have equal ones. It is reckoned once for all that share the text.
  std::size_t hash() const { return held_ ? held_->hash : std::hash<std::string_view>{}({}); }

  /// Whether the two are one text, which takes no look at it.
  bool is(const SharedText &other) const { return held_ == other.held_; }

  ///   1. Two are equal where their texts are, whether they share one or not.
  friend bool operator==(const SharedText &a, const SharedText &b);

private:
  struct Held {
    std::string text;
    std::size_t hash;
  };
  std::shared_ptr<const Held> held_; ///< nothing: it is empty
};

inline SharedText::SharedText(std::string text) {
  if (text.empty()) return;
  const std::size_t hash = std::hash<std::string>{}(text);
  held_ = std::make_shared<const Held>(Held{std::move(text), hash});
}

inline bool operator==(const SharedText &a, const SharedText &b) {
  return a.is(b) || (a.hash() == b.hash() && std::string_view(a) == std::string_view(b));
}

} // namespace gatherwright

template <> struct std::hash<gatherwright::SharedText> {
  std::size_t operator()(const gatherwright::SharedText &text) const { return text.hash(); }
};
