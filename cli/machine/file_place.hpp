// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <sys/types.h>

/// Which file a path leads to, so that two ways of writing one file are known for that.
namespace gatherwright::cli {

/// Where a path leads once its last part's symbolic links are followed, even where nothing stands there yet.
std::string followed(const std::string &path);

/// A file by what the system knows it by, however it is reached; one that is not there yet by its folder and its name
/// in it, and where not even the folder is there, by the path as written.
struct FilePlace {
  dev_t device = 0;
  ino_t number = 0;
  std::string name; ///< empty of a file that is there

  friend bool operator==(const FilePlace &, const FilePlace &) = default;
};

FilePlace place_of(const std::string &path);

/// A file that must not be written, since it is or will be something else.
struct Taken {
  FilePlace place;
  std::string_view by; ///< "this is the job itself"
};

/// What a path leads to, if that is taken.
const Taken *taken_at(std::span<const Taken> taken, const FilePlace &place);

/// What the program reads its job from and prints its answer to, where these are files. `job`: its path; "-" is
/// standard input, and an empty one none.
std::vector<Taken> taken_by_job_and_answer(const std::string &job);

} // namespace gatherwright::cli
