// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/machine/file_place.hpp"

#include <algorithm>
#include <filesystem>
#include <optional>
#include <system_error>

#include <sys/stat.h>
#include <unistd.h>

namespace gatherwright::cli {

namespace {

namespace fs = std::filesystem;

/// The place of a file that is open already; nothing where it is a terminal, a pipe or a device.
std::optional<FilePlace> place_of_open(int file) {
  struct stat status {};
  if (::fstat(file, &status) != 0 || !S_ISREG(status.st_mode)) return std::nullopt;
  return FilePlace{status.st_dev, status.st_ino, {}};
}

} // namespace

std::string followed(const std::string &path) {
  constexpr int most_links = 40; // as the system itself follows
  std::error_code failed;
  fs::path at = path;
  for (int i = 0; i < most_links && fs::is_symlink(at, failed); ++i)
    at = at.parent_path() / fs::read_symlink(at, failed);
  return at.string();
}

FilePlace place_of(const std::string &path) {
  struct stat status {};
  if (::stat(path.c_str(), &status) == 0) return {status.st_dev, status.st_ino, {}};
  const fs::path end = followed(path);
  const std::string folder = end.has_parent_path() ? end.parent_path().string() : ".";
  if (::stat(folder.c_str(), &status) == 0) return {status.st_dev, status.st_ino, end.filename().string()};
  return {0, 0, path};
}

const Taken *taken_at(std::span<const Taken> taken, const FilePlace &place) {
  const auto found = std::find_if(taken.begin(), taken.end(), [&](const Taken &each) { return each.place == place; });
  return found == taken.end() ? nullptr : &*found;
}

std::vector<Taken> taken_by_job_and_answer(const std::string &job) {
  std::vector<Taken> taken;
  const auto read = job == "-" ? place_of_open(STDIN_FILENO) : std::optional(place_of(job));
  if (!job.empty() && read) taken.push_back({*read, "this is the job itself"});
  if (const auto answer = place_of_open(STDOUT_FILENO)) taken.push_back({*answer, "the answer goes to the same file"});
  return taken;
}

} // namespace gatherwright::cli
