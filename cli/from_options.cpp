// SPDX-License-Identifier: GPL-3.0-or-later
#include "from_options.hpp"

#include "report/columns.hpp"

#include <charconv>
#include <cmath>

namespace gatherwright::cli {

namespace {

std::string trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(' ');
  return first == std::string_view::npos ? "" : std::string(text.substr(first, text.find_last_not_of(' ') + 1 - first));
}

std::optional<double> plain_number(std::string_view text) {
  double value = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (fault != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

} // namespace

void text_from(report::JsonText &json, const Asked &asked, std::string_view option, std::string_view key) {
  if (const auto value = asked.value(option)) json.text_field(key, *value);
}

void number_from(report::JsonText &json, const Asked &asked, std::string_view option, std::string_view key,
                 std::vector<std::string> &faults) {
  const auto value = asked.value(option);
  if (!value) return;
  const auto number = plain_number(trimmed(*value));
  if (!number) {
    faults.push_back(option_fault(option, quoted(*value) + " is not a number", "write a whole number such as 4"));
    json.integer_field(key, 1); // stands in, so that the rest is judged
  } else if (*number == std::trunc(*number) && std::fabs(*number) < 1e15)
    json.integer_field(key, static_cast<long long>(*number));
  else
    json.number_field(key, *number);
}

std::optional<std::array<std::string, 2>> two_from(const Asked &asked, std::string_view option,
                                                   std::vector<std::string> &faults) {
  const auto value = asked.value(option);
  if (!value) return std::nullopt;
  const std::size_t comma = value->find(',');
  if (comma == std::string::npos) return std::array{trimmed(*value), trimmed(*value)};
  if (value->find(',', comma + 1) != std::string::npos) {
    faults.push_back(option_fault(option, "it takes two lengths with a comma between them", R"(write "3 cm,2.5 cm")"));
    return std::nullopt;
  }
  return std::array{trimmed(value->substr(0, comma)), trimmed(value->substr(comma + 1))};
}

void fabric_from(report::JsonText &json, const Asked &asked) {
  json.key("fabric");
  json.open_object();
  text_from(json, asked, "--weight", "weight");
  text_from(json, asked, "--thickness", "thickness");
  text_from(json, asked, "--bending-length", "bending_length");
  json.close();
}

std::string_view option_of(std::string_view pointer, std::span<const OptionOfKey> keys) {
  const OptionOfKey *longest = nullptr;
  for (const OptionOfKey &key : keys)
    if (pointer.starts_with(key.pointer) && (longest == nullptr || key.pointer.size() > longest->pointer.size()))
      longest = &key;
  return longest == nullptr ? "gatherwright" : longest->option;
}

std::string fault_of_option(const InputFault &fault, std::span<const OptionOfKey> keys) {
  return option_fault(option_of(fault.pointer, keys), fault.fault.what, fault.fault.instead);
}

std::variant<ReadJob, std::vector<std::string>> read_from_options(std::string_view text,
                                                                  std::span<const OptionOfKey> keys) {
  auto read = read_job(text);
  if (auto *job = std::get_if<ReadJob>(&read)) return std::move(*job);
  std::vector<std::string> faults;
  for (const InputFault &fault : std::get<std::vector<InputFault>>(read))
    faults.push_back(fault_of_option(fault, keys));
  return faults;
}

} // namespace gatherwright::cli
