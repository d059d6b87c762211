// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/body.hpp"

namespace gatherwright::page {

namespace {

using Json = nlohmann::ordered_json;

constexpr int deepest = 200; ///< a value deeper than a job may be is refused before anything walks through it

/// Whether what is open at once never goes too deep; of what is no JSON the reader has the last word.
bool is_shallow(std::string_view text) {
  int depth = 0;
  bool within_text = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (within_text) {
      if (c == '\\')
        ++i;
      else if (c == '"')
        within_text = false;
    } else if (c == '"') {
      within_text = true;
    } else if (c == '{' || c == '[') {
      if (++depth > deepest) return false;
    } else if (c == '}' || c == ']') {
      --depth;
    }
  }
  return true;
}

} // namespace

Body::Body(std::string_view text) {
  if (!is_shallow(text)) throw BadBody("the body goes too deep");
  members_ = Json::parse(text, nullptr, false);
  if (!members_.is_object()) throw BadBody("the body is no JSON object");
}

const Json *Body::member(const char *key) const {
  const auto found = members_.find(key);
  return found == members_.end() ? nullptr : &*found;
}

const std::string &Body::text(const char *key) const {
  const Json *const value = member(key);
  if (value == nullptr || !value->is_string()) throw BadBody(std::string("the body has no text \"") + key + "\"");
  return value->get_ref<const std::string &>();
}

std::optional<std::string> Body::text_if_any(const char *key) const {
  const Json *const value = member(key);
  if (value == nullptr || value->is_null()) return std::nullopt;
  return text(key);
}

} // namespace gatherwright::page
