// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/fault_list.hpp"

#include "cli/words/quoted.hpp"

#include <algorithm>
#include <array>

namespace gatherwright::cli {

namespace {

constexpr std::size_t longest_half = 600; // of a message: what a formula says of itself may be long

void append_escaped(std::string &line, unsigned code) {
  constexpr std::string_view digits = "0123456789abcdef";
  line += "\\u00";
  line += digits[code >> 4U & 15U];
  line += digits[code & 15U];
}

/// C0 controls and DEL are one byte of UTF-8, C1 controls are 0xC2 and one of 0x80 to 0x9F.
void append_on_one_line(std::string &line, std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    const auto next = i + 1 < text.size() ? static_cast<unsigned char>(text[i + 1]) : 0U;
    if (byte < 0x20 || byte == 0x7f) {
      append_escaped(line, byte);
    } else if (byte == 0xc2 && next >= 0x80 && next <= 0x9f) {
      append_escaped(line, next);
      ++i;
    } else {
      line += text[i];
    }
  }
}

} // namespace

std::string fault_line(std::string_view file, const InputFault &fault) {
  std::string line;
  append_on_one_line(line, file);
  line += ':';
  line += std::to_string(fault.line);
  line += ": ";
  append_on_one_line(line, fault.pointer);
  line += ": ";
  append_on_one_line(line, fault.fault.what);
  if (!fault.fault.instead.empty()) {
    line += "; ";
    append_on_one_line(line, fault.fault.instead);
  }
  return line;
}

Fault with_short_halves(Fault fault) {
  for (std::string *half : {&fault.what, &fault.instead})
    half->resize(clipped(*half, longest_half).size());
  return fault;
}

void FaultList::add(InputFault fault) {
  if (full()) return;
  fault.fault = with_short_halves(std::move(fault.fault));
  faults_.push_back(std::move(fault));
}

std::vector<InputFault> FaultList::by_line() && {
  std::stable_sort(faults_.begin(), faults_.end(),
                   [](const InputFault &a, const InputFault &b) { return a.line < b.line; });
  return std::move(faults_);
}

} // namespace gatherwright::cli
