// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/from_options.hpp"

#include "cli/words/columns.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/text.hpp"

#include <charconv>
#include <cmath>

namespace gatherwright::cli {

namespace {

std::optional<double> plain_number(std::string_view text) {
  double value = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (fault != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

} // namespace

void text_from(report::JsonText &json, std::string_view key, const std::optional<std::string> &value) {
  if (value) json.text_field(key, *value);
}

void number_from(report::JsonText &json, std::string_view key, const std::optional<std::string> &value,
                 std::string_view option, std::vector<std::string> &faults) {
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

std::vector<std::string> list_from(std::string_view text) {
  std::vector<std::string> items;
  for (;;) {
    const std::size_t comma = text.find(',');
    items.emplace_back(trimmed(text.substr(0, comma)));
    if (comma == std::string_view::npos) return items;
    text.remove_prefix(comma + 1);
  }
}

std::optional<std::array<std::string, 2>> two_from(const std::optional<std::string> &value, std::string_view option,
                                                   std::vector<std::string> &faults) {
  if (!value) return std::nullopt;
  const std::vector<std::string> items = list_from(*value);
  if (items.size() <= 2) return std::array{items.front(), items.back()};
  faults.push_back(option_fault(option, "it takes two lengths with a comma between them", R"(write "3 cm,2.5 cm")"));
  return std::nullopt;
}

namespace {

void swatch_from(report::JsonText &json, const ClothAsked &cloth, std::vector<std::string> &faults) {
  if (!cloth.swatch) {
    if (cloth.swatch_stitch)
      faults.push_back(option_fault(name_of<&ClothAsked::swatch_stitch>,
                                    "there is no test strip that it could be the stitch of", "write --swatch too"));
    return;
  }
  const std::vector<std::string> items = list_from(*cloth.swatch);
  if (items.size() != 2 && items.size() != 4) {
    faults.push_back(option_fault(name_of<&ClothAsked::swatch>, "it takes two or four lengths with commas between them",
                                  R"(write "30 cm,3.4 cm,10 cm,16 cm", or "30 cm,,10 cm,16 cm" without the second)"));
    return;
  }
  json.key("swatch");
  json.open_object();
  json.text_field("cut", items[0]);
  if (!items[1].empty()) json.text_field("tight", items[1]);
  if (items.size() == 4) {
    json.key("good");
    json.open_array();
    json.text(items[2]);
    json.text(items[3]);
    json.close();
  }
  text_from(json, "stitch", cloth.swatch_stitch);
  json.close();
}

} // namespace

void fabric_from(report::JsonText &json, const std::optional<std::string> &weight, const ClothAsked &cloth,
                 std::vector<std::string> &faults) {
  json.key("fabric");
  json.open_object();
  text_from(json, "weight", weight);
  text_from(json, "thickness", cloth.thickness);
  text_from(json, "bending_length", cloth.bending_length);
  if (cloth.shrinks) {
    json.key("shrinks");
    json.truth(true);
  }
  swatch_from(json, cloth, faults);
  json.close();
}

void stitch_from(report::JsonText &json, const ClothAsked &cloth, std::vector<std::string> &faults) {
  text_from(json, "stitch", cloth.stitch);
  text_from(json, "count", cloth.count);
  if (!cloth.threads) return;
  const std::vector<std::string> items = list_from(*cloth.threads);
  const auto taken = plain_number(items.front());
  const auto passed = plain_number(items.back());
  const bool two = items.size() == 2 && taken && passed;
  if (!two)
    faults.push_back(
        option_fault(name_of<&ClothAsked::threads>, "it takes two numbers with a comma between them", "write 3,4"));
  json.key("threads");
  json.open_array();
  json.number(two ? *taken : 3); // 3 and 4 stand in, so that the rest is judged
  json.number(two ? *passed : 4);
  json.close();
}

std::vector<OptionOfKey> with_cloth_keys(std::span<const OptionOfKey> own) {
  std::vector<OptionOfKey> all(cloth_keys.begin(), cloth_keys.end());
  all.insert(all.end(), own.begin(), own.end());
  return all;
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

Outcome<ReadJob, std::vector<std::string>> read_from_options(std::string_view text, std::span<const OptionOfKey> keys) {
  auto read = read_job(text);
  if (read) return *std::move(read);
  std::vector<std::string> faults;
  for (const InputFault &fault : read.fault())
    faults.push_back(fault_of_option(fault, keys));
  return faults;
}

} // namespace gatherwright::cli
