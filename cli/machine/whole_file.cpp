// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/machine/whole_file.hpp"

#include "cli/machine/file_place.hpp"
#include "cli/machine/write_all.hpp"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <random>
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

/// A name beside the file. It is drawn by lot, since a number of the process comes again: what a program that was
/// killed has left must not be in the way of those after it.
std::string name_beside(const std::string &path) {
  static constexpr std::string_view digits = "0123456789abcdef";
  std::random_device lot;
  std::string name = folder_of(path);
  (name += '/') += part_begins;
  for (int i = 0; i < 16; ++i)
    name += digits[lot() % digits.size()];
  return name += part_ends;
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

/// What may be in a file's place when it comes there.
enum class There { nothing, anything };

bool move(const std::string &from, const std::string &to, There there) {
  if (there == There::anything) return ::rename(from.c_str(), to.c_str()) == 0;
  if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return true;
  // Not every file system can tell; neither way follows a link.
  return (errno == EINVAL || errno == ENOSYS) && ::rename(from.c_str(), to.c_str()) == 0;
}

Why move_into_place(const std::string &from, const std::string &to, There there) {
  if (move(from, to, there)) return std::nullopt;
  const int code = errno;
  ::unlink(from.c_str());
  return system_fault(code);
}

/// A new file is as open to others as the one it replaces, if there is one, and from before anything is in it. Rights
/// come after the owner, since they are taken away with it; who may not give files away keeps the new one.
bool take_rights(int file, const struct stat *replaced) {
  if (replaced == nullptr) return true;
  [[maybe_unused]] const bool owned = ::fchown(file, replaced->st_uid, replaced->st_gid) == 0 ||
                                      ::fchown(file, static_cast<uid_t>(-1), replaced->st_gid) == 0;
  constexpr mode_t rights = S_IRWXU | S_IRWXG | S_IRWXO;
  struct stat now {};
  if (::fstat(file, &now) == 0 && (now.st_mode & rights) == (replaced->st_mode & rights)) return true;
  return ::fchmod(file, replaced->st_mode & rights) == 0;
}

/// A file that is not there yet, under this name; the caller's alone until it has the rights of what it replaces.
OpenFile named(const std::string &name, const struct stat *replaced) {
  const mode_t mode = replaced == nullptr ? ordinary : S_IRUSR | S_IWUSR;
  return OpenFile(::open(name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode));
}

/// A file on its way into place: what it says and what it replaces.
struct Coming {
  const std::string &path;
  std::string_view text;
  There there = There::anything;
  const struct stat *replaced = nullptr;
};

Why write_named(const Coming &coming) {
  const std::string beside = name_beside(coming.path);
  OpenFile file = named(beside, coming.replaced);
  if (!file.is_open()) return system_fault();
  if (take_rights(file.number(), coming.replaced) && write_all(file.number(), coming.text) && file.close())
    return move_into_place(beside, coming.path, coming.there);
  const int code = errno;
  ::unlink(beside.c_str());
  return system_fault(code);
}

Why write_beside(const Coming &coming) {
  OpenFile file(nameless_in(folder_of(coming.path)));
  if (!file.is_open()) return write_named(coming);
  if (!take_rights(file.number(), coming.replaced) || !write_all(file.number(), coming.text)) return system_fault();
  if (link_as(file.number(), coming.path)) return std::nullopt;
  if (errno != EEXIST) return write_named(coming);
  if (coming.there == There::nothing) return system_fault();
  const std::string beside = name_beside(coming.path);
  if (!link_as(file.number(), beside)) return system_fault();
  return move_into_place(beside, coming.path, There::anything);
}

Why write_straight(const std::string &path, std::string_view text) {
  OpenFile file(::open(path.c_str(), O_WRONLY | O_CLOEXEC));
  if (!file.is_open() || !write_all(file.number(), text) || !file.close()) return system_fault();
  return std::nullopt;
}

} // namespace

std::optional<std::string> write_whole_file(const std::string &path, std::string_view text) {
  if (path.empty()) return system_fault(ENOENT);
  struct stat status {};
  if (::lstat(path.c_str(), &status) != 0) return write_beside({path, text});
  const std::string end = followed(path);
  if (S_ISLNK(status.st_mode) && ::stat(path.c_str(), &status) != 0) return write_beside({end, text});
  if (S_ISDIR(status.st_mode)) return system_fault(EISDIR);
  if (!S_ISREG(status.st_mode)) return write_straight(path, text);
  // The folder's rights would let a file be replaced that its owner has marked as read-only.
  if ((status.st_mode & (S_IWUSR | S_IWGRP | S_IWOTH)) == 0 || ::access(path.c_str(), W_OK) != 0)
    return system_fault(EACCES);
  return write_beside({end, text, There::anything, &status});
}

std::optional<std::string> write_new_file(const std::string &path, std::string_view text) {
  return write_beside({path, text, There::nothing});
}

bool is_left_over(std::string_view name) {
  return name.starts_with(part_begins) && name.ends_with(part_ends);
}

WholeFile::WholeFile(std::string path) : path_(std::move(path)) {
  struct stat there {};
  const struct stat *const replaced = ::lstat(path_.c_str(), &there) == 0 && S_ISREG(there.st_mode) ? &there : nullptr;
  // Without /proc a nameless file could not be given its name at the end.
  if (::access("/proc/self/fd", X_OK) == 0) file_ = OpenFile(nameless_in(folder_of(path_)));
  if (!file_.is_open()) {
    const std::string beside = name_beside(path_);
    file_ = named(beside, replaced);
    if (file_.is_open()) beside_ = beside;
  }
  if (!file_.is_open() || !take_rights(file_.number(), replaced)) failed_ = system_fault();
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
  return failed_ = move_into_place(std::exchange(beside_, {}), path_, There::anything);
}

} // namespace gatherwright::cli
