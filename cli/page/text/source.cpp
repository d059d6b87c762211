// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/source.hpp"

#include "cli/page/text/scan.hpp"
#include "cli/words/quoted.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

namespace gatherwright::page {

using cli::Document;
using cli::Value;

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// Past what stands between two values and is none itself.
std::size_t past_signs(std::string_view text, std::size_t at) {
  at = past_gap(text, at);
  while (at < text.size() && (text[at] == ',' || text[at] == ':'))
    at = past_gap(text, at + 1);
  return at;
}

std::size_t past_word(std::string_view text, std::size_t at) {
  return std::min(text.size(), text.find_first_of(" \t\r\n,]}/", at));
}

/// Goes through the values as they stand.
class ExtentPass {
public:
  ExtentPass(std::string_view text, const Document &document) : text_(text), values_(&document.root()) {
    extents_.resize(static_cast<std::size_t>(document.root().end));
    at_ = text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
  }

  std::vector<Extent> run() && {
    const int count = values_->end;
    for (int i = 0; i < count; ++i) {
      close_before(i);
      take(i);
    }
    close_before(count);
    return std::move(extents_);
  }

private:
  void close_before(int next) {
    while (!open_.empty() && values_[open_.back()].end == next) {
      at_ = past_signs(text_, at_) + 1;
      extents_[static_cast<std::size_t>(open_.back())].end = at_;
      open_.pop_back();
    }
  }

  void take(int i) {
    const Value &value = values_[i];
    Extent &extent = extents_[static_cast<std::size_t>(i)];
    at_ = past_signs(text_, at_);
    extent.key = at_;
    if (!open_.empty() && values_[open_.back()].kind == Value::Kind::object)
      at_ = past_signs(text_, past_quotes(text_, at_));
    extent.begin = at_;
    if (value.kind == Value::Kind::object || value.kind == Value::Kind::list) {
      ++at_;
      open_.push_back(i);
      return;
    }
    at_ = value.kind == Value::Kind::text ? past_quotes(text_, at_) : past_word(text_, at_);
    extent.end = at_;
  }

  std::string_view text_;
  const Value *values_;
  std::vector<Extent> extents_;
  std::vector<int> open_;
  std::size_t at_ = 0;
};

} // namespace

std::vector<Extent> extents_of(std::string_view text, const Document &document) {
  return ExtentPass(text, document).run();
}

Outcome<Source, Faults> source_of(std::string_view text) {
  cli::FaultList faults;
  auto document = cli::read_document(text, faults);
  if (!document) return std::move(faults).by_line();
  std::vector<Extent> extents = extents_of(text, *document);
  return Source{text, *std::move(document), std::move(extents)};
}

Outcome<std::vector<std::string>> steps_of(std::string_view pointer) {
  std::vector<std::string> steps;
  if (!pointer.empty() && pointer.front() != '/')
    return Fault{cli::quoted(pointer) + " is no pointer", "begin it with /"};
  if (std::count(pointer.begin(), pointer.end(), '/') > cli::deepest_level)
    return Fault{"the pointer has more than 100 steps", "a job is no more than 10 deep"};
  for (std::size_t at = 0; at < pointer.size(); ++at) {
    if (pointer[at] == '/') {
      steps.emplace_back();
    } else if (pointer[at] != '~') {
      steps.back() += pointer[at];
    } else {
      const char escaped = ++at < pointer.size() ? pointer[at] : '\0';
      if (escaped != '0' && escaped != '1')
        return Fault{cli::quoted(pointer) + " is no pointer", "write ~0 for ~ and ~1 for /"};
      steps.back() += escaped == '0' ? '~' : '/';
    }
  }
  return steps;
}

std::optional<int> place_of(std::string_view step) {
  int place = 0;
  const auto [end, error] = std::from_chars(step.data(), step.data() + step.size(), place);
  const bool plain = !step.empty() && step.front() != '-' && (step.size() == 1 || step.front() != '0');
  return plain && error == std::errc() && end == step.data() + step.size() ? std::optional(place) : std::nullopt;
}

std::string quoted_json(std::string_view text) {
  std::string json = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\')
      (json += '\\') += c;
    else if (byte < 0x20)
      json += fmt::format("\\u{:04x}", byte);
    else
      json += c;
  }
  return json + '"';
}

} // namespace gatherwright::page
