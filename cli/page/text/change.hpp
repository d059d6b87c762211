// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/fault_list.hpp"
#include "cli/machine/beside.hpp"
#include "gatherwright/outcome.hpp"

#include <string>
#include <string_view>
#include <variant>
#include <vector>

/// Changes to a job's text, as a form makes them: all bytes outside what is touched are kept, with remarks, blanks,
/// line ends, the order of keys and the way in which figures are written.
namespace gatherwright::page {

/// Writes a value at the pointer. What it stands in is made where it is not there, a short form is written as the long
/// one where the pointer leads into it, and a new key goes where docs/format.md lists it. JSON null takes away what
/// stands there, and what is then left with nothing in it. A list or an object without a blank between its tokens is
/// laid out as jobs are; any other text is written as it is given.
struct SetValue {
  std::string json;
};

/// Puts a value in, where none stands: under a new key, or before what stands at that place of a list ("-": behind
/// all).
struct Insert {
  std::string json;
};

/// Takes away what stands at the pointer, with the remarks right above it and behind it on its line.
struct Remove {};

/// Moves it to another place among its neighbours, from 0, with the same remarks.
struct Move {
  int place = 0;
};

/// Gives a measure, a length, a join, a mark (the `to` of a segment) or a piece another name, wherever that stands:
/// its own place, formulas, sides. Not in remarks, nor in other texts.
struct Rename {
  std::string name;
};

/// Moves a named length by whole steps of the tape: what is aimed at of one to be found, the value of one that is
/// given, the one quantity added in a formula. A formula without one is a fault that says so.
struct Slide {
  int steps = 0;
};

/// Does what a remedy of the plan says, by its number from 0. The pointer is of no account.
struct TakeRemedy {
  int number = 0;
};

/// Likewise what a saving says: a length to be found aims there.
struct TakeSaving {
  int number = 0;
};

struct Change {
  std::string pointer; ///< RFC 6901, as faults have it
  std::variant<SetValue, Insert, Remove, Move, Rename, Slide, TakeRemedy, TakeSaving> what;
};

/// The text with one thing changed. Faults: the text is no JSON (or, of a slide, a remedy or a saving, no job), there
/// is no such place, what would stand there is none; each with the line in `text` and the pointer. Whether the new text
/// is a job is not asked, but it can be read to its end. `beside`: where the job's drawings are.
Outcome<std::string, std::vector<cli::InputFault>> changed(std::string_view text, const Change &change,
                                                           const cli::Beside &beside = {});

} // namespace gatherwright::page
