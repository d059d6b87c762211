// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/job_file.hpp"

#include "cli/job/document.hpp"
#include "cli/machine/file_place.hpp"
#include "cli/machine/input_file.hpp"
#include "cli/machine/whole_file.hpp"
#include "cli/words/names.hpp"
#include "gatherwright/text.hpp"

#include <algorithm>
#include <cerrno>

#include <sys/stat.h>
#include <utf8proc.h>

namespace gatherwright::page {

namespace {

bool is_there(const std::string &path) {
  struct stat status {};
  return ::stat(path.c_str(), &status) == 0 || errno != ENOENT;
}

std::string without_folder(const std::string &path) {
  const std::size_t slash = path.rfind('/');
  return slash == std::string::npos ? path : path.substr(slash + 1);
}

bool may_be_in_name(char32_t code) {
  if (code == U' ' || code == U'-' || code == U'_') return true;
  const utf8proc_category_t category = utf8proc_category(static_cast<utf8proc_int32_t>(code));
  return (category >= UTF8PROC_CATEGORY_LU && category <= UTF8PROC_CATEGORY_MC) || category == UTF8PROC_CATEGORY_ND;
}

/// Within a second of its being written a file can be written again without the system's showing another time.
bool is_settled(const std::timespec &written) {
  std::timespec now{};
  return std::timespec_get(&now, TIME_UTC) != 0 && now.tv_sec > written.tv_sec + 1;
}

} // namespace

std::optional<std::string> why_no_name(std::string_view name) {
  constexpr int longest = 64;
  int count = 0;
  bool has_more_than_spaces = false;
  for (std::size_t at = 0; at < name.size(); ++count) {
    const Character character = character_at(name, at);
    if (!character.valid || !may_be_in_name(character.code)) return "a name has letters, digits, spaces, - and _ alone";
    has_more_than_spaces = has_more_than_spaces || character.code != U' ';
    at += character.bytes;
  }
  if (count > longest) return "a name has at most 64 letters";
  if (!has_more_than_spaces) return "a name has at least one letter";
  return std::nullopt;
}

std::string JobFile::digest_of(std::string_view bytes) const {
  std::string digest;
  cli::throw_unless_well(digest_(bytes, digest));
  return digest;
}

std::optional<JobFile::Stamp> JobFile::stamp_of(const std::string &path) {
  struct stat status {};
  if (::stat(path.c_str(), &status) != 0) return std::nullopt;
  return Stamp{status.st_dev, status.st_ino, status.st_size, status.st_mtim, status.st_ctim};
}

bool JobFile::same(const Stamp &a, const Stamp &b) {
  const auto at_once = [](const std::timespec &x, const std::timespec &y) {
    return x.tv_sec == y.tv_sec && x.tv_nsec == y.tv_nsec;
  };
  return a.device == b.device && a.number == b.number && a.size == b.size && at_once(a.written, b.written) &&
         at_once(a.altered, b.altered);
}

std::optional<std::string> JobFile::name() const {
  const std::lock_guard lock(lock_);
  if (!path_) return std::nullopt;
  return words::printable(without_folder(*path_));
}

cli::Beside JobFile::beside() const {
  const std::lock_guard lock(lock_);
  return path_ ? cli::files_beside(*path_, cli::longest_text) : cli::Beside{};
}

std::optional<OnDisk> JobFile::read_now() const {
  if (!path_ || !is_there(*path_)) return std::nullopt;
  const std::optional<Stamp> before = stamp_of(*path_);
  auto text = cli::read_file_itself(cli::followed(*path_), cli::longest_text);
  if (!text) throw CannotReadJob(text.fault().why);
  OnDisk found{*std::move(text), {}};
  found.digest = digest_of(found.text);
  known_.reset();
  if (before && is_settled(before->altered)) known_ = {*before, found.digest};
  return found;
}

std::optional<OnDisk> JobFile::read() const {
  const std::lock_guard lock(lock_);
  return read_now();
}

std::optional<std::string> JobFile::digest() const {
  const std::lock_guard lock(lock_);
  if (path_ && known_)
    if (const auto stamp = stamp_of(*path_); stamp && same(*stamp, known_->stamp)) return known_->digest;
  const auto found = read_now();
  if (!found) return std::nullopt;
  return found->digest;
}

SaveOutcome JobFile::save_first(const ToSave &what) {
  if (!what.name) return NoName{"the job has no name yet"};
  if (auto why = why_no_name(*what.name)) return NoName{*std::move(why)};
  const std::string path = *what.name + ".json";
  if (const auto why = cli::write_new_file(path, what.text)) {
    if (is_there(path)) return NameTaken{path};
    return CannotSave{path, *why};
  }
  path_ = path;
  return Saved{digest_of(what.text), path};
}

SaveOutcome JobFile::save(const ToSave &what) {
  const std::lock_guard lock(lock_);
  if (!path_) return save_first(what);
  auto now = read_now();
  const bool as_read = now.has_value() == what.read.has_value() && (!now || now->digest == *what.read);
  if (!as_read) return Altered{std::move(now)};
  const auto why = now ? cli::write_whole_file(*path_, what.text) : cli::write_new_file(*path_, what.text);
  const std::string name = words::printable(without_folder(*path_));
  if (!why) return Saved{digest_of(what.text), name};
  if (!now && is_there(*path_)) return Altered{read_now()}; // it came meanwhile
  return CannotSave{name, *why};
}

} // namespace gatherwright::page
