// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/folder.hpp"

#include "cli/cast/file_names.hpp"
#include "cli/cast/wearer_files.hpp"
#include "cli/job/fault_list.hpp"
#include "cli/machine/whole_file.hpp"
#include "cli/words/quoted.hpp"

#include <filesystem>
#include <system_error>
#include <vector>

namespace gatherwright::cli::cast {

namespace {

namespace fs = std::filesystem;

constexpr const char *take_away = "take it away";

/// The wearer whose file this would be, by its name, folded.
std::optional<std::string> wearer_of(const std::string &file) {
  for (const std::string_view suffix : suffixes)
    if (file.size() > suffix.size() && file.ends_with(suffix))
      return folded(file.substr(0, file.size() - suffix.size()));
  return std::nullopt;
}

bool is_file_left_over(const fs::directory_entry &entry) {
  std::error_code failed;
  return is_left_over(entry.path().filename().string()) &&
         entry.symlink_status(failed).type() == fs::file_type::regular;
}

/// What is wrong with something that has the name of a file that the cast writes, if anything.
std::optional<NotTaken> fault_of_entry(const fs::directory_entry &entry, std::span<const Taken> taken) {
  std::error_code failed;
  const fs::file_type type = entry.symlink_status(failed).type();
  const std::string name = cli::quoted(entry.path().string());
  if (type == fs::file_type::symlink)
    return NotTaken{name + " is a link, and nothing is written through one", take_away};
  if (type == fs::file_type::directory) return NotTaken{name + " is a folder and no file", take_away};
  if (type != fs::file_type::regular) return NotTaken{name + " is no file", take_away};
  if (const Taken *other = taken_at(taken, place_of(entry.path().string())))
    return NotTaken{name + " would be written, but " + std::string(other->by), "name another folder"};
  return std::nullopt;
}

/// The same of any entry of a folder in which a cast is gone on with.
std::optional<NotTaken> fault_in_resuming(const fs::directory_entry &entry,
                                          const std::unordered_map<std::string, long long> &names,
                                          std::span<const Taken> taken) {
  const std::string file = entry.path().filename().string();
  const auto wearer = wearer_of(file);
  if (wearer && !names.contains(*wearer))
    return NotTaken{cli::quoted(entry.path().string()) + " is there and no wearer of the list",
                    "resume with the list that the cast was begun with, or take that file away"};
  if (wearer || file == cast_table || file == cut_table || file == cloth_table) return fault_of_entry(entry, taken);
  return std::nullopt;
}

} // namespace

std::optional<std::variant<NotTaken, CannotTouch>> look_at(const std::string &folder, bool resume,
                                                           const std::unordered_map<std::string, long long> &names,
                                                           std::span<const Taken> taken) {
  std::error_code failed;
  const fs::file_status status = fs::status(folder, failed);
  if (status.type() == fs::file_type::not_found) return std::nullopt;
  if (failed && status.type() == fs::file_type::none) return CannotTouch{failed.message()};
  if (status.type() != fs::file_type::directory)
    return NotTaken{cli::quoted(folder) + " is a file", "name a folder, new or empty"};
  fs::directory_iterator entry(folder, failed);
  for (; !failed && entry != fs::directory_iterator(); entry.increment(failed)) {
    if (is_file_left_over(*entry)) continue;
    if (!resume)
      return NotTaken{
          cli::quoted(folder) + " is not empty",
          "name a folder that is new or empty; or write --resume, to go on with a cast that was broken off"};
    if (auto fault = fault_in_resuming(*entry, names, taken)) return *std::move(fault);
  }
  if (failed) return CannotTouch{failed.message()};
  return std::nullopt;
}

Made make_folder(const std::string &folder) {
  // A name that ends in a slash is that of the folder before it.
  const std::string name = folder.size() > 1 && folder.back() == '/' ? folder.substr(0, folder.size() - 1) : folder;
  std::error_code failed;
  const bool is_new = fs::create_directories(name, failed);
  return {is_new, failed ? std::optional(failed.message()) : std::nullopt};
}

void clear_left_overs(const std::string &folder) {
  std::error_code failed;
  std::vector<fs::path> left;
  for (fs::directory_iterator entry(folder, failed); !failed && entry != fs::directory_iterator();
       entry.increment(failed))
    if (is_file_left_over(*entry)) left.push_back(entry->path());
  for (const fs::path &path : left)
    fs::remove(path, failed);
}

} // namespace gatherwright::cli::cast
