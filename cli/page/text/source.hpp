// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/document.hpp"
#include "gatherwright/outcome.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

/// A job's text as it was read, and where in it everything stands.
namespace gatherwright::page {

/// Where a value stands, as offsets of bytes in the text.
struct Extent {
  std::size_t key = 0;   ///< where its key begins, at the quote; that of a value without one is where it begins
  std::size_t begin = 0; ///< where it begins
  std::size_t end = 0;   ///< past its end
};

/// The extent of every value of a document, in the document's order. The document must be that of the text.
///
/// This is a pass of its own over a text that is known to be JSON, so that the reader, which goes over a job at every
/// plan, need not keep offsets that a change alone asks for, and so that it need not know any faults.
std::vector<Extent> extents_of(std::string_view text, const cli::Document &document);

using Faults = std::vector<cli::InputFault>;

struct Source {
  std::string_view text; ///< must outlive it
  cli::Document document;
  std::vector<Extent> extents;

  int index(const cli::Value &value) const { return static_cast<int>(&value - &document.root()); }
  const Extent &at(const cli::Value &value) const { return extents[static_cast<std::size_t>(index(value))]; }
  std::string_view written(const cli::Value &value) const {
    return text.substr(at(value).begin, at(value).end - at(value).begin);
  }
};

/// Reads a text; where it is no JSON, its fault. Keys that come twice are none here.
Outcome<Source, Faults> source_of(std::string_view text);

/// The steps of a pointer, with "~0" and "~1" resolved: "/joins/0" has two, "" none. A fault where it is no pointer, or
/// has more steps than a text may be deep.
Outcome<std::vector<std::string>> steps_of(std::string_view pointer);

/// The place in a list that a step says: a whole number, written plainly.
std::optional<int> place_of(std::string_view step);

/// A text as JSON has it, in quotes.
std::string quoted_json(std::string_view text);

} // namespace gatherwright::page
