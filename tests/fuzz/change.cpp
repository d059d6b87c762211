// SPDX-License-Identifier: GPL-3.0-or-later
// A change of any text is a text that can be read, or faults; and the same each time. Of a text without keys that come
// twice, its values are those of the text before but for what was changed, as another reader has them. The first line
// says what to change: "set /lengths/cuff/keep true".
#include "cli/page/text/change.hpp"
#include "cli/page/text/written.hpp"

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <optional>

using namespace gatherwright;
using namespace gatherwright::page;
using Json = nlohmann::ordered_json;

namespace {

void demand(bool holds) {
  if (!holds) std::abort();
}

int number_of(std::string_view text) {
  int number = 0;
  std::from_chars(text.data(), text.data() + text.size(), number);
  return number;
}

std::string_view word(std::string_view &line) {
  const std::size_t end = std::min(line.size(), line.find(' '));
  const std::string_view first = line.substr(0, end);
  line.remove_prefix(std::min(line.size(), end + 1));
  return first;
}

page::Change change_of(std::string_view line) {
  const std::string_view what = word(line);
  page::Change change{std::string(word(line)), Remove{}};
  if (what == "set") change.what = SetValue{std::string(line)};
  if (what == "insert") change.what = Insert{std::string(line)};
  if (what == "move") change.what = Move{number_of(line)};
  if (what == "rename") change.what = Rename{std::string(line)};
  if (what == "slide") change.what = Slide{number_of(line)};
  if (what == "remedy") change.what = TakeRemedy{number_of(line)};
  if (what == "saving") change.what = TakeSaving{number_of(line)};
  return change;
}

/// The values of a text, by its own reader and by nlohmann's; nothing where it is none, or has a key twice.
std::optional<Json> values_of(std::string_view text) {
  cli::FaultList faults;
  const auto document = cli::read_document(text, faults);
  if (!document) return std::nullopt;
  const Written told = written(text, *document);
  const Json job = Json::parse(told.job);
  if (!faults.empty()) return std::nullopt;
  demand(job == Json::parse(text, nullptr, true, true));
  return job;
}

/// The place that was asked for, where both have it; nlohmann has no place behind the last.
std::optional<Json::json_pointer> pointer_into(const Json &values, const std::string &pointer) {
  try {
    Json::json_pointer found(pointer);
    if (values.contains(found)) return found;
  } catch (const nlohmann::json::exception &) {
  }
  return std::nullopt;
}

void hold_value(const Json &before, const Json &after, const std::string &pointer, const SetValue &set) {
  const std::optional<Json> value = values_of(set.json);
  const auto at = pointer_into(before, pointer);
  if (!value || value->is_null() || !at) return;
  Json expected = before;
  expected[*at] = *value;
  demand(after == expected);
}

void hold_again(std::string_view text, const std::string &changed, const page::Change &change) {
  if (!std::holds_alternative<Insert>(change.what) || change.pointer.ends_with("/-")) return;
  const auto back = page::changed(changed, {change.pointer, Remove{}});
  const auto before = values_of(text);
  const auto after = back ? values_of(*back) : std::nullopt;
  // Without what was made for it, which stays.
  if (before && after && pointer_into(*before, change.pointer.substr(0, change.pointer.rfind('/'))))
    demand(*after == *before);
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
  const std::string_view input(reinterpret_cast<const char *>(data), size);
  const std::size_t line_end = std::min(size, input.find('\n'));
  const std::string_view text = input.substr(std::min(size, line_end + 1));
  const page::Change change = change_of(input.substr(0, line_end));
  const auto outcome = changed(text, change);
  const auto again = changed(text, change);
  demand(static_cast<bool>(outcome) == static_cast<bool>(again));
  if (!outcome) {
    demand(!outcome.fault().empty() && outcome.fault() == again.fault());
    for (const cli::InputFault &fault : outcome.fault())
      demand(fault.line >= 1 && !fault.fault.what.empty());
    return 0;
  }
  demand(*outcome == *again);
  const auto before = values_of(text);
  if (!before) return 0;
  const auto after = values_of(*outcome);
  if (const auto *set = std::get_if<SetValue>(&change.what); set && after)
    hold_value(*before, *after, change.pointer, *set);
  hold_again(text, *outcome, change);
  return 0;
}
