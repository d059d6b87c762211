// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/exchange.hpp"
#include "cli/page/job_file.hpp"

#include <span>
#include <string_view>

namespace gatherwright::page {

/// A job to start from.
struct Start {
  std::string_view name;
  std::string_view summary;
  std::string_view text;
};

/// What requests are answered from.
struct Desk {
  JobFile &file;
  std::span<const Start> starts;
};

/// What is asked for, done. Faults of a job's text are an answer; a request that the page does not make has a status of
/// its own and one line. Several threads may ask at once. Throws what planning throws.
Reply answer(const Request &request, const Desk &desk);

} // namespace gatherwright::page
