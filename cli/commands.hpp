// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/machine/answer.hpp"
#include "cli/report/ink.hpp"
#include "cli/report/say.hpp"
#include "cli/request.hpp"

#include <functional>
#include <span>
#include <string>
#include <string_view>

namespace gatherwright::cli {

/// What a command may need to know of where its answer goes.
struct Surroundings {
  bool terminal = false;                           ///< standard output is one that shows colours
  bool no_color = false;                           ///< NO_COLOR is set and not empty
  std::function<void(std::string_view)> tell = {}; ///< writes to a terminal on standard error at once; else none
  /// Takes the beginning of an answer too long to be held, which the rest follows; where there is none all is held.
  report::Say say = {};
};

/// Carries out a command line, without the program's own name. What it has to say is returned; only the files it asks
/// for are written, and what `tell` and `say` take.
Answer run(std::span<const std::string> words, const Surroundings &surroundings);

/// How a command speaks.
struct Voice {
  report::Ink ink;
  const std::function<void(std::string_view)> &tell;
  const report::Say &say;
};

/// What is asked for, done: one for each alternative of Request.
Answer answer(const HelpRequest &asked, const Voice &voice);
Answer answer(const VersionRequest &asked, const Voice &voice);
Answer answer(const PlanRequest &asked, const Voice &voice);
Answer answer(const JoinRequest &asked, const Voice &voice);
Answer answer(const CastRequest &asked, const Voice &voice);
Answer answer(const PageRequest &asked, const Voice &voice);
Answer answer(const LimitsRequest &asked, const Voice &voice);
Answer answer(const StartRequest &asked, const Voice &voice);

} // namespace gatherwright::cli
