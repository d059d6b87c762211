// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/progress.hpp"

#include <fmt/format.h>

#include <cmath>

namespace gatherwright::cli::cast {

namespace {

constexpr std::chrono::milliseconds between_lines{200};
constexpr std::string_view anew = "\r\x1b[K"; ///< to the start of the line, which is emptied

std::string time_left(double seconds) {
  const long long whole = std::llround(std::ceil(seconds));
  return whole < 60 ? fmt::format("{} s", whole) : fmt::format("{} min {} s", whole / 60, whole % 60);
}

} // namespace

std::string progress_line(long long done, long long all, double seconds) {
  std::string line = fmt::format("{} of {} wearers", done, all);
  if (done <= 0 || seconds <= 0) return line;
  const double rate = static_cast<double>(done) / seconds;
  return line + fmt::format(", {:.0f} a second, {} left", rate, time_left(static_cast<double>(all - done) / rate));
}

Progress::Progress(Tell tell, long long all) : tell_(std::move(tell)), all_(all), begun_(Clock::now()), told_(begun_) {}

Progress::~Progress() {
  if (line_open_) tell_(anew);
}

void Progress::done(long long wearers) {
  if (!tell_) return;
  const Clock::time_point now = Clock::now();
  if (now - told_ < between_lines) return;
  told_ = now;
  line_open_ = true;
  tell_(std::string(anew) + progress_line(wearers, all_, std::chrono::duration<double>(now - begun_).count()));
}

} // namespace gatherwright::cli::cast
