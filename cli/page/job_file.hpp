// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/machine/beside.hpp"
#include "cli/page/server.hpp"

#include <ctime>
#include <mutex>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <variant>

#include <sys/types.h>

/// The file that the page shows and writes.
namespace gatherwright::page {

/// What stands in the file, and the SHA-256 of its bytes.
struct OnDisk {
  std::string text;
  std::string digest;
};

struct Saved {
  std::string digest;
  std::string name;
};

/// The file is no longer what was read.
struct Altered {
  std::optional<OnDisk> now; ///< none where it is gone
};

/// There is a file of that name already.
struct NameTaken {
  std::string name;
};

/// Why a name is none.
struct NoName {
  std::string why;
};

struct CannotSave {
  std::string name;
  std::string why; ///< in the system's words
};

/// The file is there and cannot be read; says why in the system's words.
struct CannotReadJob : std::runtime_error {
  using std::runtime_error::runtime_error;
};

using SaveOutcome = std::variant<Saved, Altered, NameTaken, NoName, CannotSave>;

/// What a page has to save.
struct ToSave {
  std::string_view text;
  std::optional<std::string> read; ///< the digest of what it began with; none where there was no file
  std::optional<std::string> name; ///< of a first save
};

/// Safe to be used by several threads: saves go one after another.
class JobFile {
public:
  /// `path`: none where the first save is to name it, in the folder where one stands.
  JobFile(std::optional<std::string> path, Digest *function) : path_(std::move(path)), digest_(function) {}

  /// Without its folder; none where it has none yet.
  std::optional<std::string> name() const;

  /// None where there is no file. Throws CannotReadJob.
  std::optional<OnDisk> read() const;

  /// The digest of what is on disk, or none; read anew only where the system says that the file was touched.
  std::optional<std::string> digest() const;

  /// What stands beside the file; nothing where it has no name yet.
  cli::Beside beside() const;

  /// Writes the file whole or not at all, and never over anything but what was read.
  SaveOutcome save(const ToSave &what);

private:
  /// What the system says of a file as it stands.
  struct Stamp {
    dev_t device;
    ino_t number;
    off_t size;
    std::timespec written;
    std::timespec altered;
  };
  struct Known {
    Stamp stamp;
    std::string digest;
  };

  static std::optional<Stamp> stamp_of(const std::string &path);
  static bool same(const Stamp &a, const Stamp &b);
  std::optional<OnDisk> read_now() const;
  SaveOutcome save_first(const ToSave &what);
  std::string digest_of(std::string_view bytes) const;

  mutable std::mutex lock_;
  std::optional<std::string> path_;
  Digest *digest_;
  mutable std::optional<Known> known_;
};

/// Why it may not be the name of a first save, if it may not: it has 1 to 64 letters, digits, spaces, "-" and "_".
std::optional<std::string> why_no_name(std::string_view name);

} // namespace gatherwright::page
