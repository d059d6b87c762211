// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json.hpp>

#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

/// What a request has in its body.
namespace gatherwright::page {

/// A body that is no JSON, or not what is asked for: it was not written by the page.
struct BadBody : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// A JSON object and its members. What is missing or of another kind than asked for throws BadBody.
class Body {
public:
  /// Throws BadBody where the text is no JSON object.
  explicit Body(std::string_view text);

  const std::string &text(const char *key) const;
  /// None where it is missing or null.
  std::optional<std::string> text_if_any(const char *key) const;
  /// The member itself; nullptr where it is missing.
  const nlohmann::ordered_json *member(const char *key) const;

private:
  nlohmann::ordered_json members_;
};

} // namespace gatherwright::page
