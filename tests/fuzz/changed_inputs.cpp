// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/fuzz/changed_inputs.hpp"

#include <algorithm>
#include <charconv>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>

namespace gatherwright::fuzz {

namespace {

using namespace std::string_view_literals;

constexpr std::size_t most_changes = 8;
constexpr std::size_t longest = 4096; ///< of what is moved about at once

/// Where things end, turn over or mean something.
constexpr std::string_view telling = "\0\x01\x7f\x80\xbf\xc2\xe2\xf0\xfe\xff 0129.,:;+-*/%()[]{}<>=\"'\\\n\r\teE"sv;

Bytes unescaped(std::string_view text) {
  Bytes bytes;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\\' || i + 1 == text.size()) {
      bytes.push_back(static_cast<std::uint8_t>(text[i]));
      continue;
    }
    ++i;
    std::uint8_t value = static_cast<std::uint8_t>(text[i]);
    if (text[i] == 'x' && i + 2 < text.size()) {
      std::from_chars(text.data() + i + 1, text.data() + i + 3, value, 16);
      i += 2;
    }
    bytes.push_back(value);
  }
  return bytes;
}

} // namespace

std::vector<Bytes> read_dictionary(const std::filesystem::path &path) {
  std::vector<Bytes> words;
  std::ifstream file(path);
  for (std::string line; std::getline(file, line);) {
    const std::size_t first = line.find('"');
    const std::size_t last = line.rfind('"');
    if (line.starts_with('#') || first == std::string::npos || last == first) continue;
    words.push_back(unescaped(std::string_view(line).substr(first + 1, last - first - 1)));
  }
  return words;
}

std::uint8_t ChangedInputs::telling_byte() {
  if (below(4) == 0) return static_cast<std::uint8_t>(below(256));
  return static_cast<std::uint8_t>(telling[below(telling.size())]);
}

void ChangedInputs::change(Bytes &bytes) {
  const auto at = [&](std::size_t place) { return bytes.begin() + static_cast<std::ptrdiff_t>(place); };
  const std::size_t place = below(bytes.size() + 1);
  const std::size_t length = std::min({below(below(8) == 0 ? longest : 16) + 1, bytes.size() - place});
  switch (below(words_.empty() ? 6 : 8)) {
  case 0:
    if (place < bytes.size()) bytes[place] = static_cast<std::uint8_t>(bytes[place] ^ (1u << below(8)));
    break;
  case 1:
    if (place < bytes.size()) bytes[place] = telling_byte();
    break;
  case 2:
    bytes.insert(at(place), telling_byte());
    break;
  case 3:
    bytes.erase(at(place), at(place + length));
    break;
  case 4: {
    const Bytes again(at(place), at(place + length));
    bytes.insert(at(below(bytes.size() + 1)), again.begin(), again.end());
    break;
  }
  case 5: {
    const Bytes &other = any_of(seeds_);
    const std::size_t from = below(other.size() + 1);
    const std::size_t to = from + std::min(below(longest), other.size() - from);
    bytes.insert(at(place), other.begin() + static_cast<std::ptrdiff_t>(from),
                 other.begin() + static_cast<std::ptrdiff_t>(to));
    break;
  }
  default: {
    const Bytes &word = any_of(words_);
    bytes.erase(at(place), at(place + (below(2) == 0 ? 0 : length)));
    bytes.insert(at(place), word.begin(), word.end());
    break;
  }
  }
}

Bytes ChangedInputs::make(std::uint64_t number) {
  random_.seed(number);
  Bytes bytes = any_of(seeds_);
  for (std::size_t changes = 1 + below(most_changes); changes > 0; --changes)
    change(bytes);
  return bytes;
}

} // namespace gatherwright::fuzz
