// SPDX-License-Identifier: GPL-3.0-or-later
#include "whole_file.hpp"

#include "write_all.hpp"

#include <atomic>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <system_error>
#include <utility>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace gatherwright::cli {

namespace {

using Why = std::optional<std::string>;

Why system_fault(int code = errno) {
  return std::strerror(code);
}

constexpr std::string_view part_begins = ".gatherwright-";
constexpr std::string_view part_ends = ".part";

constexpr mode_t ordinary = 0666; ///< what the process's mask leaves of it

std::string folder_of(const std::string &path) {
  const std::size_t slash = path.rfind('/');
  return slash == std::string::npos ? "." : slash == 0 ? "/" : path.substr(0, slash);
}

/// A name beside the file that no other process, thread or call has.
std::string name_beside(const std::string &path) {
  static std::atomic<unsigned> calls{0};
  std::string name = folder_of(path);
  ((name += '/') += part_begins) += std::to_string(::getpid());
  ((name += '-') += std::to_string(calls++)) += part_ends;
  return name;
}

/// A file without a name, in a folder: it is gone if the process is. Not every file system has them.
int nameless_in(const std::string &folder) {
  return ::open(folder.c_str(), O_TMPFILE | O_WRONLY | O_CLOEXEC, ordinary);
}

/// Gives a nameless file its name.
bool link_as(int file, const std::string &name) {
  const std::string open_file = "/proc/self/fd/" + std::to_string(file);
  return ::linkat(AT_FDCWD, open_file.c_str(), AT_FDCWD, name.c_str(), AT_SYMLINK_FOLLOW) == 0;
}

Why move_into_place(const std::string &from, const std::string &to) {
  if (::rename(from.c_str(), to.c_str()) == 0) return std::nullopt;
  const int code = errno;
  ::unlink(from.c_str());
  return system_fault(code);
}

Why write_named(const std::string &path, std::string_view text) {
  const std::string beside = name_beside(path);
  OpenFile file(::open(beside.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, ordinary));
  if (!file.is_open()) return system_fault();
  if (write_all(file.number(), text) && file.close()) return move_into_place(beside, path);
  const int code = errno;
  ::unlink(beside.c_str());
  return system_fault(code);
}

Why write_beside(const std::string &path, std::string_view text) {
  OpenFile file(nameless_in(folder_of(path)));
  if (!file.is_open()) return write_named(path, text);
  if (!write_all(file.number(), text)) return system_fault();
  if (link_as(file.number(), path)) return std::nullopt;
  if (errno != EEXIST) return write_named(path, text);
  const std::string beside = name_beside(path);
  if (!link_as(file.number(), beside)) return system_fault();
  return move_into_place(beside, path);
}

Why write_straight(const std::string &path, std::string_view text) {
  OpenFile file(::open(path.c_str(), O_WRONLY | O_CLOEXEC));
  if (!file.is_open() || !write_all(file.number(), text) || !file.close()) return system_fault();
  return std::nullopt;
}

/// Where a path leads once its symbolic links are followed, even where nothing stands there yet.
std::string followed(std::filesystem::path path) {
  constexpr int most_links = 40; // as the system itself follows
  std::error_code failed;
  for (int i = 0; i < most_links && std::filesystem::is_symlink(path, failed); ++i)
    path = path.parent_path() / std::filesystem::read_symlink(path, failed);
  return path.string();
}

} // namespace

std::optional<std::string> write_whole_file(const std::string &path, std::string_view text) {
  if (path.empty()) return system_fault(ENOENT);
  struct stat status {};
  if (::lstat(path.c_str(), &status) != 0) return write_beside(path, text);
  if (S_ISLNK(status.st_mode) && ::stat(path.c_str(), &status) != 0) return write_beside(followed(path), text);
  if (S_ISDIR(status.st_mode)) return system_fault(EISDIR);
  if (!S_ISREG(status.st_mode)) return write_straight(path, text);
  // The folder's rights would let a file be replaced that its owner has marked as read-only.
  if ((status.st_mode & (S_IWUSR | S_IWGRP | S_IWOTH)) == 0 || ::access(path.c_str(), W_OK) != 0)
    return system_fault(EACCES);
  return write_beside(followed(path), text);
}

bool is_left_over(std::string_view name) {
  return name.starts_with(part_begins) && name.ends_with(part_ends);
}

WholeFile::WholeFile(std::string path) : path_(followed(std::move(path))) {
  // Without /proc a nameless file could not be given its name at the end.
  if (::access("/proc/self/fd", X_OK) == 0) file_ = OpenFile(nameless_in(folder_of(path_)));
  if (file_.is_open()) return;
  beside_ = name_beside(path_);
  file_ = OpenFile(::open(beside_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, ordinary));
  if (file_.is_open()) return;
  failed_ = system_fault();
  beside_.clear();
}

WholeFile::~WholeFile() {
  if (!beside_.empty()) ::unlink(beside_.c_str());
}

Why WholeFile::write_pending() {
  if (!failed_ && !write_all(file_.number(), pending_)) failed_ = system_fault();
  pending_.clear();
  return failed_;
}

Why WholeFile::append(std::string_view text) {
  constexpr std::size_t piece = 65536;
  if (!failed_) pending_ += text;
  return pending_.size() < piece ? failed_ : write_pending();
}

Why WholeFile::commit() {
  if (write_pending()) return failed_;
  if (beside_.empty()) {
    if (link_as(file_.number(), path_)) return std::nullopt;
    const std::string name = name_beside(path_);
    if (errno != EEXIST || !link_as(file_.number(), name)) return failed_ = system_fault();
    beside_ = name;
  }
  if (!file_.close()) return failed_ = system_fault();
  return failed_ = move_into_place(std::exchange(beside_, {}), path_);
}

} // namespace gatherwright::cli
