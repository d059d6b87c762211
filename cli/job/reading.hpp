// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/document.hpp"
#include "cli/machine/beside.hpp"
#include "cli/tracing/xml.hpp"
#include "gatherwright/formula.hpp"

#include <deque>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace gatherwright::cli {

/// The names that formulas may use, as symbols: the measures, the lengths, the cloth's width.
struct Names {
  std::unordered_map<std::string_view, int> symbols;
  std::deque<std::string> mended;   ///< names that are none, as they may be called, for `symbols` to stand on
  std::vector<std::string> offered; ///< in place of one that is not found
  NameIndex find;
  int cloth_width = 0;              ///< its symbol
  bool cloth_width_left_out = true; ///< no width is written, not even a faulty one
  std::vector<Affine> values;       ///< of each symbol
  std::vector<bool> known;          ///< false: its own line is at fault, and what names it is not judged
  std::size_t terms = 0;            ///< that all formulas so far have on lengths to be found, when all is put in
  bool too_many_terms = false;
};

/// What the readers of a job's parts share.
struct Reading {
  const Document &document;
  FaultList &faults;
  Unit unit = Unit::cm;
  bool bare_lengths = false;
  Names names;
  const Beside &beside;                                                              ///< where drawings are
  std::map<std::string, std::shared_ptr<const tracing::ElementsOutcome>> drawings{}; ///< those read so far
  std::size_t drawings_read = 0;                                                     ///< their bytes
  std::size_t traced = 0; ///< bytes of the path data that was made of them

  /// A fault of a value, or of its key.
  void fault(const Value &value, Fault fault) const {
    faults.add({value.line, document.pointer(value), std::move(fault)});
  }
  void fault_of_key(const Value &value, Fault fault) const {
    faults.add({value.key_line, document.pointer(value), std::move(fault)});
  }
};

} // namespace gatherwright::cli
