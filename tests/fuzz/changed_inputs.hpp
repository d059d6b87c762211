// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <filesystem>
#include <random>
#include <vector>

namespace gatherwright::fuzz {

using Bytes = std::vector<std::uint8_t>;

/// Words of a dictionary as libFuzzer's dictionaries have them, one in quotation marks a line.
std::vector<Bytes> read_dictionary(const std::filesystem::path &path);

/// Inputs made of seeds by a few changes at random each: bytes flipped, set, put in, left out, said twice or taken from
/// another seed, words of the dictionary put in. Where no compiler watches which way an input goes, this takes a
/// fuzzer's place. Every input follows from its number alone, so that one that fails comes again.
class ChangedInputs {
public:
  ChangedInputs(std::vector<Bytes> seeds, std::vector<Bytes> words)
      : seeds_(std::move(seeds)), words_(std::move(words)) {}

  Bytes make(std::uint64_t number);

private:
  std::size_t below(std::size_t end) { return std::uniform_int_distribution<std::size_t>(0, end - 1)(random_); }
  const Bytes &any_of(const std::vector<Bytes> &list) { return list[below(list.size())]; }
  std::uint8_t telling_byte();
  void change(Bytes &bytes);

  std::vector<Bytes> seeds_;
  std::vector<Bytes> words_;
  std::mt19937_64 random_;
};

} // namespace gatherwright::fuzz
